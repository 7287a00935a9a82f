use std::f64::consts::PI;

use evenshod::gauge::features::{Heels, Measures, Side, measure};
use kurbo::{Point, Vec2};

use super::known;

/// Points half a mm apart from one to the other, without the last.
fn straight(from: (f64, f64), to: (f64, f64)) -> Vec<Point> {
    let (from, to) = (Point::from(from), Point::from(to));
    let count = (from.distance(to) / 0.5).ceil();
    let places = (0..1_000).map(f64::from).take_while(|at| *at < count);
    places.map(|at| from.lerp(to, at / count)).collect()
}

/// Half round about the origin, over the top: from the left if `to_right`.
fn arch(radius: f64, to_right: bool) -> Vec<Point> {
    let turn = if to_right { -PI } else { PI };
    let start = if to_right { PI } else { 0.0 };
    let at = |place: u32| Vec2::from_angle(start + turn * f64::from(place) / 400.0) * radius;
    (0..400).map(|place| at(place).to_point()).collect()
}

/// A U of a half round and straight legs: 120 wide and 140 long, its web 20, from the quarters
/// on to 25 at the heels, which are square.
fn open() -> Measures {
    measure(&outline(), &[], None).unwrap()
}

/// Its outline, with x = 0 as its mirror axis.
pub fn outline() -> Vec<Point> {
    let parts = [
        straight((-60.0, -80.0), (-60.0, 0.0)),
        arch(60.0, true),
        straight((60.0, 0.0), (60.0, -80.0)),
        straight((60.0, -80.0), (35.0, -80.0)),
        straight((35.0, -80.0), (40.0, 0.0)),
        arch(40.0, false),
        straight((-40.0, 0.0), (-35.0, -80.0)),
        straight((-35.0, -80.0), (-60.0, -80.0)),
    ];
    parts.concat()
}

#[test]
fn an_open_shoe_by_hand() {
    let found = open();
    let is_near = |found: f64, expect: f64, within: f64| {
        assert!((found - expect).abs() < within, "{found} for {expect}");
    };
    is_near(found.width, 120.0, 1e-9);
    is_near(found.length, 140.0, 1e-3);
    is_near(found.toe_circle.radius, 60.0, 1e-3);
    is_near(found.deviation.most.by, 0.0, 1e-6);
    // A quarter round and the leg.
    let branch = 30.0 * PI + 80.0;
    is_near(found.webs.toe, 20.0, 1e-3);
    // 80 % of the branch is so far down the leg, whose web grows by 5 over 80.
    let heel = 20.0 + (0.8 * branch - 30.0 * PI) / 16.0;
    for side in [Side::Left, Side::Right] {
        is_near(*found.branches.of(side), branch, 0.02);
        is_near(found.heel_corners.of(side).x.abs(), 60.0, 0.02);
        is_near(found.heel_corners.of(side).y, 140.0, 0.02);
        is_near(*found.webs.toe_quarters.of(side), 20.0, 1e-2);
        is_near(*found.webs.heels.of(side), heel, 1e-2);
    }
    let Heels::Open(gap) = found.heels else {
        panic!("it has no bar");
    };
    is_near(gap, 70.0, 0.05);
    let hole = found.hole(Point::new(53.0, -30.0)).unwrap();
    assert_eq!(hole.side, Side::Right);
    is_near(hole.to_edge, 7.0, 1e-6);
    is_near(hole.along, 30.0 * PI + 30.0, 1e-2);
    let end = found.fuller_end(Point::new(-50.0, -40.0)).unwrap();
    assert_eq!(end.side, Side::Left);
    is_near(end.share, (30.0 * PI + 40.0) / branch, 2e-4);
    let (left, right) = (Point::new(-52.0, -10.0), Point::new(53.0, -13.0));
    let holes = found
        .holes(&[Point::new(53.0, -30.0), right, left])
        .unwrap();
    is_near(holes.mismatch[0].out, 1.0, 1e-6);
    is_near(holes.mismatch[0].back, 3.0, 1e-6);
    assert_eq!(holes.mismatch.len(), 1);
    is_near(holes.gaps.right[0], 17.0, 1e-9);
    assert!(holes.gaps.left.is_empty());
}

/// A bump of 1 mm on one branch stands out there, and lacks on the other.
#[test]
fn what_stands_out_is_told_by_its_sign() {
    let shoe = &known()[0];
    let frame = shoe.measured().frame;
    for (side, sign) in [(Side::Left, -1.0), (Side::Right, 1.0)] {
        let bumped = shoe.outer().into_iter().map(|at| {
            let mut at = frame.into_shoe(at);
            if at.x * sign > 20.0 {
                at.x += sign * (-((at.y - 60.0) / 8.0).powi(2)).exp();
            }
            frame.into_input(at)
        });
        let outer: Vec<Point> = bumped.collect();
        let found = measure(&outer, &shoe.inner(), None).unwrap().deviation;
        let most = found.first_most.by.abs();
        assert!(0.7 < most && most < 1.1, "{most}");
        let share = found.first_most.share;
        let on = |side| {
            let places = found.along.iter();
            let mut own = places.filter(|at| at.side == side && (at.share - share).abs() < 0.004);
            own.next().unwrap().by
        };
        assert!(on(side) > 0.6, "{side:?}: {}", on(side));
        let other = if side == Side::Left {
            Side::Right
        } else {
            Side::Left
        };
        assert!(on(other) < -0.6, "{other:?}: {}", on(other));
    }
}
