use serde::Serialize;
use thiserror::Error;

/// Why a figure does not exist for the numbers at hand.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Lacking {
    /// There are too few of something.
    #[error("{what}: {has}, and it takes {needs}")]
    TooFew {
        /// What there is too little of.
        what: &'static str,
        /// How many there are.
        has: usize,
        /// How many it takes.
        needs: usize,
    },
    /// All numbers are alike, so there is nothing to compare a difference with.
    #[error("{0} are all the same")]
    NoSpread(&'static str),
    /// Rows are not of one length, or a cell is empty where each is needed.
    #[error("{0}: a value is missing, and this takes all of them")]
    Gaps(&'static str),
    /// There are not two of something.
    #[error("{what}: {has}, and it takes exactly two")]
    NotTwo {
        /// What there should be two of.
        what: &'static str,
        /// How many there are.
        has: usize,
    },
    /// What something should be a share of is nothing, or less by chance.
    #[error("{0} comes out as nothing or less")]
    NotPositive(&'static str),
    /// A number is not finite, or not of the scale.
    #[error("{0} is not a number that can stand here")]
    NotANumber(&'static str),
    /// What is to be compared falls into parts that nothing joins.
    #[error("{0} fall into parts that nothing joins")]
    Apart(&'static str),
    /// The numbers follow from one another, so that more than one fit is as good.
    #[error("{0} follow from one another, so no fit is the only one")]
    Dependent(&'static str),
    /// What is asked does not go with how the numbers were gathered.
    #[error("this does not go with how the numbers were gathered: {0}")]
    Design(&'static str),
    /// A search for the best value did not come to an end.
    #[error("{0} was not found within the steps allowed")]
    NotFound(&'static str),
}

/// An interval with the share of cases in which it holds the true value.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Interval {
    /// Its lower end.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// Its confidence level, `0.95` for 95 %.
    pub level: f64,
}
