//! What over a photo can be held, its order and names, and which mark a tap is near.

use evenshod::present::photo::{
    Hold, Mark, Moves, Tap, after_removal, beside, held, holds, moved, nearest,
};

use super::photo::shown;

const WIDTH: usize = 0;
const DEVIATION: usize = 3;
const FIRST: Mark = Mark::End { row: WIDTH, end: 0 };
const SECOND: Mark = Mark::End { row: WIDTH, end: 1 };

fn all(moves: &Moves, pointed: Option<usize>) -> Vec<Hold> {
    holds(&shown(), &moved(&shown(), moves), moves, pointed)
}

fn names(holds: &[Hold]) -> Vec<&str> {
    holds.iter().map(|hold| hold.name.as_str()).collect()
}

#[test]
fn the_ends_come_first_then_the_holes_from_the_toe_back() {
    let with_ends = all(&Moves::default(), Some(WIDTH));
    assert_eq!(
        names(&with_ends),
        [
            "First end of the overall width",
            "Second end of the overall width",
            "Nail hole, left 1 from the toe",
            "Nail hole, left 2 from the toe",
            "Nail hole, right 1 from the toe",
        ]
    );
    assert_eq!(with_ends[1].at, (500.0, 200.0));
    assert_eq!(all(&Moves::default(), None), with_ends[2..]);
    assert_eq!(
        all(&Moves::default(), Some(DEVIATION)),
        with_ends[2..],
        "no distance of two places has no ends"
    );
}

/// The rings of this shoe carry no measures, so a hole that is put anywhere lies off the steel.
#[test]
fn a_hole_off_the_steel_comes_last() {
    let mut moves = Moves::default();
    moves.put_hole(&shown(), 0, (1_500.0, 1_100.0));
    let holds = all(&moves, None);
    assert_eq!(holds.len(), 3);
    assert!(
        names(&holds)
            .iter()
            .all(|name| *name == "Nail hole off the steel")
    );
    assert_eq!(holds[0].at, (1_500.0, 1_100.0));
}

#[test]
fn one_is_held_whatever_is_gone() {
    let holds = all(&Moves::default(), Some(WIDTH));
    assert_eq!(held(&holds, Some(SECOND)).unwrap().mark, SECOND);
    assert_eq!(held(&holds, Some(Mark::Hole(9))).unwrap().mark, FIRST);
    assert_eq!(held(&holds, None).unwrap().mark, FIRST);
    assert_eq!(held(&[], Some(FIRST)), None);
}

#[test]
fn next_and_previous_go_round() {
    let holds = all(&Moves::default(), Some(WIDTH));
    assert_eq!(beside(&holds, FIRST, true), Some(SECOND));
    assert_eq!(beside(&holds, SECOND, true), Some(Mark::Hole(0)));
    assert_eq!(beside(&holds, Mark::Hole(2), true), Some(FIRST));
    assert_eq!(beside(&holds, FIRST, false), Some(Mark::Hole(2)));
    assert_eq!(beside(&holds, Mark::Hole(9), true), None);
    assert_eq!(beside(&holds[..1], FIRST, false), Some(FIRST));
}

#[test]
fn a_tap_holds_the_nearest() {
    let holds = all(&Moves::default(), Some(WIDTH));
    assert_eq!(nearest(&holds, (480.0, 190.0)), Some(SECOND));
    assert_eq!(nearest(&holds, (210.0, 355.0)), Some(Mark::Hole(1)));
    assert_eq!(nearest(&[], (0.0, 0.0)), None);
}

/// Those after it move up by one place.
#[test]
fn the_next_hole_is_held_once_one_is_off() {
    let holds = all(&Moves::default(), Some(WIDTH));
    assert_eq!(after_removal(&holds, 0), Some(Mark::Hole(0)));
    assert_eq!(after_removal(&holds, 2), Some(Mark::Hole(1)));
    assert_eq!(after_removal(&holds[..3], 0), None);
    assert_eq!(after_removal(&holds, 9), None);
}

#[test]
fn a_tap_is_no_drag_and_no_second_finger() {
    let at = (100.0, 100.0);
    let mut tap = Tap::default();
    assert!(!tap.up(1, at), "nothing went down");
    tap.down(1, true, at);
    assert!(tap.up(1, (104.0, 97.0)));
    assert!(!tap.up(1, at), "it is over");
    tap.down(1, true, at);
    assert!(!tap.up(1, (109.0, 100.0)), "dragged");
    tap.down(1, true, at);
    tap.down(2, false, (150.0, 100.0));
    assert!(!tap.up(2, (150.0, 100.0)) && !tap.up(1, at), "two fingers");
    tap.down(1, true, at);
    tap.over();
    assert!(!tap.up(1, at), "panned");
}
