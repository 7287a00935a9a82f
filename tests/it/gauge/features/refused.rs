use evenshod::gauge::features::{Refused, measure};
use kurbo::{Point, Vec2};
use proptest::prelude::*;

use super::known;

fn refused(outer: &[Point], inner: &[Vec<Point>]) -> Refused {
    measure(outer, inner, Some(Vec2::new(0.0, 1.0))).unwrap_err()
}

fn circle(about: Point, radius: f64, count: u32) -> Vec<Point> {
    let step = std::f64::consts::TAU / f64::from(count);
    let at = |place: u32| about + Vec2::from_angle(f64::from(place) * step) * radius;
    (0..count).map(at).collect()
}

#[test]
fn what_is_no_outline_is_refused_with_the_reason() {
    let shoe = &known()[0];
    let (outer, inner) = (shoe.outer(), shoe.inner());
    assert!(matches!(refused(&[], &[]), Refused::TooFew { has: 0, .. }));
    let twice = [outer[0], outer[0], outer[1], outer[0]];
    assert!(matches!(
        refused(&twice, &[]),
        Refused::TooFew { has: 2, .. }
    ));
    for wrong in [f64::NAN, f64::INFINITY, 1e200] {
        let mut outer = outer.clone();
        outer[7].x = wrong;
        assert!(matches!(refused(&outer, &inner), Refused::NotANumber(_)));
    }
    let there = (0..40).map(|at| Point::new(f64::from(at), 0.0));
    let line: Vec<Point> = there.collect();
    assert!(matches!(refused(&line, &[]), Refused::NoArea(_)));
    let tiny: Vec<Point> = outer
        .iter()
        .map(|at| (at.to_vec2() * 1e-170).to_point())
        .collect();
    assert!(matches!(refused(&tiny, &[]), Refused::NoArea(_)));
    let mut crossed = outer.clone();
    crossed.swap(100, 400);
    assert!(matches!(refused(&crossed, &inner), Refused::Cross { .. }));
    let mut touched = outer.clone();
    touched[100] = touched[400];
    assert!(matches!(refused(&touched, &inner), Refused::Cross { .. }));
    let beside: Vec<Point> = inner[0]
        .iter()
        .map(|at| *at + Vec2::new(500.0, 0.0))
        .collect();
    assert!(matches!(refused(&outer, &[beside]), Refused::Outside(_)));
    let over: Vec<Point> = inner[0]
        .iter()
        .map(|at| *at + Vec2::new(30.0, 0.0))
        .collect();
    assert!(matches!(refused(&outer, &[over]), Refused::Cross { .. }));
    let round = circle(Point::ORIGIN, 60.0, 300);
    assert_eq!(measure(&round, &[], None).unwrap_err(), Refused::NoToe);
    assert!(matches!(
        measure(&outer, &inner, Some(Vec2::ZERO)).unwrap_err(),
        Refused::NotANumber(_)
    ));
}

/// Without its opening a bar shoe is a plate, which has no web.
#[test]
fn a_shoe_without_its_inner_edge_is_refused() {
    let shoe = &known()[0];
    let found = measure(&shoe.outer(), &[], None).unwrap_err();
    assert_eq!(found, Refused::Missing("the inner edge"));
    assert!(
        found
            .to_string()
            .starts_with("the inner edge cannot be told")
    );
}

#[test]
fn what_lies_off_the_steel_is_no_hole() {
    let found = known()[0].measured();
    let middle = found.frame.into_input(Point::new(0.0, found.length / 2.0));
    let before = found.frame.into_input(Point::new(0.0, -5.0));
    for place in [middle, before] {
        assert!(matches!(found.hole(place), Err(Refused::Outside(_))));
        assert!(matches!(found.fuller_end(place), Err(Refused::Outside(_))));
    }
    let nowhere = Point::new(f64::NAN, 0.0);
    assert!(matches!(found.hole(nowhere), Err(Refused::NotANumber(_))));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Star-shaped polygons of any kind, and any points at all, give measures or a reason.
    #[test]
    fn nothing_panics(
        radii in proptest::collection::vec(0.0..100.0_f64, 0..60),
        loose in proptest::collection::vec((-1e3..1e3_f64, -1e3..1e3_f64), 0..60),
        within in 0.1..1.2_f64,
        to_toe in proptest::option::of((-1.0..1.0_f64, -1.0..1.0_f64)),
    ) {
        let count = u32::try_from(radii.len()).unwrap().max(1);
        let round = circle(Point::ORIGIN, 1.0, count);
        let star: Vec<Point> = round
            .iter()
            .zip(&radii)
            .map(|(way, radius)| (way.to_vec2() * *radius).to_point())
            .collect();
        let inner: Vec<Point> = star.iter().map(|at| (at.to_vec2() * within).to_point()).collect();
        let to_toe = to_toe.map(Vec2::from);
        for (outer, inner) in [(star.clone(), vec![]), (star, vec![inner]), (super::points(&loose), vec![])] {
            if let Ok(found) = measure(&outer, &inner, to_toe) {
                let figures = [
                    found.width, found.length, found.branches.left, found.branches.right,
                    found.webs.toe, found.deviation.rms, found.toe_circle.radius,
                ];
                prop_assert!(figures.iter().all(|figure| figure.is_finite() && *figure >= 0.0));
            }
        }
    }
}
