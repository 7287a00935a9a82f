use evenshod::gauge::features::{Heels, Hole, Side};
use kurbo::{Point, Vec2};
use serde_json::Value;

use super::{Known, known};

const MM: f64 = 0.05;
/// The truth takes heel corners and toe from points 0.1 mm apart, the corners of arcs that are
/// chords of a quarter mm; along the edge neither they nor the foot of a perpendicular are told
/// better.
const ALONG: f64 = 0.15;
const DEGREES: f64 = 0.05;

fn near(name: &str, what: &str, found: f64, expect: &Value, within: f64) {
    let expect = expect.as_f64().unwrap();
    assert!(
        (found - expect).abs() <= within,
        "{name}: {what} {found}, and truly {expect}"
    );
}

fn sides() -> [(Side, &'static str); 2] {
    [(Side::Left, "L"), (Side::Right, "R")]
}

#[test]
fn the_axis_and_the_deviation_of_known_shoes() {
    for shoe in known() {
        let (name, measures) = (&shoe.name, shoe.measured());
        let frame = measures.frame;
        let turned = frame.back.cross(shoe.axis("y_axis")).asin().to_degrees();
        assert!(turned.abs() < DEGREES, "{name}: turned by {turned}");
        assert!(frame.right.dot(shoe.axis("x_axis")) > 0.999, "{name}");
        let apart = frame.toe - shoe.axis("origin").to_point();
        assert!(apart.hypot() < MM, "{name}: toe off by {apart:?}");
        let (truth, found) = (&shoe.truth["mirror_axis"], &measures.deviation);
        near(name, "RMS", found.rms, &truth["rms_dev_mm"], 0.03);
        // At the heel corner, which the truth has from its design's axis.
        near(
            name,
            "most",
            found.most.by.abs(),
            &truth["max_dev_mm"],
            ALONG,
        );
        let first = &truth["rms_dev_first_90pct_mm"];
        near(name, "first RMS", found.first_rms, first, 0.03);
        let first = &truth["max_dev_first_90pct_mm"];
        near(name, "first most", found.first_most.by.abs(), first, MM);
    }
}

#[test]
fn the_lengths_of_known_shoes() {
    for shoe in known() {
        let (name, truth, found) = (&shoe.name, &shoe.truth, shoe.measured());
        near(name, "width", found.width, &truth["overall_width"], MM);
        near(name, "length", found.length, &truth["overall_length"], MM);
        near(
            name,
            "toe",
            found.webs.toe,
            &truth["web"]["toe_on_axis"],
            MM,
        );
        for (side, letter) in sides() {
            let branch = &truth["branch_outer_length"][letter];
            near(name, "branch", *found.branches.of(side), branch, ALONG);
            let corner = &truth["heel_corner_shoe_frame"][letter];
            let own = found.heel_corners.of(side);
            near(name, "corner", own.x, &corner[0], ALONG);
            near(name, "corner", own.y, &corner[1], ALONG);
            let webs = [
                ("toe_quarter", found.webs.toe_quarters),
                ("quarter", found.webs.quarters),
                ("heel", found.webs.heels),
            ];
            for (what, web) in webs {
                let truth = &truth["web"][format!("{what}_{letter}")];
                near(name, what, *web.of(side), truth, MM);
            }
        }
        let circle = &truth["toe_circle"];
        let radius = circle["radius"].as_f64().unwrap();
        let own = found.toe_circle;
        near(
            name,
            "radius",
            own.radius,
            &circle["radius"],
            0.003 * radius,
        );
        near(name, "circle RMS", own.rms, &circle["rms_residual"], 0.01);
    }
}

#[test]
fn the_heels_of_known_shoes() {
    for shoe in known() {
        let (name, truth) = (&shoe.name, &shoe.truth["bar"]);
        match shoe.measured().heels {
            Heels::Bar(bar) => {
                near(name, "bar", bar.width, &truth["width_on_axis"], MM);
                let straight = &truth["back_straightness_min_zone"];
                near(name, "straightness", bar.straightness, straight, 0.01);
                near(
                    name,
                    "bow",
                    bar.bow,
                    &truth["mid_back_offset_from_chord"],
                    0.01,
                );
                let angle = bar.angle.to_degrees();
                near(name, "angle", angle, &truth["back_angle_lsq_deg"], DEGREES);
                let angle = bar.zone_angle.to_degrees();
                near(
                    name,
                    "angle",
                    angle,
                    &truth["back_angle_min_zone_deg"],
                    DEGREES,
                );
            }
            Heels::Open(gap) => {
                assert!(truth.is_null());
                assert_between(name, gap, &shoe);
            }
        }
    }
}

/// The truth has no heel gap: it is less than from corner to corner, and more than that less
/// both webs.
fn assert_between(name: &str, gap: f64, shoe: &Known) {
    let corner = |letter| shoe.truth["heel_corner_shoe_frame"][letter][0].as_f64();
    let apart = corner("R").unwrap() - corner("L").unwrap();
    let web = |side| shoe.truth["web"][format!("heel_{side}")].as_f64().unwrap();
    let least = apart - 1.3 * (web("L") + web("R"));
    assert!(least < gap && gap < apart, "{name}: {least} {gap} {apart}");
}

#[test]
fn the_holes_and_the_fuller_of_known_shoes() {
    for shoe in known() {
        let (name, measures) = (&shoe.name, shoe.measured());
        let holes = measures.holes(&shoe.holes()).unwrap();
        for (side, letter) in sides() {
            let truth = shoe.truth["nail_holes"].as_array().unwrap();
            let own = truth.iter().filter(|hole| hole["side"] == letter);
            let own: Vec<&Value> = own.collect();
            assert_eq!(own.len(), holes.holes.of(side).len(), "{name}");
            for (at, hole) in holes.holes.of(side).iter().enumerate() {
                let truth = own[at];
                assert_eq!(truth["index"], at + 1, "{name}");
                near(name, "x", hole.centre.x, &truth["x"], MM);
                near(name, "y", hole.centre.y, &truth["y"], MM);
                near(name, "edge", hole.to_edge, &truth["to_outer_edge"], MM);
                near(name, "along", hole.along, &truth["arc_along_outer"], ALONG);
                match holes.gaps.of(side).get(at) {
                    Some(gap) => near(name, "gap", *gap, &truth["gap_to_next"], MM),
                    None => assert!(truth["gap_to_next"].is_null()),
                }
            }
        }
        let (left, right) = (&holes.holes.left[0].centre, &holes.holes.right[0].centre);
        let mirrored = Point::new(-left.x, left.y);
        let mismatch = holes.mismatch[0].distance();
        assert!((mismatch - mirrored.distance(*right)).abs() < 1e-9);
        for (end, place) in &shoe.fuller {
            let [x, y] = [0, 1].map(|at| place[at].as_f64().unwrap());
            let found = measures.fuller_end(Point::new(x, y)).unwrap();
            let truth = &shoe.truth["fuller"][end];
            if truth["frac"] == 0.0 {
                continue;
            }
            let within = ALONG / measures.branches.of(found.side);
            near(name, end, found.share, &truth["frac"], within);
            let is_left = found.side == Side::Left;
            assert_eq!(is_left, end.ends_with('L'), "{name}: {end}");
        }
    }
}

/// A hole alone is the same as among others, and the way to the toe changes nothing but what
/// is refused.
#[test]
fn the_rough_way_to_the_toe_is_enough() {
    for shoe in known() {
        let found = shoe.measured();
        let to_toe = -shoe.axis("y_axis");
        let (aside, across) = (
            Vec2::new(-to_toe.y, to_toe.x),
            Vec2::new(to_toe.y, -to_toe.x),
        );
        let told =
            |way| evenshod::gauge::features::measure(&shoe.outer(), &shoe.inner(), Some(way));
        assert_eq!(told(to_toe * 7.0 + aside).unwrap(), found, "{}", shoe.name);
        assert!(told(across).is_err(), "{}", shoe.name);
        let holes = found.holes(&shoe.holes()).unwrap();
        let alone: Hole = found.hole(shoe.holes()[0]).unwrap();
        assert!(holes.holes.of(alone.side).contains(&alone));
    }
}
