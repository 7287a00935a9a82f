//! Reasons in words.

use crate::quantity::{
    Dimension, Exact, Marks, Quantity, Unit, decimals_that_tell_apart, is_nearer,
    print_length_fraction, shortened,
};

use super::bands::{Bands, Met, Reach};

/// Prints amounts of one dimension so that no value looks like a limit that it
/// differs from.
pub(super) struct Voice {
    dimension: Dimension,
    unit: Unit,
    decimals: u32,
}

impl Voice {
    /// `marked` are the values whose distance from `limits` must show.
    pub fn new(dimension: Dimension, sheet: Unit, marked: &[Exact], limits: &[Exact]) -> Self {
        let mut unit = sheet.or_usual(dimension);
        if unit.is_inch() && clash(unit, marked, limits) {
            unit = Unit::Millimetre;
        }
        let in_unit = |value: &Exact| value.over(unit.in_base()).unwrap_or(Exact::ZERO);
        let limits: Vec<Exact> = limits.iter().map(in_unit).collect();
        let least = unit.decimals();
        let decimals = marked
            .iter()
            .map(|value| decimals_that_tell_apart(in_unit(value), &limits, least))
            .max()
            .unwrap_or(least);
        Self {
            dimension,
            unit,
            decimals,
        }
    }

    pub fn say(&self, base: Exact) -> String {
        Quantity::new(self.dimension, base).print_to(self.unit, self.decimals)
    }

    /// A limit, as short as it can be said exactly.
    pub fn limit(&self, base: Exact) -> String {
        if self.unit.is_inch() {
            Quantity::new(self.dimension, base).print_limit(self.unit)
        } else {
            shortened(&self.say(base))
        }
    }
}

fn clash(unit: Unit, marked: &[Exact], limits: &[Exact]) -> bool {
    let steps = if unit == Unit::Inch32 { 32 } else { 64 };
    let say = |base: &Exact| print_length_fraction(Quantity::new(Dimension::Length, *base), steps);
    let step = Exact::fraction(1, steps).and_then(|step| step.times(unit.in_base()));
    // What lies a step or more away reads otherwise.
    let near = |one: &Exact, other: &Exact| step.is_none_or(|step| is_nearer(*one, *other, step));
    marked.iter().any(|value| {
        limits
            .iter()
            .any(|limit| limit != value && near(limit, value) && say(limit) == say(value))
    })
}

/// Where a value lies against its bands: "1.3 mm over 129 mm, within 1.5 mm".
pub(super) fn place_in_words(voice: &Voice, bands: &Bands, value: Exact, met: Met) -> String {
    let reach = met
        .band
        .and_then(|index| bands.bands.get(index))
        .or(bands.bands.last())
        .map(|band| band.reach);
    let Some(reach) = reach else {
        return String::new();
    };
    let inside = met.band.is_some();
    match (bands.target, reach.low, reach.high) {
        (Some(target), Some(low), Some(high)) => {
            let around = around(voice, inside, target, value, (low, high));
            let comma = if around.is_empty() { "" } else { ", " };
            format!("{}{comma}{around}", from_target(voice, target, value))
        }
        (_, None, Some(high)) if inside => format!("at most {}", voice.limit(high)),
        (_, None, Some(high)) => format!("over {}", voice.limit(high)),
        (_, Some(low), None) if inside => format!("at least {}", voice.limit(low)),
        (_, Some(low), None) => format!("under {}", voice.limit(low)),
        (_, Some(low), Some(high)) => {
            let word = if inside { "from" } else { "outside" };
            format!("{word} {} to {}", voice.limit(low), voice.limit(high))
        }
        (_, None, None) => String::new(),
    }
}

fn from_target(voice: &Voice, target: Exact, value: Exact) -> String {
    let asked = voice.limit(target);
    match value.minus(target) {
        Some(off) if off.is_zero() => "as asked for".to_owned(),
        Some(off) if off.is_negative() => format!("{} under {asked}", voice.say(off.size())),
        Some(off) => format!("{} over {asked}", voice.say(off)),
        None => asked,
    }
}

fn around(
    voice: &Voice,
    inside: bool,
    target: Exact,
    value: Exact,
    (low, high): (Exact, Exact),
) -> String {
    let word = if inside { "within" } else { "outside" };
    let limit = if value < target {
        target.minus(low)
    } else {
        high.minus(target)
    };
    match limit {
        // "Exactly" says nothing more than the distance from the target does.
        Some(limit) if limit.is_zero() => String::new(),
        limit => format!("{word} {}", voice.limit(limit.unwrap_or(Exact::ZERO))),
    }
}

/// What an interval or verdict says: "at least 0.5 mm and less than 0.6 mm".
pub(super) fn reach_in_words(voice: &Voice, reach: Reach) -> String {
    match (reach.low, reach.high) {
        (Some(low), Some(high)) if reach.high_included => {
            format!("{} to {}", voice.limit(low), voice.limit(high))
        }
        (Some(low), Some(high)) => {
            format!(
                "at least {} and less than {}",
                voice.limit(low),
                voice.limit(high)
            )
        }
        (Some(low), None) if reach.low_included => format!("at least {}", voice.limit(low)),
        (Some(low), None) => format!("over {}", voice.limit(low)),
        (None, Some(high)) if reach.high_included => format!("at most {}", voice.limit(high)),
        (None, Some(high)) => format!("under {}", voice.limit(high)),
        (None, None) => "any value".to_owned(),
    }
}

/// `why`, then the marks: "…: 6 of 8".
pub(super) fn with_marks(why: &str, marks: Marks, out_of: Marks) -> String {
    format!("{why}: {marks} of {out_of}")
}

/// Puts more words behind a reason.
pub(super) fn also(why: &mut String, words: &str) {
    if !why.is_empty() && !words.is_empty() {
        why.push_str("; ");
    }
    why.push_str(words);
}
