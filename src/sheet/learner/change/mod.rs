//! Whether it gets better: in words, from figures that a worker has time for.

mod curves;
mod own;
mod trend;
mod usual;

pub(super) use curves::curves;
pub(super) use own::own;
pub(super) use trend::told;
pub(super) use usual::standing_out;

use crate::figures::Interval;
use crate::figures::trend::LEAST_PIECES;
use crate::progress::Numbers;
use crate::quantity::print_signed;

use super::next::kind_words;
use super::pieces;

/// `12 pieces (practice, timed)`; `None` where too few were made alike.
fn alike_words(numbers: &Numbers) -> Option<String> {
    let kind = kind_words(numbers.alike?);
    Some(format!("{} ({kind})", pieces(numbers.pieces.len())))
}

/// Why nothing is claimed where too few pieces were made alike.
fn too_few(numbers: &Numbers) -> String {
    format!(
        "Nothing is claimed: {} marked as a whole by an examiner, and it takes {LEAST_PIECES} \
         made alike: for one purpose, timed or untimed, by the latest version of the rubric.",
        pieces(numbers.whole)
    )
}

/// Marks of pieces made alike, in per cent.
fn percents(numbers: &Numbers) -> Vec<f64> {
    let pieces = numbers.pieces.iter();
    pieces.map(|piece| piece.percent.to_f64()).collect()
}

/// `95 % interval −0.8 to +2.1`.
fn interval_words(interval: Interval) -> String {
    format!(
        "95 % interval {} to {}",
        print_signed(interval.low, 1),
        print_signed(interval.high, 1)
    )
}
