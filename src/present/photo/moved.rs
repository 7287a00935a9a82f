use std::collections::BTreeMap;

use super::grouped::{Group, grouped};
use crate::gauge::sheet::BY_HAND;
use crate::gauge::{Dot, HoleMark, Level, Measured, Plane, Shown, hole_measures, holes_at};
use crate::piece::Feature;

/// What somebody moved over a photo, in its pixels.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Moves {
    /// By the word of a feature, where its ends were put.
    ends: BTreeMap<String, [Dot; 2]>,
    /// All nail holes, where any was moved, removed or added.
    holes: Option<Vec<HoleMark>>,
}

/// What the row of that place measures, with the two ends that it is taken between and that can
/// be moved; `None` for what is not the distance of two places.
pub fn ends_of(shown: &Shown, place: usize) -> Option<(Feature, [Dot; 2])> {
    let measured = measured_at(shown, place)?;
    let [from, to] = measured.line.as_slice() else {
        return None;
    };
    let feature = Feature::from_word(&measured.feature)?;
    is_between_ends(feature).then_some((feature, [*from, *to]))
}

/// What stands in the row of that place, where it is one value.
fn measured_at(shown: &Shown, place: usize) -> Option<&Measured> {
    match grouped(shown).nth(place)?.each {
        [one] => Some(one),
        _ => None,
    }
}

fn is_between_ends(feature: Feature) -> bool {
    !matches!(
        feature,
        Feature::BranchLengthLeft
            | Feature::BranchLengthRight
            | Feature::BranchDeviationMax
            | Feature::BranchDeviationRms
            | Feature::ToeRadius
            | Feature::BarBackStraightness
            | Feature::BarBackSquareness
            | Feature::FullerEndLeft
            | Feature::FullerEndRight
    ) && !feature.is_many()
}

impl Moves {
    /// What was moved, for the note of the photo; empty where nothing was.
    pub fn note(&self) -> String {
        let holes = self.holes.is_some().then(|| "nail holes".to_owned());
        let parts: Vec<String> = self.ends.keys().cloned().chain(holes).collect();
        if parts.is_empty() {
            String::new()
        } else {
            format!(". Moved by hand: {}", parts.join(", "))
        }
    }

    /// Puts one end of a measure there.
    pub fn put_end(&mut self, shown: &Shown, place: usize, end: usize, at: Dot) {
        let Some(measured) = measured_at(shown, place) else {
            return;
        };
        let own = self.ends.get(&measured.feature).copied();
        let found = || ends_of(shown, place).map(|(_, ends)| ends);
        if let Some(mut ends) = own.or_else(found) {
            if let Some(end) = ends.get_mut(end) {
                *end = at;
            }
            self.ends.insert(measured.feature.clone(), ends);
        }
    }

    /// Puts what a row rests on back: the ends of its measure, or the nail holes.
    pub fn put_back(&mut self, shown: &Shown, place: usize) {
        if let Some(Group { feature, .. }) = grouped(&moved(shown, self)).nth(place) {
            if is_of_holes(feature) {
                self.holes = None;
            }
            self.ends.remove(feature.word());
        }
    }

    /// Where the nail holes are as they stand, those that were added last.
    pub fn holes(&self, shown: &Shown) -> Vec<HoleMark> {
        let found = shown.holes.iter().map(|hole| HoleMark {
            at: hole.at,
            unsure: hole.unsure,
            own: hole.own,
            by_hand: false,
        });
        self.holes.clone().unwrap_or_else(|| found.collect())
    }

    /// Puts a nail hole there.
    pub fn put_hole(&mut self, shown: &Shown, place: usize, at: Dot) {
        let mut holes = self.holes(shown);
        if let Some(hole) = holes.get_mut(place) {
            *hole = put_there(shown, at);
        }
        self.holes = Some(holes);
    }

    /// Adds a nail hole in the middle of the web half way along a branch: `left` or `right`.
    pub fn add_hole(&mut self, shown: &Shown, side: &str) {
        let web = match side {
            "left" => Feature::WebQuarterLeft,
            _ => Feature::WebQuarterRight,
        };
        let mut all = shown.measured.iter();
        let web = all.find(|one| one.feature == web.word());
        let (columns, rows) = shown.size;
        let at = match web.map(|web| web.line.as_slice()) {
            Some([from, to]) => (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)),
            _ => (columns as f64 / 2.0, rows as f64 / 2.0),
        };
        let mut holes = self.holes(shown);
        holes.push(put_there(shown, at));
        self.holes = Some(holes);
    }

    /// Takes a nail hole off.
    pub fn remove_hole(&mut self, shown: &Shown, place: usize) {
        let mut holes = self.holes(shown);
        if place < holes.len() {
            holes.remove(place);
        }
        self.holes = Some(holes);
    }

    /// Whether a nail hole was moved, removed or added.
    pub fn has_holes(&self) -> bool {
        self.holes.is_some()
    }

    /// Whether an end of a measure was moved.
    pub fn has_ends(&self, shown: &Shown, place: usize) -> bool {
        let measured = measured_at(shown, place);
        measured.is_some_and(|one| self.ends.contains_key(&one.feature))
    }

    /// Puts all nail holes back.
    pub fn put_holes_back(&mut self) {
        self.holes = None;
    }
}

/// A nail hole that somebody put there. How the camera and the frame of the shoe make a hole
/// unsure is not told apart in a photo, so it is no surer than the surest that was found.
fn put_there(shown: &Shown, at: Dot) -> HoleMark {
    let found = shown.holes.iter().map(|hole| hole.unsure);
    let least = found.fold(f64::INFINITY, f64::min);
    let least = if least.is_finite() { least } else { 0.0 };
    let place = |at: Dot| shown.plane.place(at, Level::Hole);
    let steps = [(at.0 + 1.0, at.1), (at.0, at.1 + 1.0)];
    let apart = steps.map(|step| Some(place(step)?.distance(place(at)?)));
    let widest = apart.into_iter().flatten().fold(0.0, f64::max);
    HoleMark {
        at,
        unsure: least.hypot(BY_HAND * widest),
        own: BY_HAND * widest,
        by_hand: true,
    }
}

/// A measured shoe with what was moved: measures between their ends as they stand, and the nail
/// holes, both measured anew.
pub fn moved(shown: &Shown, moves: &Moves) -> Shown {
    let measured = shown.measured.iter().map(|one| {
        let ends = moves.ends.get(&one.feature);
        let again = ends.and_then(|ends| between(&shown.plane, one, *ends));
        again.unwrap_or_else(|| one.clone())
    });
    let mut moved = Shown {
        measured: measured.collect(),
        ..shown.clone()
    };
    if let Some(holes) = &moves.holes {
        let holes = holes_at(shown, holes);
        moved.measured.retain(|one| {
            let feature = Feature::from_word(&one.feature);
            !feature.is_some_and(is_of_holes)
        });
        let again = hole_measures(&holes).into_iter();
        let again = again.filter(|one| one.is_seen(&shown.hidden));
        moved.measured.extend(again);
        moved.holes = holes;
    }
    moved
}

/// Whether it is told by where the nail holes are.
fn is_of_holes(feature: Feature) -> bool {
    feature.rests_on_holes() && feature != Feature::FullerInset
}

/// A measure between two other ends, with the uncertainty of placing them by hand ([`BY_HAND`])
/// and the part that all measures of the photo share.
///
/// *Source:* JCGM 100:2008, 5.1.2, with the four coordinates of the ends as inputs.
fn between(plane: &Plane, one: &Measured, ends: [Dot; 2]) -> Option<Measured> {
    let feature = Feature::from_word(&one.feature)?;
    let value = apart(plane, feature, ends)?;
    let [from, to] = ends;
    let steps = [
        [(from.0 + 1.0, from.1), to],
        [(from.0, from.1 + 1.0), to],
        [from, (to.0 + 1.0, to.1)],
        [from, (to.0, to.1 + 1.0)],
    ];
    let slopes = steps.map(|step| Some(apart(plane, feature, step)? - value));
    let squares = slopes.into_iter().flatten().map(|slope| slope * slope);
    Some(Measured {
        value,
        own: BY_HAND * squares.sum::<f64>().sqrt(),
        line: ends.to_vec(),
        by_hand: true,
        ..one.clone()
    })
}

/// How far apart two ends lie on the ground face, in mm: of the overall measures along their own
/// direction, as their ends need not lie opposite to each other.
fn apart(plane: &Plane, feature: Feature, [from, to]: [Dot; 2]) -> Option<f64> {
    let way = plane.place(to, Level::Face)? - plane.place(from, Level::Face)?;
    Some(match feature {
        Feature::OverallWidth => way.x.abs(),
        Feature::OverallLength => way.y.abs(),
        _ => way.hypot(),
    })
}
