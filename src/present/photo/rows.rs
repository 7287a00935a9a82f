use super::definitions::number;
use super::grouped::{Group, grouped};
use super::hidden::hidden_words;
use crate::gauge::{Face, Measured, Shown, is_raised_by_noise};
use crate::marking::{Facts, ReadingFact, is_photo_gauge};
use crate::piece::Feature;
use crate::quantity::print_figure;
use crate::rubric::{Rubric, Slot};
use crate::sheet::capital;

/// A value lies within so many standard uncertainties with about 95 % (JCGM 100:2008, 6.3.3).
const COVERAGE: f64 = 2.0;
/// It lies below so many with 95 %, where only the upper side counts: the normal distribution.
const ONE_SIDED: f64 = 1.645;

/// What was measured, and the reading that it fills.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoRow {
    /// Its place among what was measured.
    pub place: usize,
    /// Its number in the picture, from 1.
    pub number: usize,
    /// What it is.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
    /// How sure it is, in words.
    pub sure: String,
    /// Whether somebody moved the ends that it is taken between.
    pub by_hand: bool,
    /// The readings that it fills; none where the rubric asks for none or it is not whole.
    pub fills: Vec<Fill>,
}

/// A reading to fill.
#[derive(Debug, Clone, PartialEq)]
pub struct Fill {
    /// Key of the readings.
    pub slot: String,
    /// What the rubric calls it.
    pub name: String,
    /// What stands there now; empty where nothing does.
    pub now: String,
    /// Whether it is taken unless somebody says otherwise: nothing that was measured by hand is
    /// replaced unasked.
    pub is_taken: bool,
    /// What fills it.
    pub feature: Feature,
    /// The value and its uncertainty; in turn where the reading is a series or of several places.
    pub measured: Vec<Measured>,
}

/// What was measured, in the order of a sheet, for the shoe with this id where there are
/// several.
pub fn photo_rows(
    rubric: &Rubric,
    facts: &Facts,
    shoe: Option<&str>,
    shown: &Shown,
) -> Vec<PhotoRow> {
    let slots = slots_of(rubric, shoe);
    let are_all_seen = unseen_holes(rubric, shown).is_none();
    let rows = grouped(shown).enumerate();
    rows.map(|(place, Group { feature, each })| {
        let taken: Vec<Measured> = each
            .iter()
            .map(|one| one.of_ground_face(shown.face))
            .collect();
        let slots = slots
            .iter()
            .filter(|slot| slot.photo == Some(of_ground_face(feature, shown.face)))
            .filter(|slot| slot.members == 1 || u32::try_from(taken.len()) == Ok(slot.members))
            .filter(|_| are_all_seen || !feature.rests_on_holes());
        PhotoRow {
            place,
            number: number(feature),
            name: capital(feature.word()),
            value: value_words(feature, each),
            sure: sure_words(feature, each),
            by_hand: each.iter().any(|one| one.by_hand),
            fills: slots
                .map(|slot| fill(slot, feature, facts, taken.clone()))
                .collect(),
        }
    })
    .collect()
}

/// What a reading's left and right are: a rubric means those of the ground face.
fn of_ground_face(feature: Feature, face: Face) -> Feature {
    match face {
        Face::Ground => feature,
        Face::Foot => feature.mirrored(),
    }
}

/// How many nail holes the branches are asked to have and are seen to have, where these are not
/// the same: a hole that is not seen makes wrong whatever rests on it.
fn unseen_holes(rubric: &Rubric, shown: &Shown) -> Option<[(usize, usize); 2]> {
    let nails = rubric.piece.nails.as_ref()?;
    let asked = (nails.outer, nails.inner);
    let asked = (
        usize::try_from(asked.0).ok()?,
        usize::try_from(asked.1).ok()?,
    );
    let of = |side: &str| shown.holes.iter().filter(|hole| hole.side == side).count();
    let seen = (of("left"), of("right"));
    let is_all = seen == asked || seen == (asked.1, asked.0);
    (!is_all).then_some([asked, seen])
}

/// Readings that a photo can fill and this one does not, by name.
pub fn still_by_hand(rubric: &Rubric, shoe: Option<&str>, shown: &Shown) -> Vec<String> {
    let rows = photo_rows(rubric, &Facts::default(), shoe, shown);
    let fills: Vec<&Fill> = rows.iter().flat_map(|row| &row.fills).collect();
    slots_of(rubric, shoe)
        .into_iter()
        .filter(|slot| !fills.iter().any(|fill| fill.slot == slot.id))
        .map(|slot| slot.name)
        .collect()
}

/// What whoever relies on it should know, in words.
pub fn photo_warnings(rubric: &Rubric, shown: &Shown) -> Vec<String> {
    let vague = shown.vague.map(|share| {
        format!(
            "The camera’s height is known to {} % only. A photo that keeps its camera data says \
             more: choose the file as the camera made it.",
            print_figure(share * 100.0, 1)
        )
    });
    let doubtful = shown.doubtful.map(|share| {
        format!(
            "Over {} % of the outline the edge is in doubt. What rests on it is left blank; turn \
             the light and take the photo again, put points on the edge there, or measure that by \
             hand.",
            print_figure(share * 100.0, 1)
        )
    });
    let fuller = shown.no_fuller.then(|| {
        "Where the fuller begins or ends, or all of it, is not plain on every branch. What is not \
         plain is left out, and nail holes there may be missing."
            .to_owned()
    });
    let holes = unseen_holes(rubric, shown);
    let holes = holes.filter(|_| shown.face == Face::Ground && !shown.is_traced);
    let holes = holes.map(|[(outer, inner), (left, right)]| {
        format!(
            "The piece asks for {outer} nail holes in one branch and {inner} in the other; \
             {left} are plainly seen on the left and {right} on the right. What rests on them is \
             left blank: measure that by hand."
        )
    });
    let level = shown.no_level.then(|| {
        "Two marks on a ruler cannot tell how far the camera leaned; 5 degrees are allowed for. \
         A sheet under the shoe says far more."
            .to_owned()
    });
    let traced = shown.is_traced.then(|| {
        "A traced outline is wider than what it was traced round, by about half the pencil’s lead \
         on each side. Nothing is taken off for that; it is part of how sure each value is."
            .to_owned()
    });
    let all = hidden_words(shown)
        .into_iter()
        .chain(vague)
        .chain(doubtful)
        .chain(fuller);
    all.chain(holes).chain(level).chain(traced).collect()
}

fn slots_of<'r>(rubric: &'r Rubric, shoe: Option<&str>) -> Vec<Slot<'r>> {
    let slots = rubric.slots().into_iter();
    slots
        .filter(|slot| slot.photo.is_some())
        .filter(|slot| match (slot.shoe, shoe) {
            (Some(own), Some(wanted)) => own.id == wanted,
            _ => true,
        })
        .collect()
}

fn fill(slot: &Slot<'_>, feature: Feature, facts: &Facts, measured: Vec<Measured>) -> Fill {
    let written = facts.readings.get(&slot.id).into_iter().flatten();
    let written: Vec<&ReadingFact> = written.filter(|fact| fact.is_written()).collect();
    let is_photo = |fact: &&ReadingFact| {
        let with = fact.instrument.as_deref();
        with.is_some_and(is_photo_gauge)
    };
    let now: Vec<&str> = written.iter().map(|fact| fact.text.as_str()).collect();
    Fill {
        slot: slot.id.clone(),
        name: slot.name.clone(),
        now: now.join(", "),
        is_taken: written.iter().all(is_photo),
        feature,
        measured,
    }
}

fn unit(feature: Feature) -> &'static str {
    if feature.is_angle() { "°" } else { " mm" }
}

/// The value; of several each, to a tenth, as more would be hard to read.
fn value_words(feature: Feature, each: &[Measured]) -> String {
    let places = if feature.is_many() { 1 } else { 2 };
    let values = each.iter().map(|one| print_figure(one.value, places));
    let values: Vec<String> = values.collect();
    format!("{}{}", values.join("; "), unit(feature))
}

/// How sure it is; of several, how sure the least sure one is.
fn sure_words(feature: Feature, each: &[Measured]) -> String {
    let standard = each.iter().map(Measured::standard).fold(0.0, f64::max);
    if is_raised_by_noise(feature) {
        let value = each.iter().map(|one| one.value).fold(0.0, f64::max);
        let most = print_figure(value + ONE_SIDED * standard, 2);
        format!("at most {most}{}", unit(feature))
    } else {
        let wide = print_figure(COVERAGE * standard, 2);
        format!("± {wide}{}", unit(feature))
    }
}
