use crate::quantity::Exact;
use crate::rubric::Expression;

use super::column::{Column, Columns};

/// A target or limit as it is worked out anew for every place of the readings, in base
/// units. Variables are named by their index.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Formula {
    Fixed(f64),
    /// Mean of some variables.
    Mean(Vec<usize>),
    Times(f64, Box<Formula>),
    Plus(Box<Formula>, Box<Formula>),
    Minus(Box<Formula>, Box<Formula>),
    Greater(Box<Formula>, Box<Formula>),
    Lesser(Box<Formula>, Box<Formula>),
    /// Without its sign.
    Size(Box<Formula>),
}

impl Formula {
    /// `expression`, whose readings are the variables that `variables` gives; `None` where
    /// it gives none.
    pub fn of(
        expression: &Expression,
        variables: &dyn Fn(&str) -> Option<Vec<usize>>,
    ) -> Option<Self> {
        let both = |a: &Expression, b: &Expression| {
            let (a, b) = (Self::of(a, variables)?, Self::of(b, variables)?);
            Some((Box::new(a), Box::new(b)))
        };
        Some(match expression {
            Expression::Amount(quantity) => Self::Fixed(quantity.base.to_f64()),
            Expression::Reading(id) => Self::Mean(variables(id)?),
            Expression::Share(share, of) => {
                Self::Times(share.to_f64(), Box::new(Self::of(of, variables)?))
            }
            Expression::Sum(a, b) => both(a, b).map(|(a, b)| Self::Plus(a, b))?,
            Expression::Difference(a, b) => both(a, b).map(|(a, b)| Self::Minus(a, b))?,
            Expression::Greater(a, b) => both(a, b).map(|(a, b)| Self::Greater(a, b))?,
            Expression::Lesser(a, b) => both(a, b).map(|(a, b)| Self::Lesser(a, b))?,
        })
    }

    /// So many per cent of this, without its sign.
    pub fn percent(self, percent: Exact) -> Self {
        Self::Times(
            percent.to_f64() / 100.0,
            Box::new(Self::Size(Box::new(self))),
        )
    }

    pub fn minus(self, other: Self) -> Self {
        Self::Minus(Box::new(self), Box::new(other))
    }

    pub fn plus(self, other: Self) -> Self {
        Self::Plus(Box::new(self), Box::new(other))
    }

    /// Its value where each variable has the value that `of` gives.
    pub fn value(&self, of: &dyn Fn(usize) -> f64) -> f64 {
        match self {
            Self::Fixed(value) => *value,
            Self::Mean(variables) => {
                let sum: f64 = variables.iter().map(|variable| of(*variable)).sum();
                let count = u32::try_from(variables.len()).unwrap_or(u32::MAX);
                sum / f64::from(count.max(1))
            }
            Self::Times(factor, formula) => factor * formula.value(of),
            Self::Plus(a, b) => a.value(of) + b.value(of),
            Self::Minus(a, b) => a.value(of) - b.value(of),
            Self::Greater(a, b) => a.value(of).max(b.value(of)),
            Self::Lesser(a, b) => a.value(of).min(b.value(of)),
            Self::Size(formula) => formula.value(of).abs(),
        }
    }

    /// Its value in each draw, where `of` gives those of each variable.
    pub fn column<'a>(&self, of: Columns<'_, 'a>) -> Column<'a> {
        match self {
            Self::Fixed(value) => Column::Same(*value),
            Self::Mean(variables) => Column::mean(variables, of),
            Self::Times(factor, formula) => formula.column(of).map(|value| factor * value),
            Self::Plus(a, b) => a.column(of).with(b.column(of), |a, b| a + b),
            Self::Minus(a, b) => a.column(of).with(b.column(of), |a, b| a - b),
            Self::Greater(a, b) => a.column(of).with(b.column(of), f64::max),
            Self::Lesser(a, b) => a.column(of).with(b.column(of), f64::min),
            Self::Size(formula) => formula.column(of).map(f64::abs),
        }
    }

    /// Adds the variables that it needs to `found`, each once.
    pub fn collect(&self, found: &mut Vec<usize>) {
        match self {
            Self::Fixed(_) => {}
            Self::Mean(variables) => {
                for variable in variables {
                    if !found.contains(variable) {
                        found.push(*variable);
                    }
                }
            }
            Self::Times(_, formula) | Self::Size(formula) => formula.collect(found),
            Self::Plus(a, b) | Self::Minus(a, b) | Self::Greater(a, b) | Self::Lesser(a, b) => {
                a.collect(found);
                b.collect(found);
            }
        }
    }
}
