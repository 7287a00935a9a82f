use super::Told;
use crate::cohort::{Worked, stand};
use crate::progress::Series;
use crate::sheet::cohort::{HOW_STANDING, standing_reason};

/// Whether the learner is ready, by the rule that the page of a cohort goes by.
pub fn ready_shown(series: &Series<'_>) -> Told {
    let counts = series.pieces.iter().filter(|made| !made.is_own());
    let pieces: Vec<Worked> = counts.map(|made| Worked::of(made)).collect();
    let stand = stand(&pieces);
    Told {
        heading: format!("Readiness: {}", stand.standing.word()),
        words: vec![standing_reason(&stand)],
        how: HOW_STANDING.to_owned(),
    }
}
