use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::marking::{Facts, Opened};
use crate::rubric::{Entry, Kind, Rubric, SpreadMeasure};

use super::column::{Column, Columns};
use super::variable::{Variable, Variables};

/// What a criterion measures, made of readings.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Single(usize),
    /// First less second.
    Difference(usize, usize),
    /// Largest less smallest.
    Range(Vec<usize>),
    /// Largest distance from the mean.
    Farthest(Vec<usize>),
}

impl Value {
    /// The value of `entry`; `None` where a reading is missing, is a gauge verdict, or the
    /// entry measures nothing.
    pub fn of(rubric: &Rubric, entry: &Entry<'_>, variables: &Variables) -> Option<Self> {
        let of = |reading: &str| variables.of_slot.get(&rubric.slot_id(entry, reading));
        let one = |reading: &str| match of(reading)?.as_slice() {
            [index] => Some(*index),
            _ => None,
        };
        match &entry.criterion.kind {
            Kind::Toleranced(kind) => one(&kind.reading).map(Self::Single),
            Kind::Paired(kind) => Some(Self::Difference(one(&kind.left)?, one(&kind.right)?)),
            Kind::Spread(kind) => {
                let members = of(&kind.reading)?.clone();
                Some(match kind.measure {
                    SpreadMeasure::Range => Self::Range(members),
                    SpreadMeasure::FarthestFromMean => Self::Farthest(members),
                })
            }
            Kind::Tally(_) | Kind::Judged(_) | Kind::Faults(_) => None,
        }
    }

    /// The variables that it is made of.
    pub fn variables(&self) -> Vec<usize> {
        match self {
            Self::Single(index) => vec![*index],
            Self::Difference(left, right) => vec![*left, *right],
            Self::Range(members) | Self::Farthest(members) => members.clone(),
        }
    }

    /// Its value where each variable has the value that `of` gives.
    pub fn at(&self, of: &dyn Fn(usize) -> f64) -> f64 {
        match self {
            Self::Single(index) => of(*index),
            Self::Difference(left, right) => of(*left) - of(*right),
            Self::Range(members) => {
                let (least, most) = ends(members, of);
                most - least
            }
            Self::Farthest(members) => {
                let mean = mean(members, of);
                let off = members.iter().map(|member| (of(*member) - mean).abs());
                off.fold(0.0, f64::max)
            }
        }
    }

    /// Its value in each draw, where `of` gives those of each variable.
    pub fn column<'a>(&self, of: Columns<'_, 'a>) -> Column<'a> {
        let column = |index: &usize| Column::of(of(*index));
        let fold = |members: &[usize], join: fn(f64, f64) -> f64| {
            let all = members.iter().map(column);
            all.reduce(|one, other| one.with(other, join))
                .unwrap_or(Column::Same(0.0))
        };
        match self {
            Self::Single(index) => column(index),
            Self::Difference(left, right) => column(left).with(column(right), |a, b| a - b),
            Self::Range(members) => {
                fold(members, f64::max).with(fold(members, f64::min), |most, least| most - least)
            }
            Self::Farthest(members) => {
                let mean = Column::mean(members, of);
                let off =
                    |member| column(member).with(mean.clone(), |one, mean| (one - mean).abs());
                let all = members.iter().map(off);
                all.fold(Column::Same(0.0), |most, off| most.with(off, f64::max))
            }
        }
    }

    /// Each variable with its sensitivity at the best estimate (JCGM 100:2008, 5.1.3). Of
    /// several members that are farthest alike the first counts.
    pub fn sensitivities(&self, all: &[Variable]) -> Vec<(usize, f64)> {
        let of = |index: usize| all.get(index).map_or(0.0, |variable| variable.mean);
        match self {
            Self::Single(index) => vec![(*index, 1.0)],
            Self::Difference(left, right) => vec![(*left, 1.0), (*right, -1.0)],
            Self::Range(members) => {
                let (least, most) = ends(members, &of);
                let first = |value: f64| members.iter().find(|member| of(**member) == value);
                match (first(most), first(least)) {
                    (Some(top), Some(foot)) if top != foot => vec![(*top, 1.0), (*foot, -1.0)],
                    _ => Vec::new(),
                }
            }
            Self::Farthest(members) => {
                let mean = mean(members, &of);
                let off = |member: &usize| (of(*member) - mean).abs();
                let far = members.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
                let sign = far.map_or(0.0, |member| (of(*member) - mean).signum());
                let share = 1.0 / f64::from(u32::try_from(members.len()).unwrap_or(u32::MAX));
                let members = members.iter().map(|member| {
                    let own = if Some(member) == far { 1.0 } else { 0.0 };
                    (*member, sign * (own - share))
                });
                members.collect()
            }
        }
    }
}

fn ends(members: &[usize], of: &dyn Fn(usize) -> f64) -> (f64, f64) {
    let values = members.iter().map(|member| of(*member));
    values.fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(least, most), value| (least.min(value), most.max(value)),
    )
}

fn mean(members: &[usize], of: &dyn Fn(usize) -> f64) -> f64 {
    let sum: f64 = members.iter().map(|member| of(*member)).sum();
    sum / f64::from(u32::try_from(members.len().max(1)).unwrap_or(u32::MAX))
}

/// A measured value with its standard uncertainty, in the base unit of its dimension
/// (nanometre, millionth of a degree, microgram, millisecond, one).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Uncertain {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty of what is this value's own.
    pub own: f64,
    /// Parts that other readings by the same instrument share: the instrument's id, and
    /// sensitivity times standard uncertainty, with its sign.
    pub shared: Vec<(String, f64)>,
}

impl Uncertain {
    /// Standard uncertainty of the whole (JCGM 100:2008, 5.1.2 and 5.2.2).
    pub fn standard(&self) -> f64 {
        let shared = self.shared.iter().map(|(_, size)| size * size);
        (self.own * self.own + shared.sum::<f64>()).sqrt()
    }
}

/// What every measured entry measures and how sure that is, by its id: the reading, the
/// difference of a pair, the range or greatest distance of a series. An entry is left out
/// where it is not measured, a reading is missing, or a gauge verdict stands for it.
///
/// *Formula:* the law of propagation (JCGM 100:2008, 5.1.2), linear at the best estimate;
/// an interval reading of half-width `a` adds `a / sqrt 3`. What the target is off by is
/// not in it.
pub fn measured_values(rubric: &Rubric, facts: &Facts) -> BTreeMap<String, Uncertain> {
    let opened = Opened::read(rubric, facts);
    let variables = Variables::of(rubric, facts, &opened, &rubric.slots());
    let entries = rubric.entries().into_iter();
    entries
        .filter_map(|entry| {
            let value = Value::of(rubric, &entry, &variables)?;
            Some((entry.id.clone(), uncertain(&value, &variables)))
        })
        .collect()
}

pub(super) fn uncertain(value: &Value, variables: &Variables) -> Uncertain {
    let all = &variables.all;
    let of = |index: usize| all.get(index).map_or(0.0, |variable| variable.mean);
    let mut square = 0.0;
    let mut parts = vec![0.0; variables.parts.len()];
    for (index, sensitivity) in value.sensitivities(all) {
        let Some(variable) = all.get(index) else {
            continue;
        };
        let own = variable.own.powi(2) + variable.half.powi(2) / 3.0;
        square += sensitivity.powi(2) * own;
        for (part, size) in &variable.shared {
            if let Some(sum) = parts.get_mut(*part) {
                *sum += sensitivity * size;
            }
        }
    }
    let shared = variables.parts.iter().zip(parts);
    Uncertain {
        value: value.at(&of),
        own: square.sqrt(),
        shared: shared
            .filter(|(_, size)| *size != 0.0)
            .map(|(part, size)| (part.clone(), size))
            .collect(),
    }
}
