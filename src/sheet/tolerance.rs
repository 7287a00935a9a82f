//! What is asked of a criterion, in a line.

use crate::marking::{Bands, CriterionResult, Reach};
use crate::quantity::{Exact, Marks, Quantity, Unit};
use crate::rubric::{
    BeyondAllowance, Criterion, Effect, Entry, FaultList, Judged, Kind, Limit, Limits, OnTheLimit,
    Rubric, Scale, SpreadMeasure, Tally,
};

use super::expression::{expression_words, limit_words, percent_words};
use super::words::{effect_words, join};

/// One entry with what is needed to say its tolerance.
pub(super) struct Asked<'a> {
    pub rubric: &'a Rubric,
    pub entry: &'a Entry<'a>,
    pub sheet: Unit,
    /// What a reading is called by its slot's id.
    pub name: &'a dyn Fn(&str) -> String,
}

/// The tolerance of an entry in words, for a reader in `sheet` units.
pub(super) fn asked_words(
    rubric: &Rubric,
    entry: &Entry<'_>,
    result: &CriterionResult,
    sheet: Unit,
) -> String {
    with_asked(rubric, entry, sheet, |asked| asked.words(result))
}

/// Does something with what is asked of an entry, its readings called by their full names.
pub(super) fn with_asked(
    rubric: &Rubric,
    entry: &Entry<'_>,
    sheet: Unit,
    see: impl FnOnce(&Asked<'_>) -> String,
) -> String {
    let slots = rubric.slots();
    let name = |id: &str| {
        let slot = slots.iter().find(|slot| slot.id == id);
        slot.map_or_else(|| id.to_owned(), |slot| slot.full_name())
    };
    see(&Asked {
        rubric,
        entry,
        sheet,
        name: &name,
    })
}

impl Asked<'_> {
    /// The tolerance in words; the marks in it count the criterion's weight.
    pub fn words(&self, result: &CriterionResult) -> String {
        let criterion = self.entry.criterion;
        let own = match &criterion.kind {
            Kind::Toleranced(kind) => self.scale(&kind.scale, result, ""),
            Kind::Paired(kind) => self.scale(&kind.scale, result, "difference"),
            Kind::Spread(kind) => self.scale(&kind.scale, result, spread_word(kind.measure)),
            Kind::Tally(tally) => self.tally(tally),
            Kind::Judged(judged) => self.judged(judged),
            Kind::Faults(list) => self.fault_list(list),
        };
        let stops_below = criterion
            .stops_below
            .map(|least| format!("below {} stops the award", self.weighted(least)));
        join([own, stops_below.unwrap_or_default()], "; ")
    }

    fn criterion(&self) -> &Criterion {
        self.entry.criterion
    }

    /// Marks of the rubric as they count here.
    fn weighted(&self, marks: Marks) -> String {
        self.criterion().weighted(marks).to_string()
    }

    fn given(&self, marks: Marks, effect: Effect) -> String {
        format!("{}{}", self.weighted(marks), effect_words(effect))
    }

    /// What is asked for, where a target is.
    pub fn head(&self, scale: &Scale, result: &CriterionResult) -> String {
        let worked = result.measured.as_ref().map(|measured| &measured.bands);
        self.target(scale, worked)
    }

    /// The limits of the band `index` in words; empty where there is none.
    pub fn band(&self, scale: &Scale, index: usize, result: &CriterionResult) -> String {
        let worked = result.measured.as_ref().map(|measured| &measured.bands);
        let reach = worked.and_then(|bands| bands.bands.get(index).map(|band| band.reach));
        let band = scale.bands.get(index);
        band.map_or_else(String::new, |band| {
            self.limits(scale, &band.limits, worked.zip(reach))
        })
    }

    fn scale(&self, scale: &Scale, result: &CriterionResult, what: &str) -> String {
        let worked = result.measured.as_ref().map(|measured| &measured.bands);
        let head = join([what.to_owned(), self.head(scale, result)], " ");
        let mut parts: Vec<String> = Vec::new();
        for (index, band) in scale.bands.iter().enumerate() {
            let limits = self.band(scale, index, result);
            parts.push(format!("{limits}: {}", self.given(band.marks, band.effect)));
        }
        parts.push(format!(
            "else {}",
            self.given(scale.beyond, scale.beyond_effect)
        ));
        let stops = scale.stops_outside.as_ref().map(|limits| {
            let reach = worked.and_then(|bands| bands.stop_limits);
            let limits = self.limits(scale, limits, worked.zip(reach));
            format!("stops the award unless {limits}")
        });
        let bands = join([head, parts.join(", ")], " ");
        join([bands, stops.unwrap_or_default()], "; ")
    }

    /// `6.35 mm (2/3 of Thickness)`; nothing where no target is set.
    fn target(&self, scale: &Scale, worked: Option<&Bands>) -> String {
        let Some(target) = &scale.target else {
            return String::new();
        };
        let said = expression_words(target, self.sheet, &|id| self.reading(id));
        let value = target
            .constant()
            .map(|quantity| quantity.base)
            .or(worked.and_then(|bands| bands.target));
        match value {
            Some(value) if target.readings().is_empty() => self.amount(scale, value),
            Some(value) => format!("{} ({said})", self.amount(scale, value)),
            None => said,
        }
    }

    fn reading(&self, id: &str) -> String {
        (self.name)(&self.rubric.slot_id(self.entry, id))
    }

    fn amount(&self, scale: &Scale, base: Exact) -> String {
        Quantity::new(scale.dimension, base).print_limit(self.sheet)
    }

    /// Limits as worked out for this piece, or as the rubric says them where a
    /// reading is missing.
    fn limits(&self, scale: &Scale, limits: &Limits, worked: Option<(&Bands, Reach)>) -> String {
        let percent = limits.parts().into_iter().find_map(|limit| match limit {
            Limit::Percent(percent) => Some(*percent),
            Limit::Amount(_) => None,
        });
        match worked {
            Some((bands, reach)) => {
                let said = self.reach(scale, bands.target, reach);
                match percent {
                    Some(percent) => format!("{said} ({})", percent_words(percent)),
                    None => said,
                }
            }
            None => {
                let say = |limit: &Limit| limit_words(limit, self.sheet, &|id| self.reading(id));
                match limits {
                    Limits::Around { under, over } if under == over => {
                        format!("within {}", say(under))
                    }
                    Limits::Around { under, over } => {
                        format!("{} under to {} over", say(under), say(over))
                    }
                    Limits::AtMost(limit) => format!("at most {}", say(limit)),
                    Limits::AtLeast(limit) => format!("at least {}", say(limit)),
                    Limits::Between(from, to) => format!("from {} to {}", say(from), say(to)),
                }
            }
        }
    }

    fn reach(&self, scale: &Scale, target: Option<Exact>, reach: Reach) -> String {
        let say = |base: Exact| self.amount(scale, base);
        match (target, reach.low, reach.high) {
            (Some(target), Some(low), Some(high)) => {
                match (target.minus(low), high.minus(target)) {
                    (Some(under), Some(over)) if under == over && under.is_zero() => {
                        "exactly".to_owned()
                    }
                    (Some(under), Some(over)) if under == over => format!("within {}", say(under)),
                    (Some(under), Some(over)) if !under.is_negative() && !over.is_negative() => {
                        format!("{} under to {} over", say(under), say(over))
                    }
                    _ => format!("from {} to {}", say(low), say(high)),
                }
            }
            (_, Some(low), Some(high)) => format!("from {} to {}", say(low), say(high)),
            (_, None, Some(high)) => format!("at most {}", say(high)),
            (_, Some(low), None) => format!("at least {}", say(low)),
            (_, None, None) => "any".to_owned(),
        }
    }

    fn tally(&self, tally: &Tally) -> String {
        let say =
            |quantity: crate::quantity::Quantity| quantity.print(tally.dimension.usual_unit());
        let full = format!("{}: {}", allowance_words(tally), self.weighted(tally.marks));
        let beyond = match tally.beyond {
            BeyondAllowance::AllMarks => "else 0".to_owned(),
            BeyondAllowance::Deduct { each, marks } => format!(
                "{} off for each {} started beyond",
                self.weighted(marks),
                say(each)
            ),
        };
        let hard = tally
            .hard_limit
            .map(|limit| format!("past {} stops the award", say(limit)));
        join([full, beyond, hard.unwrap_or_default()], ", ")
    }

    fn judged(&self, judged: &Judged) -> String {
        match judged {
            Judged::Levels(levels) => {
                let said = levels.iter().map(|level| {
                    format!("{}: {}", level.name, self.given(level.marks, level.effect))
                });
                said.collect::<Vec<_>>().join(", ")
            }
            Judged::Numbers { allowed, .. } => {
                let ends = allowed.first().zip(allowed.last());
                ends.map_or_else(String::new, |(least, most)| {
                    format!(
                        "by eye, {} to {}",
                        self.weighted(*least),
                        self.weighted(*most)
                    )
                })
            }
        }
    }

    fn fault_list(&self, list: &FaultList) -> String {
        let costs = self.criterion().faults.iter().map(|fault| fault.deduct);
        let costs: Vec<Marks> = costs.filter(|cost| *cost > Marks::ZERO).collect();
        let full = format!("no faults: {}", self.weighted(list.marks));
        let each = match (costs.iter().min(), costs.iter().max()) {
            (Some(least), Some(most)) if least == most => {
                format!("each takes {}", self.weighted(*least))
            }
            (Some(least), Some(most)) => format!(
                "each takes {} to {}",
                self.weighted(*least),
                self.weighted(*most)
            ),
            _ => String::new(),
        };
        let least = format!("at least {}", self.weighted(list.least));
        join([full, each, least], ", ")
    }
}

/// What of a series is held against its bands.
pub(super) fn spread_word(measure: SpreadMeasure) -> &'static str {
    match measure {
        SpreadMeasure::Range => "range",
        SpreadMeasure::FarthestFromMean => "farthest from the mean",
    }
}

/// How much of a count or duration takes no marks: `up to 9`.
pub(super) fn allowance_words(tally: &Tally) -> String {
    let word = match tally.on_the_limit {
        OnTheLimit::Inside => "up to",
        OnTheLimit::Over => "under",
    };
    format!(
        "{word} {}",
        tally.allowance.print(tally.dimension.usual_unit())
    )
}
