use serde::{Deserialize, Serialize};

use super::course::Within;
use super::{Charted, Told, change};
use crate::progress::Numbers;

/// What takes long about the pieces of one learner by one rubric: how far each total may be
/// off, curves of practice, whether marks change, which pieces stand out, and how own marks
/// lie off an examiner’s.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CourseFigures {
    /// For each piece of the series from where to where its true total lies, with 19 of 20;
    /// `None` where it was not weighed.
    pub within: Vec<Within>,
    /// Curves of practice.
    pub curves: Vec<CurveShown>,
    /// Whether marks rise or fall.
    pub change: Told,
    /// Which pieces stand out; `None` where too few were made alike or none is off the line.
    pub usual: Option<Charted>,
    /// How own marks lie off an examiner’s; `None` where no piece was marked by both.
    pub own: Option<Told>,
}

/// The curve of practice of something that is counted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CurveShown {
    /// Entry id.
    pub id: String,
    /// Its height at each piece for which something was counted; empty where there is none.
    pub heights: Vec<f64>,
    /// What it says, or why there is none.
    pub words: String,
    /// How it is worked out.
    pub how: String,
}

/// All of it, from the numbers of the pieces and what weighing them gave.
pub fn course_figures(numbers: &Numbers, within: Vec<Within>) -> CourseFigures {
    CourseFigures {
        within,
        curves: change::curves(numbers),
        change: change::told(numbers),
        usual: change::standing_out(numbers),
        own: change::own(numbers),
    }
}
