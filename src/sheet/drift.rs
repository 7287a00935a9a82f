//! Whether marks drift while one examiner marks piece after piece.

use crate::chart::{Drawing, small_course};
use crate::quantity::Exact;

use super::document::Block;
use super::scored::heading;
use super::words::percent_words;

/// Fewer pieces than this show no course.
const LEAST: usize = 3;

/// What one examiner gave in one sitting, in the order of marking.
#[derive(Debug, Clone, PartialEq)]
pub struct InOrder {
    /// Who.
    pub who: String,
    /// Marks in per cent of what could be had, piece by piece; `None` where a piece has
    /// criteria without marks.
    pub percents: Vec<Option<Exact>>,
}

/// The course of each examiner's marks over the sitting; nothing where nobody has marked
/// enough.
pub(super) fn drift_blocks(all: &[InOrder]) -> Vec<Block> {
    let enough = all.iter().filter(|one| one.percents.len() >= LEAST);
    let drawn: Vec<Drawing> = enough.map(drawn).collect();
    if drawn.is_empty() {
        return Vec::new();
    }
    let says = "Each examiner’s marks in this sitting, in per cent, in the order of marking. The \
                pieces differ, so a slope may be theirs; where both examiners marked in one \
                order and only one slopes, look again.";
    vec![
        heading("In the order of marking"),
        Block::Drawings(drawn),
        Block::Paragraph(says.to_owned()),
    ]
}

fn drawn(one: &InOrder) -> Drawing {
    let said = one.percents.iter().map(|percent| match percent {
        Some(percent) => percent_words(*percent),
        None => "not whole".to_owned(),
    });
    let shares: Vec<Option<f64>> = one
        .percents
        .iter()
        .map(|percent| percent.map(|percent| percent.to_f64() / 100.0))
        .collect();
    small_course(
        format!(
            "{}, {} pieces in the order of marking",
            one.who,
            shares.len()
        ),
        said.collect::<Vec<_>>().join(", "),
        &shares,
        &[],
    )
}
