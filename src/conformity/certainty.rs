use serde::{Deserialize, Serialize};

use crate::marking::Award;
use crate::quantity::Marks;

use super::value::Uncertain;

/// How sure one marking is, as far as measuring goes. What the examiner judges by eye is
/// taken as given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Certainty {
    /// How the distribution of the total was found.
    pub method: Method,
    /// Every measured criterion whose value is uncertain, in the rubric's order.
    pub criteria: Vec<CriterionCertainty>,
    /// Every section with a minimum, in order.
    pub sections: Vec<SectionCertainty>,
    /// Every total that can come about with its probability, the least first.
    pub total: Vec<MarksChance>,
    /// Marks given: those of the best estimate.
    pub given: Marks,
    /// Expected marks: the mean of `total`.
    pub expected: f64,
    /// Standard deviation of `total`.
    pub deviation: f64,
    /// The award; `None` while something has no marks.
    pub award: Option<AwardCertainty>,
    /// Slots whose readings name no instrument with figures: taken as exact here.
    pub unstated: Vec<String>,
}

/// Some marks and how probable they are.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MarksChance {
    /// Marks.
    pub marks: Marks,
    /// From 0 to 1.
    pub probability: f64,
}

/// How the distribution of the total was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Convolved: no two criteria share anything.
    Exact,
    /// Integrated over one or two parts that criteria share.
    Quadrature,
    /// So many seeded draws, where criteria share more.
    Draws(u32),
}

/// How sure one criterion is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CriterionCertainty {
    /// Entry id.
    pub entry: String,
    /// What was measured, with its uncertainty.
    pub value: Uncertain,
    /// Marks given.
    pub given: Marks,
    /// Probability that these are the marks of the true value.
    pub probability: f64,
    /// Every number of marks that can come about, the most first; bands with equal marks
    /// are one.
    pub chances: Vec<MarksChance>,
    /// Measuring again could change its marks: [`Self::probability`] is below 0.95.
    pub is_close: bool,
    /// Probability that the award, or whether a section reaches its minimum, is another one
    /// with the true marks of this criterion than with those given. Only of a close call.
    pub changes: f64,
    /// A close call whose [`Self::changes`] is above 0.025.
    pub is_decisive: bool,
    /// What would make a close call surer; `None` where nothing at hand would.
    pub settle: Option<Settle>,
}

/// A way to measure once more, and how sure that would be if it gave the same value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Settle {
    /// Id of the instrument to measure with.
    pub instrument: String,
    /// Its name.
    pub name: String,
    /// How many readings the mean is then taken of.
    pub readings: u32,
    /// Probability of the marks given afterwards.
    pub probability: f64,
}

/// How sure it is that a section reaches its minimum.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SectionCertainty {
    /// Section id.
    pub section: String,
    /// The minimum.
    pub minimum: Marks,
    /// Whether the marks given reach it.
    pub is_reached: bool,
    /// Probability that the true marks do.
    pub probability: f64,
}

/// How sure the award is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct AwardCertainty {
    /// What the best estimate comes to: pass or not yet.
    pub best: Award,
    /// What the rubric's decision rule makes of it.
    pub decided: Award,
    /// Probability of a pass: marks, minima and stops.
    pub pass: f64,
    /// Standard error of that probability, where it was drawn.
    pub standard_error: Option<f64>,
}

impl Certainty {
    /// The least and the most marks of the total when so much is left out at either end as
    /// may be for the rest to hold at least `level`; `None` where there is no total.
    ///
    /// *Source:* a coverage interval with equal tails (JCGM 101:2008, 3.15 and 7.7). Totals
    /// are single values, so that it holds more than `level` as a rule.
    pub fn total_within(&self, level: f64) -> Option<(Marks, Marks)> {
        let tail = (1.0 - level) / 2.0;
        let least = first_beyond(self.total.iter(), tail)?;
        let most = first_beyond(self.total.iter().rev(), tail)?;
        Some((least, most))
    }
}

/// The first of these marks with which more than `tail` is reached.
fn first_beyond<'a>(chances: impl Iterator<Item = &'a MarksChance>, tail: f64) -> Option<Marks> {
    let mut sum = 0.0;
    let mut beyond = chances.skip_while(|chance| {
        sum += chance.probability;
        sum <= tail
    });
    beyond.next().map(|chance| chance.marks)
}
