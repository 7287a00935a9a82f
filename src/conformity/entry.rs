use crate::marking::{EntryOutcome, Opened};
use crate::quantity::Marks;
use crate::rubric::{Effect, Entry, Expression, Kind, Limit, Limits, Rubric, Scale};

use super::column::{Column, Columns};
use super::formula::Formula;
use super::value::Value;
use super::variable::Variables;

/// One entry: what it comes to, or what it can come to.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum EntryModel {
    /// Nothing about it is uncertain here.
    Fixed(EntryOutcome),
    /// Its value is uncertain.
    Measured(MeasuredEntry),
}

/// An entry whose value is uncertain, with its bands worked out anew for every place of
/// the readings.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MeasuredEntry {
    pub value: Value,
    bands: Vec<Reach>,
    stop: Option<Reach>,
    /// Outcome of each band, of none, and of each of these where the stop limits are
    /// passed; equal outcomes are one.
    places: Vec<[usize; 2]>,
    /// What it can come to.
    pub outcomes: Vec<EntryOutcome>,
    /// The outcome that stands: that of the best estimate.
    pub given: usize,
}

/// Where a band lies. Whether an end belongs to it does not matter to a continuous value.
#[derive(Debug, Clone, PartialEq)]
struct Reach {
    low: Option<Formula>,
    high: Option<Formula>,
}

impl Reach {
    /// Whether each of the drawn `values` lies in it, where `of` gives what was drawn beside
    /// them.
    fn holds(&self, of: Columns<'_, '_>, values: &[f64]) -> Vec<bool> {
        let end = |formula: &Option<Formula>, open: f64| {
            let column = formula.as_ref().map(|formula| formula.column(of));
            column.unwrap_or(Column::Same(open)).values(values.len())
        };
        let low = end(&self.low, f64::NEG_INFINITY);
        let high = end(&self.high, f64::INFINITY);
        let ends = low.iter().zip(high.iter());
        let held = values.iter().zip(ends);
        held.map(|(value, (low, high))| (value >= low) & (value <= high))
            .collect()
    }
}

impl EntryModel {
    /// What `entry` can come to, which comes to `stands` as it is; `None` on overflow.
    pub fn of(
        rubric: &Rubric,
        opened: &Opened<'_>,
        entry: &Entry<'_>,
        variables: &Variables,
        stands: EntryOutcome,
    ) -> Option<Self> {
        let fixed = Some(Self::Fixed(stands));
        let Some(scale) = entry.criterion.scale() else {
            return fixed;
        };
        let Some(value) = Value::of(rubric, entry, variables) else {
            return fixed;
        };
        if stands.marks.is_none() || opened.is_set(entry) {
            return fixed;
        }
        let compiler = Compiler {
            rubric,
            entry,
            variables,
            value: &value,
            scale,
        };
        let Some((bands, stop)) = compiler.reaches() else {
            return fixed;
        };
        let mut outcomes = vec![stands];
        let mut place = |marks: Marks, effect: Effect| -> Option<usize> {
            let outcome = opened.met(entry, marks, effect)?;
            Some(match outcomes.iter().position(|known| *known == outcome) {
                Some(index) => index,
                None => {
                    outcomes.push(outcome);
                    outcomes.len() - 1
                }
            })
        };
        let bands_and_beyond = scale.bands.iter().map(|band| (band.marks, band.effect));
        let mut places = Vec::new();
        for (marks, effect) in bands_and_beyond.chain([(scale.beyond, scale.beyond_effect)]) {
            let stopped = if stop.is_some() { Effect::Stop } else { effect };
            places.push([place(marks, effect)?, place(marks, stopped)?]);
        }
        let measured = MeasuredEntry {
            value,
            bands,
            stop,
            places,
            outcomes,
            given: 0,
        };
        let doubtful = |index: &usize| variables.all.get(*index).is_some_and(|v| !v.is_exact());
        let mut needed = measured.value.variables();
        needed.extend(measured.basis());
        Some(
            if needed.iter().any(doubtful) && measured.outcomes.len() > 1 {
                Self::Measured(measured)
            } else {
                Self::Fixed(stands)
            },
        )
    }
}

impl MeasuredEntry {
    /// The variables that its limits depend on.
    pub fn basis(&self) -> Vec<usize> {
        let mut found = Vec::new();
        for reach in self.bands.iter().chain(&self.stop) {
            for formula in reach.low.iter().chain(&reach.high) {
                formula.collect(&mut found);
            }
        }
        found
    }

    /// Its limits where each variable has the value that `of` gives.
    pub fn limits(&self, of: &dyn Fn(usize) -> f64) -> Limited {
        let ends = |reach: &Reach| {
            let end = |formula: &Option<Formula>, open: f64| {
                formula.as_ref().map_or(open, |formula| formula.value(of))
            };
            (
                end(&reach.low, f64::NEG_INFINITY),
                end(&reach.high, f64::INFINITY),
            )
        };
        let bands: Vec<(f64, f64)> = self.bands.iter().map(ends).collect();
        let stop = self.stop.as_ref().map(ends);
        let all = bands
            .iter()
            .chain(&stop)
            .flat_map(|(low, high)| [*low, *high]);
        let mut cuts: Vec<f64> = all.filter(|cut| cut.is_finite()).collect();
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        let mut limited = Limited {
            bands,
            stop,
            cuts,
            between: Vec::new(),
        };
        limited.between = limited
            .midpoints()
            .map(|value| self.outcome_in(&limited, value))
            .collect();
        limited
    }

    /// The outcome of a value within `limited`, which `self` gave.
    pub fn outcome_at(&self, limited: &Limited, value: f64) -> usize {
        // Counted through, as there are few and guesses where to halve go wrong.
        let at = limited.cuts.iter().filter(|cut| **cut < value).count();
        match limited.cuts.get(at) {
            Some(cut) if *cut == value => self.outcome_in(limited, value),
            _ => limited.between.get(at).copied().unwrap_or(self.given),
        }
    }

    /// The outcome of each of `values`, none of which lies on a limit for certain.
    pub fn outcomes_at(&self, limited: &Limited, values: &[f64], outcomes: &mut [u16]) {
        outcomes.fill(0);
        // Limit by limit, as such loops are quick wherever they run.
        for cut in &limited.cuts {
            for (outcome, value) in outcomes.iter_mut().zip(values) {
                *outcome += u16::from(cut < value);
            }
        }
        for outcome in outcomes {
            let between = limited.between.get(usize::from(*outcome)).copied();
            *outcome = u16::try_from(between.unwrap_or(self.given)).unwrap_or(0);
        }
    }

    /// The outcome of each of the drawn `values`, where `of` gives what was drawn beside them.
    /// A limit belongs to what it bounds.
    pub fn outcomes_beside(&self, of: Columns<'_, '_>, values: &[f64], outcomes: &mut [u16]) {
        let narrow = |number: usize| u16::try_from(number).unwrap_or(0);
        outcomes.fill(narrow(self.bands.len()));
        // The first band that holds a value counts.
        for (band, reach) in self.bands.iter().enumerate().rev() {
            let held = reach.holds(of, values);
            for (outcome, _) in outcomes.iter_mut().zip(held).filter(|(_, held)| *held) {
                *outcome = narrow(band);
            }
        }
        let free = self.stop.as_ref().map(|stop| stop.holds(of, values));
        let free = free.unwrap_or_else(|| vec![true; values.len()]);
        for (outcome, free) in outcomes.iter_mut().zip(free) {
            let place = self.places.get(usize::from(*outcome));
            let [as_is, stopped] = place.copied().unwrap_or([self.given; 2]);
            *outcome = narrow(if free { as_is } else { stopped });
        }
    }

    fn outcome_in(&self, limited: &Limited, value: f64) -> usize {
        let holds = |(low, high): &(f64, f64)| value >= *low && value <= *high;
        let band = limited.bands.iter().position(holds);
        let band = band.unwrap_or(limited.bands.len());
        let stopped = limited.stop.as_ref().is_some_and(|stop| !holds(stop));
        let place = self.places.get(band);
        place.map_or(
            self.given,
            |[free, stop]| if stopped { *stop } else { *free },
        )
    }

    /// Writes to `chances` that one outcome is certain.
    pub fn certain(&self, outcome: usize, chances: &mut Vec<f64>) {
        chances.clear();
        chances.resize(self.outcomes.len(), 0.0);
        if let Some(chance) = chances.get_mut(outcome) {
            *chance = 1.0;
        }
    }

    /// Writes to `chances` the probability of each outcome, where `below` is the
    /// distribution function of the value.
    pub fn spread(&self, limited: &Limited, below: &dyn Fn(f64) -> f64, chances: &mut Vec<f64>) {
        chances.clear();
        chances.resize(self.outcomes.len(), 0.0);
        let ends = limited.cuts.iter().map(|cut| below(*cut)).chain([1.0]);
        let mut done = 0.0;
        for (end, outcome) in ends.zip(&limited.between) {
            if let Some(sum) = chances.get_mut(*outcome) {
                *sum += (end - done).max(0.0);
            }
            done = end;
        }
    }
}

/// Limits of one entry for one place of the readings, in base units.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Limited {
    bands: Vec<(f64, f64)>,
    stop: Option<(f64, f64)>,
    /// Every finite limit, in order.
    pub cuts: Vec<f64>,
    /// The outcome below the first limit, between each two, and above the last.
    between: Vec<usize>,
}

impl Limited {
    /// Without the limits that no value between `low` and `high` meets.
    pub fn between(mut self, low: f64, high: f64) -> Self {
        let below = self.cuts.iter().filter(|cut| **cut < low).count();
        let within = self.cuts.iter().filter(|cut| (low..=high).contains(*cut));
        self.cuts = within.copied().collect();
        let between = self.between.into_iter().skip(below);
        self.between = between.take(self.cuts.len() + 1).collect();
        self
    }

    /// A value below the first limit, one between each two, and one above the last.
    fn midpoints(&self) -> impl Iterator<Item = f64> + '_ {
        let first = self.cuts.first().map_or(0.0, |cut| cut - 1.0);
        let pairs = self.cuts.iter().zip(self.cuts.iter().skip(1));
        let between = pairs.map(|(low, high)| 0.5 * (low + high));
        let last = self.cuts.last().map(|cut| cut + 1.0);
        std::iter::once(first).chain(between).chain(last)
    }
}

struct Compiler<'a> {
    rubric: &'a Rubric,
    entry: &'a Entry<'a>,
    variables: &'a Variables,
    value: &'a Value,
    scale: &'a Scale,
}

impl Compiler<'_> {
    /// Bands and stop limits; `None` where a reading that they need is no plain value.
    fn reaches(&self) -> Option<(Vec<Reach>, Option<Reach>)> {
        let target = match &self.scale.target {
            Some(target) => Some(self.formula(target)?),
            None if self.is_pair() => Some(Formula::Fixed(0.0)),
            None => None,
        };
        let whole = match (&self.scale.target, &target) {
            (Some(_), Some(target)) => Some(target.clone()),
            _ => self.own_mean(),
        };
        let bands = self.scale.bands.iter();
        let bands = bands.map(|band| self.reach(&band.limits, target.as_ref(), whole.as_ref()));
        let stop = match &self.scale.stops_outside {
            Some(limits) => Some(self.reach(limits, target.as_ref(), whole.as_ref())?),
            None => None,
        };
        Some((bands.collect::<Option<_>>()?, stop))
    }

    fn reach(
        &self,
        limits: &Limits,
        target: Option<&Formula>,
        whole: Option<&Formula>,
    ) -> Option<Reach> {
        let amount = |limit: &Limit| match limit {
            Limit::Amount(expression) => self.formula(expression),
            Limit::Percent(percent) => Some(whole?.clone().percent(*percent)),
        };
        let target = || target.cloned().unwrap_or(Formula::Fixed(0.0));
        let (low, high) = match limits {
            Limits::Around { under, over } => (
                Some(target().minus(amount(under)?)),
                Some(target().plus(amount(over)?)),
            ),
            Limits::AtMost(limit) if self.is_pair() => (
                Some(target().minus(amount(limit)?)),
                Some(target().plus(amount(limit)?)),
            ),
            Limits::AtMost(limit) => (None, Some(amount(limit)?)),
            Limits::AtLeast(limit) => (Some(amount(limit)?), None),
            Limits::Between(from, to) => (Some(amount(from)?), Some(amount(to)?)),
        };
        Some(Reach { low, high })
    }

    fn is_pair(&self) -> bool {
        matches!(self.entry.criterion.kind, Kind::Paired(_))
    }

    /// What per cent counts from where there is no target.
    fn own_mean(&self) -> Option<Formula> {
        match self.value {
            Value::Single(_) => None,
            value => Some(Formula::Mean(value.variables())),
        }
    }

    fn formula(&self, expression: &Expression) -> Option<Formula> {
        let of = |reading: &str| {
            let id = self.rubric.slot_id(self.entry, reading);
            self.variables.of_slot.get(&id).cloned()
        };
        Formula::of(expression, &of)
    }
}
