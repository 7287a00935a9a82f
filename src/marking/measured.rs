//! Toleranced, paired and spread criteria.

use crate::quantity::{Exact, Quantity, Unit, Verdict};
use crate::rubric::{Entry, Kind, Paired, Rubric, Scale, Spread, SpreadMeasure, Toleranced};

use super::bands::{Bands, Basis, Reach};
use super::found::{Found, TOO_LARGE};
use super::result::Measured;
use super::taken::{Slots, Taken, below_zero};
use super::words::{Voice, place_in_words, reach_in_words};

/// One measured entry with all that it needs.
pub(super) struct Gauge<'a, 'r> {
    pub rubric: &'a Rubric,
    pub entry: &'a Entry<'r>,
    pub slots: &'a Slots<'r>,
    pub sheet: Unit,
}

/// What a criterion measures: where the value is, what the words call it and
/// what per cent counts from.
struct Value {
    reach: Reach,
    words: String,
    /// What several readings come to; empty for one.
    name: &'static str,
    own_mean: Option<Exact>,
    both_signs: bool,
    verdict: Option<(Verdict, Option<String>)>,
}

impl Gauge<'_, '_> {
    /// Marks of a measured criterion.
    pub fn find(&self) -> Found {
        match &self.entry.criterion.kind {
            Kind::Toleranced(kind) => self.toleranced(kind),
            Kind::Paired(kind) => self.paired(kind),
            Kind::Spread(kind) => self.spread(kind),
            _ => Found::missing("nothing to measure"),
        }
    }

    fn id(&self, reading: &str) -> String {
        self.rubric.slot_id(self.entry, reading)
    }

    fn toleranced(&self, kind: &Toleranced) -> Found {
        let id = self.id(&kind.reading);
        let single = |reach, words| Value {
            reach,
            words,
            name: "",
            own_mean: None,
            both_signs: false,
            verdict: None,
        };
        let any = Reach::closed(None, None);
        let value = match self.slots.taken(&id) {
            None => None,
            Some(Taken::Mean(mean, 1)) => Some(single(Reach::point(*mean), String::new())),
            Some(Taken::Mean(mean, count)) => Some(Value {
                name: "mean",
                ..single(Reach::point(*mean), format!("mean of {count} readings "))
            }),
            Some(Taken::Series(_)) => {
                return Found::problem("a series stands where one reading is asked for; keep one");
            }
            Some(Taken::Interval(from, to)) => {
                let reach = Reach {
                    high_included: false,
                    ..Reach::closed(Some(*from), Some(*to))
                };
                Some(single(reach, String::new()))
            }
            Some(Taken::Verdict(verdict, limit)) => {
                let verdict = Some((*verdict, limit.clone()));
                Some(Value {
                    verdict,
                    ..single(any, String::new())
                })
            }
        };
        self.place(&kind.scale, value)
    }

    fn paired(&self, kind: &Paired) -> Found {
        let (left, right) = (self.id(&kind.left), self.id(&kind.right));
        let side = |id: &str| self.slots.mean(id).map(|quantity| quantity.base);
        let value = match (side(&left), side(&right)) {
            (Some(left), Some(right)) => {
                let both = (left.minus(right), Exact::mean(&[left, right]));
                let (Some(difference), Some(mean)) = both else {
                    return Found::problem(TOO_LARGE);
                };
                let voice = Voice::new(kind.scale.dimension, self.sheet, &[left, right], &[]);
                let words = format!(
                    "left {}, right {}, difference ",
                    voice.say(left),
                    voice.say(right)
                );
                Some(Value {
                    reach: Reach::point(difference),
                    words,
                    name: "difference",
                    own_mean: Some(mean.size()),
                    both_signs: true,
                    verdict: None,
                })
            }
            _ if [&left, &right]
                .iter()
                .any(|id| self.slots.taken(id).is_some_and(is_open)) =>
            {
                return Found::problem("a difference needs a value on both sides; write numbers");
            }
            _ => None,
        };
        self.place(&kind.scale, value)
    }

    fn spread(&self, kind: &Spread) -> Found {
        let Some(Taken::Series(members)) = self.slots.taken(&self.id(&kind.reading)) else {
            return self.place(&kind.scale, None);
        };
        let ends = (
            members.iter().min(),
            members.iter().max(),
            Exact::mean(members),
        );
        let (Some(least), Some(most), Some(mean)) = ends else {
            return Found::problem(TOO_LARGE);
        };
        let (least, most) = (*least, *most);
        let from_mean = members
            .iter()
            .filter_map(|member| Some(member.minus(mean)?.size()))
            .max();
        let (spread, word) = match kind.measure {
            SpreadMeasure::Range => (most.minus(least), "range"),
            SpreadMeasure::FarthestFromMean => (from_mean, "farthest from the mean"),
        };
        let Some(spread) = spread else {
            return Found::problem(TOO_LARGE);
        };
        let voice = Voice::new(kind.scale.dimension, self.sheet, &[least, most], &[]);
        let words = format!(
            "{} readings from {} to {}, {word} ",
            members.len(),
            voice.say(least),
            voice.say(most)
        );
        let value = Value {
            reach: Reach::point(spread),
            words,
            name: word,
            own_mean: Some(mean.size()),
            both_signs: false,
            verdict: None,
        };
        self.place(&kind.scale, Some(value))
    }

    /// Holds the value against the bands; without a value the bands alone.
    fn place(&self, scale: &Scale, value: Option<Value>) -> Found {
        let reading = |id: &str| -> Option<Quantity> { self.slots.mean(&self.id(id)) };
        let basis = Basis {
            reading: &reading,
            own_mean: value.as_ref().and_then(|value| value.own_mean),
            both_signs: matches!(self.entry.criterion.kind, Kind::Paired(_)),
        };
        let Some(bands) = Bands::work_out(scale, &basis) else {
            return Found::missing(self.what_is_missing(scale));
        };
        let measured = |reach| Measured {
            dimension: scale.dimension,
            bands: bands.clone(),
            value: reach,
        };
        let Some(value) = value else {
            return Found::missing(self.lack()).measured(measured(None));
        };
        let reach = match &value.verdict {
            None => value.reach,
            Some((verdict, name)) => match verdict_reach(&bands, *verdict, name.as_deref()) {
                Ok(reach) => reach,
                Err(message) => return Found::problem(message).measured(measured(None)),
            },
        };
        let is_below = reach.low.is_some_and(Exact::is_negative);
        let is_amount = matches!(self.entry.criterion.kind, Kind::Toleranced(_));
        if is_amount
            && is_below
            && value.verdict.is_none()
            && !bands.reach_below_zero()
            && let Some(message) = below_zero(scale.dimension)
        {
            return Found::problem(message).measured(measured(None));
        }
        self.decide(scale, &bands, &value, reach)
            .measured(measured(Some(reach)))
    }

    fn decide(&self, scale: &Scale, bands: &Bands, value: &Value, reach: Reach) -> Found {
        let mut limits = bands.limits();
        limits.extend(bands.target);
        // A verdict's ends are limits themselves; those of an interval are told apart.
        let marked: Vec<Exact> = match reach.single() {
            Some(point) => vec![point],
            None if value.verdict.is_some() => Vec::new(),
            None => reach.low.into_iter().chain(reach.high).collect(),
        };
        limits.extend(&marked);
        let voice = Voice::new(scale.dimension, self.sheet, &marked, &limits);
        let met = match bands.within(reach) {
            Ok(met) => met,
            Err(limit) => {
                let said = reach_in_words(&voice, reach);
                let across = limit.map(|limit| format!(" lies across {}", voice.limit(limit)));
                let across = across.unwrap_or_default();
                return Found::missing(format!("{said}{across}: write a value to decide it"));
            }
        };
        match reach.single() {
            Some(point) => {
                let said = if value.both_signs {
                    point.size()
                } else {
                    point
                };
                let place = if value.both_signs && scale.target.is_none() {
                    pair_in_words(&voice, bands, point, met.band)
                } else {
                    place_in_words(&voice, bands, point, met)
                };
                let said = voice.say(said);
                let come_to = match value.name {
                    "" => String::new(),
                    name => format!("{name} {said}"),
                };
                let why = format!("{}{said}, {place}", value.words);
                Found::valued(met.marks, why, met.effect).apart(come_to, place)
            }
            None if value.verdict.is_some() => {
                let why = format!("by gauge {}", reach_in_words(&voice, reach));
                Found::valued(met.marks, why, met.effect)
            }
            None => Found::valued(met.marks, reach_in_words(&voice, reach), met.effect),
        }
    }

    /// Why there is no value: of a pair, the side that lacks one.
    fn lack(&self) -> String {
        let ids = self.entry.criterion.measured().into_iter();
        let ids: Vec<String> = ids.map(|reading| self.id(reading)).collect();
        let lacking = |id: &&String| self.slots.taken(id).is_none();
        match (ids.as_slice(), ids.iter().find(lacking)) {
            ([left, right], Some(id)) if self.slots.taken(left) != self.slots.taken(right) => {
                let side = if id == left { "left" } else { "right" };
                format!("{side} side: {}", self.slots.lack(id))
            }
            (_, Some(id)) => self.slots.lack(id),
            (_, None) => "no reading yet".to_owned(),
        }
    }

    fn what_is_missing(&self, scale: &Scale) -> String {
        let needed = scale.target.iter().flat_map(|target| target.readings());
        let limits = scale
            .bands
            .iter()
            .flat_map(|band| band.limits.expressions());
        let needed = needed.chain(limits.flat_map(|expression| expression.readings()));
        let mut names: Vec<String> = needed
            .map(|reading| self.id(reading))
            .filter(|id| self.slots.mean(id).is_none())
            .map(|id| self.slots.name(&id))
            .collect();
        names.dedup();
        if names.is_empty() {
            "no reading yet".to_owned()
        } else {
            format!("needs a value of {}", names.join(" and "))
        }
    }
}

fn is_open(taken: &Taken) -> bool {
    matches!(taken, Taken::Interval(..) | Taken::Verdict(..))
}

/// "within 1.5 mm" of a difference that should be nothing.
fn pair_in_words(voice: &Voice, bands: &Bands, value: Exact, band: Option<usize>) -> String {
    let reach = band
        .and_then(|index| bands.bands.get(index))
        .or(bands.bands.last());
    let limit = reach.and_then(|band| {
        if value.is_negative() {
            band.reach.low.map(Exact::size)
        } else {
            band.reach.high
        }
    });
    let word = if band.is_some() { "within" } else { "outside" };
    format!("{word} {}", voice.limit(limit.unwrap_or(Exact::ZERO)))
}

/// What a verdict on the limit called `name`, or on the narrowest, leaves open.
fn verdict_reach(bands: &Bands, verdict: Verdict, name: Option<&str>) -> Result<Reach, String> {
    let band = match name {
        None => bands.bands.first(),
        Some(name) => bands
            .bands
            .iter()
            .find(|band| band.name.as_deref() == Some(name)),
    };
    let Some(reach) = band.map(|band| band.reach) else {
        let names: Vec<&str> = bands
            .bands
            .iter()
            .filter_map(|band| band.name.as_deref())
            .collect();
        let hint = if names.is_empty() {
            "write the verdict alone, or a value".to_owned()
        } else {
            format!("use one of {}, or a value", names.join(", "))
        };
        return Err(format!(
            "there is no limit called `{}`; {hint}",
            name.unwrap_or_default()
        ));
    };
    Ok(match (verdict, reach.low, reach.high) {
        (Verdict::Within, ..) | (Verdict::Under, None, _) | (Verdict::Over, _, None) => reach,
        (Verdict::Under, Some(low), _) => Reach {
            high_included: false,
            ..Reach::closed(None, Some(low))
        },
        (Verdict::Over, _, Some(high)) => Reach {
            low_included: false,
            ..Reach::closed(Some(high), None)
        },
    })
}
