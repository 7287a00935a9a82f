//! What a measure rests on: an edge that is off elsewhere leaves it as it is.

use evenshod::gauge::features::{Heels, Measures, measure, measure_near};
use evenshod::piece::Feature;
use kurbo::Point;

use super::hand::outline;
use super::known;

/// An edge that is off by this, in mm, over a run of this many mm to each side,
const OFF: f64 = 0.5;
const RUN: f64 = 5.0;
/// and nearer to no place that a measure rests on than this,
const FAR: f64 = 9.0;
/// moves it by a third of that at most: the mirror axis turns a little with it.
const LEFT: f64 = OFF / 3.0;

fn value(feature: Feature, measures: &Measures) -> Option<f64> {
    let webs = &measures.webs;
    let Heels::Bar(bar) = measures.heels else {
        return None;
    };
    Some(match feature {
        Feature::OverallWidth => measures.width,
        Feature::OverallLength => measures.length,
        Feature::WebToe => webs.toe,
        Feature::WebToeQuarterLeft => webs.toe_quarters.left,
        Feature::WebQuarterRight => webs.quarters.right,
        Feature::WebHeelLeft => webs.heels.left,
        Feature::BranchLengthLeft => measures.branches.left,
        Feature::BranchLengthRight => measures.branches.right,
        Feature::ToeRadius => measures.toe_circle.radius,
        Feature::BarWidth => bar.width,
        Feature::BarBackStraightness => bar.straightness,
        // In mm over the length of the bar.
        Feature::BarBackSquareness => bar.angle * measures.width,
        _ => return None,
    })
}

/// The ring with a smooth bump about one of its places, so far to each side and so high.
fn bumped(ring: &[Point], middle: Point, run: f64, off: f64) -> Vec<Point> {
    let count = ring.len();
    let each = ring.iter().enumerate().map(|(place, at)| {
        let far = at.distance(middle);
        if far > run {
            return *at;
        }
        let along = ring[(place + 1) % count] - ring[(place + count - 1) % count];
        let by = off * (far / run * std::f64::consts::FRAC_PI_2).cos().powi(2);
        *at + kurbo::Vec2::new(-along.y, along.x).normalize() * by
    });
    each.collect()
}

#[test]
fn an_edge_that_is_off_elsewhere_leaves_a_measure_as_it_is() {
    let shoes = known();
    let shoe = shoes.iter().find(|shoe| !shoe.inner().is_empty()).unwrap();
    let (outer, before) = (shoe.outer(), shoe.measured());
    let mut held = 0;
    for place in (0..outer.len()).step_by(outer.len() / 24) {
        let middle = outer[place];
        let toe = Some(-before.frame.back);
        let after = measure(&bumped(&outer, middle, RUN, OFF), &shoe.inner(), toe).unwrap();
        for feature in Feature::ALL {
            let places = before.rests_on(feature);
            let (Some(was), Some(is)) = (value(feature, &before), value(feature, &after)) else {
                continue;
            };
            assert!(!places.is_empty(), "{feature}");
            if places.iter().all(|at| at.distance(middle) > FAR) {
                let moved = (is - was).abs();
                assert!(moved < LEFT, "{feature} by {moved} mm, off at {middle:?}");
                held += 1;
            }
        }
    }
    assert!(held > 150, "{held}");
}

/// A notch of 6 mm, as glare makes one, turns the axis by what it takes off one branch; left out,
/// it does not. Within half of 0.3 degrees, the most that squareness may be off.
#[test]
fn the_axis_leaves_out_what_cannot_be_relied_on() {
    let outer = outline();
    let middle = Point::new(60.0, -10.0);
    let notched = bumped(&outer, middle, 15.0, 6.0);
    let with_it = measure(&notched, &[], None).unwrap();
    let unclear = notched.iter().filter(|at| at.distance(middle) < 15.0);
    let unclear: Vec<Point> = unclear.copied().collect();
    let without = measure_near(&notched, &[], &with_it.frame, &unclear).unwrap();
    let turned = |found: &Measures| found.frame.back.x.atan2(-found.frame.back.y).to_degrees();
    assert!(turned(&without).abs() < 0.15, "{}", turned(&without));
    assert!(turned(&with_it).abs() > 0.3, "{}", turned(&with_it));
}
