//! Measures and nail holes that are moved by hand over a photo.

use evenshod::gauge::features::{Measures, Side, measure};
use evenshod::gauge::over::Edges;
use evenshod::gauge::{Level, Shown, ShownHole};
use evenshod::piece::Feature;
use evenshod::present::photo::{Moves, ends_of, hole_rows, moved};
use kurbo::{Point, Vec2};
use proptest::prelude::*;

use super::photo::{plane, shown};
use crate::gauge::over::known;

const WIDTH: usize = 0;
const CHORD: usize = 1;
const DEVIATION: usize = 3;

fn put(end: usize, place: usize, at: (f64, f64)) -> Shown {
    let mut moves = Moves::default();
    moves.put_end(&shown(), place, end, at);
    moved(&shown(), &moves)
}

/// 3 px to the mm, so 430 px are 143.33 mm. Each end lies off by 1.5 px along the line: √2 × 0.5
/// mm. What all measures share stays.
#[test]
fn a_measure_between_moved_ends_is_as_long_as_they_lie_apart() {
    let after = put(1, WIDTH, (530.0, 200.0));
    let (width, before) = (&after.measured[WIDTH], &shown().measured[WIDTH]);
    assert!((width.value - 430.0 / 3.0).abs() < 1e-9, "{}", width.value);
    assert!(
        (width.own - 0.5_f64.hypot(0.5)).abs() < 1e-9,
        "{}",
        width.own
    );
    assert_eq!((width.shared, width.by_hand), (before.shared, true));
    assert_eq!(width.line, [(100.0, 200.0), (530.0, 200.0)]);
    assert_eq!(after.measured[1..], shown().measured[1..]);
}

#[test]
fn the_overall_width_is_taken_across_and_a_chord_straight() {
    let slanting = (500.0, 320.0);
    let width = &put(1, WIDTH, slanting).measured[WIDTH];
    assert!((width.value - 400.0 / 3.0).abs() < 1e-9, "{}", width.value);
    let chord = &put(1, CHORD, slanting).measured[CHORD];
    let long = 400.0_f64.hypot(120.0) / 3.0;
    assert!((chord.value - long).abs() < 1e-9, "{}", chord.value);
}

#[test]
fn what_is_no_distance_has_no_ends() {
    let shown = shown();
    assert_eq!(
        ends_of(&shown, WIDTH),
        Some((Feature::OverallWidth, [(100.0, 200.0), (500.0, 200.0)]))
    );
    assert_eq!(ends_of(&shown, DEVIATION), None);
    assert_eq!(ends_of(&shown, 4), None, "an angle");
    assert_eq!(ends_of(&shown, 99), None);
    assert_eq!(put(0, DEVIATION, (1.0, 1.0)), shown);
    assert_eq!(put(7, 99, (1.0, 1.0)), shown);
}

#[test]
fn what_was_moved_is_told_and_can_be_put_back() {
    let shown = shown();
    let mut moves = Moves::default();
    assert_eq!(moves.note(), "");
    moves.put_end(&shown, WIDTH, 0, (90.0, 200.0));
    moves.put_end(&shown, WIDTH, 1, (510.0, 200.0));
    let width = moved(&shown, &moves).measured[WIDTH].value;
    assert!((width - 140.0).abs() < 1e-9, "{width}");
    moves.remove_hole(&shown, 0);
    assert_eq!(moves.note(), ". Moved by hand: overall width, nail holes");
    moves.put_back(&shown, WIDTH);
    moves.put_holes_back();
    assert_eq!(moved(&shown, &moves), shown);
    assert_eq!(moves, Moves::default());
}

/// A known shoe as it lies in a picture from straight above, 3 px to the mm on its face, with two
/// holes on the left and one on the right, and its own measures.
fn known_shoe() -> (Shown, Measures) {
    let Edges { outer, inner } = known().swap_remove(0);
    let pixels = |ring: &Vec<Point>| {
        let seen = ring.iter().map(|at| plane().pixel(*at, Level::Face));
        seen.collect::<Option<Vec<_>>>().unwrap()
    };
    let on_sheet = |ring: &Vec<Point>| -> Vec<Point> {
        ring.iter().map(|at| Point::new(at.x, -at.y)).collect()
    };
    let inner_on_sheet: Vec<Vec<Point>> = inner.iter().map(on_sheet).collect();
    let measures = measure(
        &on_sheet(&outer),
        &inner_on_sheet,
        Some(Vec2::new(0.0, 1.0)),
    )
    .unwrap();
    let shown = Shown {
        outer: pixels(&outer),
        inner: inner.iter().map(pixels).collect(),
        holes: Vec::new(),
        ..shown()
    };
    (shown, measures)
}

/// So far along a branch, as a share, on the middle of its web.
fn on_web(measures: &Measures, side: Side, share: f64) -> Point {
    let line = measures.across(side, share);
    line[0].midpoint(line[1])
}

fn marked(shown: &Shown, moves: &mut Moves, places: &[Point]) -> Vec<ShownHole> {
    for place in places {
        let own = Point::new(place.x, -place.y);
        let at = plane().pixel(own, Level::Hole).unwrap();
        moves.add_hole(shown, "left");
        let last = moves.holes(shown).len() - 1;
        moves.put_hole(shown, last, at);
    }
    moved(shown, moves).holes
}

/// Whatever the order in which they were put there.
#[test]
fn holes_by_hand_are_measured_as_the_gauge_measures_its_own() {
    let (shown, measures) = known_shoe();
    let places = [
        on_web(&measures, Side::Left, 0.6),
        on_web(&measures, Side::Right, 0.4),
        on_web(&measures, Side::Left, 0.3),
    ];
    let holes = marked(&shown, &mut Moves::default(), &places);
    let names: Vec<String> = holes
        .iter()
        .map(|hole| format!("{} {}", hole.side, hole.number))
        .collect();
    assert_eq!(names, ["left 1", "left 2", "right 1"]);
    let own = measures.holes(&places).unwrap();
    let wanted = own.holes.left.iter().chain(&own.holes.right);
    for (hole, wanted) in holes.iter().zip(wanted) {
        assert!(
            (hole.to_edge.unwrap() - wanted.to_edge).abs() < 0.02,
            "{hole:?} {wanted:?}"
        );
        assert!(
            (hole.along - wanted.along).abs() < 0.02,
            "{hole:?} {wanted:?}"
        );
        // 1.5 px at 2.96 px to the mm.
        assert!(
            (hole.unsure - 1.5 * 506.0 / 1_500.0).abs() < 1e-6,
            "{}",
            hole.unsure
        );
    }
    let gap = holes[0].to_next.unwrap();
    assert!((gap - own.gaps.left[0]).abs() < 0.02, "{gap}");
    assert_eq!((holes[1].to_next, holes[2].to_next), (None, None));
}

#[test]
fn a_hole_off_the_steel_counts_as_none_until_it_is_put_on_it() {
    let (shown, measures) = known_shoe();
    let mut moves = Moves::default();
    let on = on_web(&measures, Side::Left, 0.4);
    let off = [on, Point::new(0.0, 40.0)];
    assert_eq!(marked(&shown, &mut moves, &off).len(), 1);
    assert_eq!(moves.holes(&shown).len(), 2);
    moves.remove_hole(&shown, 0);
    assert_eq!(moved(&shown, &moves).holes, []);
    moves.remove_hole(&shown, 9);
    assert_eq!(moves.holes(&shown).len(), 1);
    moves.put_holes_back();
    assert_eq!(moved(&shown, &moves), shown);
}

#[test]
fn rows_say_what_is_by_hand() {
    let (shown, measures) = known_shoe();
    let on = on_web(&measures, Side::Right, 0.5);
    let holes = marked(&shown, &mut Moves::default(), &[on]);
    let rows = hole_rows(&Shown { holes, ..shown });
    assert_eq!(rows[0].name, "Right, 1");
    assert_eq!(rows[0].sure, "± 1.0 mm, by hand");
}

proptest! {
    #[test]
    fn a_place_comes_back_from_where_it_appears(x in -80.0_f64..80.0, y in -10.0_f64..160.0) {
        let place = Point::new(x, y);
        for level in [Level::Face, Level::Hole] {
            let pixel = plane().pixel(place, level).unwrap();
            let back = plane().place(pixel, level).unwrap();
            prop_assert!(back.distance(place) < 1e-9);
        }
    }
}
