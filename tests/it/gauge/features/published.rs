use evenshod::gauge::features::{Circle, minimum_zone};
use evenshod::piece::{Chain, mirror_axis, mirror_axis_of};
use kurbo::{BezPath, Point, Vec2};

use super::points;

fn is_near(found: f64, expect: f64, within: f64) {
    assert!((found - expect).abs() <= within, "{found} for {expect}");
}

/// W. Gander, G. H. Golub and R. Strebel, Least-squares fitting of circles and ellipses, BIT
/// 34, 1994: their six points, centre and radius to four places (from memory); to more places
/// by another program's least squares.
#[test]
fn the_circle_of_gander_golub_and_strebel() {
    let six = [
        (1.0, 7.0),
        (2.0, 6.0),
        (5.0, 8.0),
        (7.0, 7.0),
        (9.0, 5.0),
        (3.0, 7.0),
    ];
    let circle = Circle::fit(&points(&six)).unwrap();
    is_near(circle.centre.x, 4.7398, 6e-5);
    is_near(circle.centre.y, 2.9835, 6e-5);
    is_near(circle.radius, 4.7142, 6e-5);
    is_near(circle.centre.x, 4.739_782_418, 1e-7);
    is_near(circle.centre.y, 2.983_532_732, 1e-7);
    is_near(circle.radius, 4.714_226_012, 1e-7);
    is_near(circle.rms * circle.rms * 6.0, 1.227_599_078, 1e-7);
}

/// Constructed: eight points about (10, 20), 50 away but for a little; the least-squares
/// circle by another program.
#[test]
fn the_circle_of_a_nearly_round_part() {
    let off = [0.05, -0.03, 0.02, 0.04, -0.05, 0.01, -0.02, 0.03];
    let around = (0..8_u8).zip(off).map(|(at, off)| {
        let way = Vec2::from_angle(f64::from(at) * std::f64::consts::FRAC_PI_4);
        Point::new(10.0, 20.0) + way * (50.0 + off)
    });
    let circle = Circle::fit(&around.collect::<Vec<_>>()).unwrap();
    is_near(circle.centre.x, 10.016_160_11, 1e-7);
    is_near(circle.centre.y, 20.004_693_06, 1e-7);
    is_near(circle.radius, 50.006_251_42, 1e-7);
}

#[test]
fn no_circle_goes_through_two_points_or_a_line() {
    let line: Vec<Point> = (0..9).map(|at| Point::new(f64::from(at), 2.0)).collect();
    assert_eq!(Circle::fit(&line), None);
    assert_eq!(Circle::fit(line.split_at(2).0), None);
    assert_eq!(Circle::fit(&[Point::new(3.0, 4.0); 5]), None);
    assert_eq!(Circle::fit(&[Point::new(f64::NAN, 4.0); 5]), None);
}

/// Straightness as ISO 12780-1 defines it; the values by brute force and by a linear program.
#[test]
fn the_minimum_zone_of_nine_points() {
    let heights = [0.0, 0.04, 0.01, 0.07, 0.05, 0.02, 0.08, 0.03, 0.06];
    let nine = heights.iter().enumerate();
    let nine: Vec<Point> = nine
        .map(|(at, y)| Point::new(at as f64 * 10.0, *y))
        .collect();
    let zone = minimum_zone(&nine).unwrap();
    is_near(zone.width, 0.057_999_995_36, 1e-10);
    is_near(zone.angle.tan(), 0.0004, 1e-10);
    assert_eq!(minimum_zone(&[Point::ZERO; 3]), None);
}

/// A constructed outline, its perimeter by shapely 2.2.0, and points by hand.
#[test]
fn lengths_and_distances_of_a_chain() {
    let mut outline = points(&[
        (-50.0, 0.0),
        (-58.0, 60.0),
        (-40.0, 110.0),
        (0.0, 130.0),
        (42.0, 108.0),
        (57.0, 58.0),
        (48.0, 0.0),
        (25.0, 0.0),
        (34.0, 60.0),
        (0.0, 100.0),
        (-33.0, 62.0),
        (-27.0, 0.0),
    ]);
    outline.push(outline[0]);
    let chain = Chain::of(&outline).unwrap();
    is_near(chain.length(), 588.489_826, 1e-6);
    let mut near = 0;
    // Before a straight edge; over the corner (0, 100), in the steel; under it, 34 : 40 from
    // the nearer edge.
    is_near(
        chain.signed_distance(Point::new(36.0, -10.0), &mut near),
        10.0,
        1e-12,
    );
    is_near(
        chain.signed_distance(Point::new(0.0, 110.0), &mut near),
        -10.0,
        1e-12,
    );
    is_near(
        chain.signed_distance(Point::new(0.0, 90.0), &mut near),
        10.0 * 34.0 / 2756_f64.sqrt(),
        1e-9,
    );
    let start = chain.at(0.0);
    assert_eq!(start, Point::new(-50.0, 0.0));
    assert_eq!(chain.at(chain.length()), start);
    is_near(chain.nearest(chain.at(123.0), &mut near).along, 123.0, 1e-9);
    let part = Chain::of(&chain.part(500.0, 100.0)).unwrap();
    is_near(part.length(), chain.length() - 400.0, 1e-9);
}

/// Started from points of its own, the axis stays where the outline's is if they are all of it.
#[test]
fn the_axis_of_all_points_is_that_of_the_outline() {
    let triangle = BezPath::from_svg("M0,0 L20,0 L10,70 Z").unwrap();
    let corners = [(0.0, 0.0), (20.0, 0.0), (10.0, 70.0), (0.0, 0.0)];
    let all: Vec<Point> = Chain::of(&points(&corners)).unwrap().spread(60).collect();
    let mut start = mirror_axis(&triangle).unwrap();
    start.angle += 0.1;
    let axis = mirror_axis_of(&triangle, &all, start).unwrap();
    is_near(axis.angle, std::f64::consts::FRAC_PI_2, 1e-6);
    is_near(axis.point.x, 10.0, 1e-5);
    assert_eq!(mirror_axis_of(&triangle, &[], start), None);
}
