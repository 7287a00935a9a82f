//! What the next piece may come to.

use evenshod::figures::Lacking;
use evenshod::figures::trend::{LEAST_PIECES, next_piece};

use crate::figures::near::near;

/// By SciPy 1.17: linregress through the logits, then `t.ppf` and `t.sf` with 4 degrees of
/// freedom; the numbers are our own.
#[test]
fn the_prediction_is_that_of_a_line_through_the_logits() {
    let marks = [52.0, 58.0, 55.0, 63.0, 66.0, 64.0];
    let found = next_piece(&marks, 100.0, 0.65, 0.95).unwrap();
    near(found.share, SHARE, 1e-9);
    near(found.interval.low, LOW, 1e-9);
    near(found.interval.high, HIGH, 1e-9);
    near(found.passes, PASSES, 1e-9);
    assert_eq!(found.pieces, 6);
}

const SHARE: f64 = 0.685463912500861;
const LOW: f64 = 0.5817130681796954;
const HIGH: f64 = 0.773805389416314;
const PASSES: f64 = 0.810424830049723;

#[test]
fn full_marks_and_none_have_a_next_piece() {
    let found = next_piece(&[0.0, 40.0, 80.0, 100.0, 100.0], 100.0, 0.65, 0.95).unwrap();
    assert!(found.share > 0.9 && found.share <= 1.0);
    assert!(found.interval.low >= 0.0 && found.interval.high <= 1.0);
    assert!(found.passes > 0.9 && found.passes < 1.0);
}

#[test]
fn nothing_is_said_from_four_pieces_or_from_none_that_differ() {
    let few = next_piece(&[60.0, 61.0, 65.0, 62.0], 100.0, 0.65, 0.95);
    assert_eq!(
        few,
        Err(Lacking::TooFew {
            what: "pieces",
            has: 4,
            needs: LEAST_PIECES
        })
    );
    assert!(next_piece(&[60.0; 6], 100.0, 0.65, 0.95).is_err());
    assert!(next_piece(&[60.0, 61.0, 65.0, 62.0, 101.0], 100.0, 0.65, 0.95).is_err());
    assert!(next_piece(&[60.0, 61.0, 65.0, 62.0, 66.0], 0.0, 0.65, 0.95).is_err());
    assert!(next_piece(&[60.0, 61.0, 65.0, 62.0, 66.0], 100.0, 1.5, 0.95).is_err());
}
