use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI};

use evenshod::piece::{Foot, MadeShoe, MirrorAxis, mirror_axis};
use kurbo::{Affine, BezPath, Point, Vec2};
use proptest::prelude::*;

use super::sample::{mm, nailed, open_shoe, ten};

const WITHIN_MM: f64 = 0.01;
const WITHIN_DEGREES: f64 = 0.01;
/// For an uneven shoe, whose mirrored points are sometimes nearest to one edge and sometimes
/// to another: the sum has small steps, and the search may end on either side of one.
const LOOSE: f64 = 10.0;

fn outline(which: usize) -> (BezPath, bool) {
    let (_, piece, foot) = ten().swap_remove(which);
    let is_even = piece.outer_fuller_by == mm(0);
    (MadeShoe::of(&piece, foot).unwrap().outline, is_even)
}

fn axis_of(outline: &BezPath) -> MirrorAxis {
    mirror_axis(outline).expect("it has an area")
}

/// Degrees between two lines, at most 90.
fn degrees_between(one: f64, other: f64) -> f64 {
    let apart = (one - other).rem_euclid(PI);
    apart.min(PI - apart).to_degrees()
}

/// How far a point lies off a line, in mm.
fn off(axis: MirrorAxis, point: Point) -> f64 {
    (axis.mirror(point) - point).hypot() / 2.0
}

#[track_caller]
fn is_the_line(axis: MirrorAxis, point: Point, angle: f64, name: &str) {
    let (turned, off) = (degrees_between(axis.angle, angle), off(axis, point));
    assert!(turned <= WITHIN_DEGREES, "{name}: {turned} degrees off");
    assert!(off <= WITHIN_MM, "{name}: {off} mm off");
}

#[test]
fn the_axis_of_an_even_shoe_is_its_middle_line() {
    let mut even = 0;
    for (name, piece, foot) in ten() {
        if piece.outer_fuller_by == mm(0) {
            even += 1;
            let axis = MadeShoe::of(&piece, foot).unwrap().axis;
            is_the_line(axis, Point::ZERO, FRAC_PI_2, name);
            is_the_line(axis, Point::new(0.0, 130.0), FRAC_PI_2, name);
        }
    }
    assert_eq!(even, 8);
}

/// A mirror image puts a point as far behind the line as it stood before it.
#[test]
fn a_mirror_image_is_its_own_inverse() {
    let axis = MirrorAxis {
        point: Point::new(3.0, 4.0),
        angle: 0.7,
    };
    let point = Point::new(-20.0, 55.0);
    let image = axis.mirror(point);
    assert!((axis.mirror(image) - point).hypot() < 1e-9);
    assert!((image - point).dot(axis.direction()).abs() < 1e-9);
    // The plain y axis, by hand.
    let upright = MirrorAxis {
        point: Point::new(1.0, 7.0),
        angle: FRAC_PI_2,
    };
    assert!((upright.mirror(Point::new(4.0, 2.0)) - Point::new(-2.0, 2.0)).hypot() < 1e-9);
    let [top, bottom] = upright.between(-5.0, 9.0).unwrap();
    assert!((top - Point::new(1.0, -5.0)).hypot() < 1e-9);
    assert!((bottom - Point::new(1.0, 9.0)).hypot() < 1e-9);
    let across = MirrorAxis {
        angle: 0.0,
        ..upright
    };
    assert_eq!(across.between(-5.0, 9.0), None);
}

/// A fuller outer branch moves the axis to its side; seen on the other foot it lies mirrored.
#[test]
fn near_and_off_have_mirrored_axes() {
    let mut piece = nailed(open_shoe(130, 134), 130);
    piece.outer_fuller_by = mm(4);
    let near = MadeShoe::of(&piece, Foot::NearFore).unwrap();
    let far = MadeShoe::of(&piece, Foot::OffFore).unwrap();
    let axes = [axis_of(&near.outline), axis_of(&far.outline)];
    for y in [0.0, 134.0] {
        let [at, _] = axes[0].between(y, 200.0).unwrap();
        assert!(off(axes[1], Point::new(-at.x, at.y)) < WITHIN_MM);
        assert!(off(near.mirrored().axis, Point::new(-at.x, at.y)) < 1e-9);
    }
    // The outer branch of a near foot lies on the right: at the greatest width the axis does too.
    let [at, _] = axes[0].between(70.0, 200.0).unwrap();
    assert!(at.x > 0.3 && at.x < 2.0, "{at:?}");
}

/// Source: shapely 2.0 (GEOS) and a search by brute force, tests/data/shoes/mirror.py.
#[test]
fn axes_of_uneven_shoes_agree_with_brute_force() {
    let found: BTreeMap<String, BTreeMap<String, f64>> =
        serde_json::from_str(include_str!("../../data/shoes/mirrored.json")).unwrap();
    assert_eq!(found.len(), 2);
    for (name, piece, foot) in ten() {
        let Some(theirs) = found.get(name) else {
            continue;
        };
        let axis = MadeShoe::of(&piece, foot).unwrap().axis;
        let angle = theirs["degrees"].to_radians();
        for y in [0.0, piece.finished.length.to_mm()] {
            let x = theirs["x"] + (y - theirs["y"]) / angle.tan();
            is_the_line(axis, Point::new(x, y), angle, name);
        }
    }
}

#[test]
fn what_has_no_area_has_no_axis() {
    assert_eq!(mirror_axis(&BezPath::new()), None);
    assert_eq!(mirror_axis(&BezPath::from_svg("M3,3 Z").unwrap()), None);
    let there_and_back = BezPath::from_svg("M0,0 L10,0 Z").unwrap();
    assert_eq!(mirror_axis(&there_and_back), None);
}

/// An isosceles triangle by hand: its axis goes through its tip and square to its base.
#[test]
fn the_axis_of_a_triangle_goes_through_its_tip() {
    let triangle = BezPath::from_svg("M0,0 L20,0 L10,70 Z").unwrap();
    let axis = axis_of(&triangle);
    is_the_line(axis, Point::new(10.0, 70.0), FRAC_PI_2, "triangle");
    is_the_line(axis, Point::new(10.0, 0.0), FRAC_PI_2, "triangle");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// However a shoe lies, its axis lies with it.
    #[test]
    fn a_turned_and_shifted_shoe_takes_its_axis_along(
        which in 0..10_usize,
        turn in 0.0..(2.0 * PI),
        right in -300.0..300.0_f64,
        down in -300.0..300.0_f64,
    ) {
        let (path, is_even) = outline(which);
        let axis = axis_of(&path);
        let moved = Affine::translate(Vec2::new(right, down)) * Affine::rotate(turn);
        let found = axis_of(&(moved * &path));
        let along = axis.angle + turn;
        let times = if is_even { 1.0 } else { LOOSE };
        prop_assert!(degrees_between(found.angle, along) <= times * WITHIN_DEGREES);
        for far in [-70.0, 70.0] {
            let point = moved * (axis.point + axis.direction() * far);
            prop_assert!(off(found, point) <= times * WITHIN_MM);
        }
        if is_even {
            prop_assert!(degrees_between(found.angle, FRAC_PI_2 + turn) <= WITHIN_DEGREES);
            prop_assert!(off(found, moved * Point::ZERO) <= WITHIN_MM);
        }
    }

    #[test]
    fn scaling_scales_the_axis(which in 0..10_usize, by in 0.2..5.0_f64) {
        let (path, is_even) = outline(which);
        let axis = axis_of(&path);
        let scaled = axis_of(&(Affine::scale(by) * &path));
        let times = if is_even { 1.0 } else { LOOSE };
        prop_assert!(degrees_between(axis.angle, scaled.angle) <= times * WITHIN_DEGREES);
        let point = (axis.point.to_vec2() * by).to_point();
        prop_assert!(off(scaled, point) <= times * WITHIN_MM * by.max(1.0));
    }
}
