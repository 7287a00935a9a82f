use super::definitions::number;
use crate::gauge::{Measured, Shown, is_raised_by_noise};
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
    /// The reading that it fills; `None` where the rubric asks for none.
    pub fill: Option<Fill>,
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
    /// The value and its uncertainty.
    pub measured: Measured,
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
    let rows = shown.measured.iter().enumerate();
    rows.filter_map(|(place, measured)| {
        let feature = Feature::from_word(&measured.feature)?;
        let slot = slots.iter().find(|slot| slot.photo == Some(feature));
        Some(PhotoRow {
            place,
            number: number(feature),
            name: capital(feature.word()),
            value: value_words(feature, measured),
            sure: sure_words(feature, measured),
            by_hand: measured.by_hand,
            fill: slot.map(|slot| fill(slot, facts, measured)),
        })
    })
    .collect()
}

/// Readings that a photo can fill and this one does not, by name.
pub fn still_by_hand(rubric: &Rubric, shoe: Option<&str>, shown: &Shown) -> Vec<String> {
    let is_measured = |feature: Feature| {
        let mut all = shown.measured.iter();
        all.any(|one| one.feature == feature.word())
    };
    slots_of(rubric, shoe)
        .into_iter()
        .filter(|slot| slot.photo.is_some_and(|feature| !is_measured(feature)))
        .map(|slot| slot.name)
        .collect()
}

/// What whoever relies on it should know, in words.
pub fn photo_warnings(shown: &Shown) -> Vec<String> {
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
             the light and take the photo again, or measure that by hand.",
            print_figure(share * 100.0, 1)
        )
    });
    let fuller = shown.no_fuller.then(|| {
        "Where the fuller begins or ends, or all of it, is not plain on every branch. What is not \
         plain is left out, and nail holes there may be missing."
            .to_owned()
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
    let all = vague.into_iter().chain(doubtful).chain(fuller);
    all.chain(level).chain(traced).collect()
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

fn fill(slot: &Slot<'_>, facts: &Facts, measured: &Measured) -> Fill {
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
        measured: measured.clone(),
    }
}

fn unit(feature: Feature) -> &'static str {
    if feature.is_angle() { "°" } else { " mm" }
}

fn value_words(feature: Feature, measured: &Measured) -> String {
    format!("{}{}", print_figure(measured.value, 2), unit(feature))
}

fn sure_words(feature: Feature, measured: &Measured) -> String {
    let standard = measured.standard();
    if is_raised_by_noise(feature) {
        let most = print_figure(measured.value + ONE_SIDED * standard, 2);
        format!("at most {most}{}", unit(feature))
    } else {
        let wide = print_figure(COVERAGE * standard, 2);
        format!("± {wide}{}", unit(feature))
    }
}
