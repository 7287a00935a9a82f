//! The next piece: what counts towards it, and what is kept apart.

use std::sync::Arc;

use evenshod::figures::Lacking;
use evenshod::figures::trend::next_piece;
use evenshod::marking::Facts;
use evenshod::progress::{LEVEL, Made, NextPiece, all_series, next_pieces};
use evenshod::quantity::Marks;
use evenshod::records::{Role, SittingKind};
use evenshod::rubric::Rubric;

use super::{RUBRIC, made, seen};
use crate::marking::{facts, rubric};

/// The same piece with a clock that stood.
fn untimed(mut whole: Facts) -> Facts {
    whole.tallies.remove("time");
    let stood = r#"{"time": {"state": "cannot-measure", "reason": "clock stood", "marks": "2"}}"#;
    whole.states = facts(&format!(r#"{{"states": {stood}}}"#)).states;
    whole
}

fn next_of(made: &[Made<'_>]) -> Vec<NextPiece> {
    next_pieces(&all_series(made)[0])
}

/// Pieces whose depth has so many of its six marks, heats and time in full.
fn depths(depths: &[u32]) -> Vec<Facts> {
    depths
        .iter()
        .map(|depth| seen(2, 1, *depth, 6, ""))
        .collect()
}

fn rubric_now() -> Arc<Rubric> {
    Arc::new(rubric(RUBRIC))
}

#[test]
fn the_figure_is_that_of_the_marks_in_order() {
    let rubric = rubric_now();
    let all = depths(&[1, 3, 2, 4, 5, 4]);
    let pieces = super::made_of(&rubric, &all);
    let found = next_of(&pieces);
    assert_eq!(found.len(), 1);
    let next = &found[0];
    assert_eq!(
        (next.sitting, next.is_timed, next.pieces),
        (SittingKind::Practice, true, 6)
    );
    assert_eq!(
        (next.out_of, next.pass_mark),
        (Marks::whole(20), Marks::whole(12))
    );
    // 6 of 10 marks for the form, so many for depth, 4 for heats and time.
    let marks: Vec<f64> = [1.0, 3.0, 2.0, 4.0, 5.0, 4.0]
        .map(|depth| 10.0 + depth)
        .into();
    assert_eq!(next.figure, next_piece(&marks, 20.0, 0.6, LEVEL));
    assert!(next.figure.as_ref().unwrap().passes > 0.9);
}

#[test]
fn purposes_and_time_are_kept_apart_the_latest_first() {
    let rubric = rubric_now();
    let mut all = depths(&[1, 3, 2, 4, 5, 4, 6, 2]);
    all[7] = untimed(all[7].clone());
    let mut pieces = super::made_of(&rubric, &all);
    pieces[6].sitting = SittingKind::Exam;
    let found = next_of(&pieces);
    let told: Vec<_> = found
        .iter()
        .map(|next| {
            (
                next.sitting,
                next.is_timed,
                next.pieces,
                next.figure.is_ok(),
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            (SittingKind::Practice, false, 1, false),
            (SittingKind::Exam, true, 1, false),
            (SittingKind::Practice, true, 6, true),
        ]
    );
    assert!(matches!(found[0].figure, Err(Lacking::TooFew { .. })));
}

#[test]
fn own_marks_unfinished_ones_and_other_versions_do_not_count() {
    let (old, new) = (rubric_now(), {
        let mut rubric = rubric(RUBRIC);
        rubric.version = "2".to_owned();
        Arc::new(rubric)
    });
    let whole = seen(2, 1, 4, 6, "");
    let part = facts(r#"{"levels": {"toe": "2"}}"#);
    let mut pieces: Vec<Made<'_>> = (0..5)
        .map(|at| made(&old, &whole, at, Role::First))
        .collect();
    assert_eq!(next_of(&pieces)[0].pieces, 5);
    pieces.push(made(&old, &whole, 5, Role::Own));
    pieces.push(made(&old, &part, 6, Role::First));
    assert_eq!(next_of(&pieces)[0].pieces, 5);
    pieces.push(made(&new, &whole, 7, Role::First));
    assert_eq!(next_of(&pieces)[0].pieces, 1);
    let own = [made(&old, &whole, 0, Role::Own)];
    assert!(next_of(&own).is_empty());
}
