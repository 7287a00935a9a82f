use super::Told;
use crate::cohort::{Stand, Worked, stand};
use crate::progress::Series;
use crate::sheet::cohort::{HOW_STANDING, standing_reason};

/// Whether the learner is ready, by the rule that the page of a cohort goes by.
pub fn ready_shown(series: &Series<'_>) -> Told {
    let stand = standing_of(series);
    Told {
        heading: format!("Readiness: {}", stand.standing.word()),
        words: vec![standing_reason(&stand)],
        how: HOW_STANDING.to_owned(),
    }
}

/// How the learner stands by the rubric of these pieces.
pub(super) fn standing_of(series: &Series<'_>) -> Stand {
    let counts = series.pieces.iter().filter(|made| !made.is_own());
    let pieces: Vec<Worked> = counts.map(|made| Worked::of(made)).collect();
    stand(&pieces)
}
