//! Fuller and nail holes in small pictures of a shoe's ground face alone, painted here.

use evenshod::gauge::features::{Measures, measure};
use evenshod::gauge::groove::{Grooves, grooves};
use evenshod::gauge::holes::holes;
use evenshod::gauge::steel::in_steps;
use evenshod::gauge::{Camera, Picture, View};
use kurbo::{Point, Vec2};
use nalgebra::Point3;
use num_traits::AsPrimitive as _;

use super::camera::camera;
use super::paint::BarShoe;

const SIZE: (usize, usize) = (480, 500);
const THICKNESS: f64 = 10.0;
/// The groove lies between these distances from the outer edge, in mm, and these shares of the
/// branch.
const BAND: (f64, f64) = (7.0, 14.0);
const SHARES: (f64, f64) = (0.15, 0.75);

struct Seen {
    picture: Picture,
    camera: Camera,
    outer: Vec<Point>,
    measures: Measures,
}

impl Seen {
    fn view(&self) -> View<'_> {
        View {
            picture: &self.picture,
            camera: &self.camera,
            height: THICKNESS,
        }
    }

    fn grooves(&self) -> Grooves {
        grooves(&self.view(), &self.outer, &self.measures)
    }
}

/// Bright paper, steel along the outer edge, and a groove in it if there is one, darker along its
/// outer wall. Every pixel of the steel is painted from the edge inwards.
fn painted(has_groove: bool) -> Seen {
    let shoe = BarShoe::default().laid(Point::ZERO, 0.0);
    let outer = in_steps(&shoe.outer, 0.5);
    let measures = measure(&outer, &[shoe.inner], None).unwrap();
    let camera = Camera {
        centre: Point::new(239.5, 249.5),
        ..camera(400.0, (0.02, 0.01), 0.0, 0.0)
    };
    let mut codes = vec![220_u8; SIZE.0 * SIZE.1];
    let fine = in_steps(&shoe.outer, 0.2);
    let next = fine.iter().cycle().skip(1);
    for (at, next) in fine.iter().zip(next) {
        let way = (*next - *at).normalize();
        // The outline runs with the steel at its right hand.
        let inward = Vec2::new(way.y, -way.x);
        let share = measures.fuller_end(*at + inward).unwrap().share;
        for step in 0..130 {
            let deep = 0.15 * f64::from(step);
            let place = *at + inward * deep;
            let pixel = camera.project(Point3::new(place.x, place.y, THICKNESS));
            let pixel = pixel.unwrap().round();
            let (x, y): (usize, usize) = (pixel.x.as_(), pixel.y.as_());
            if x < SIZE.0 && y < SIZE.1 {
                codes[y * SIZE.0 + x] = code(deep, share, has_groove);
            }
        }
    }
    // A grain of some codes, so that nothing is quite even.
    let grained = codes
        .iter()
        .enumerate()
        .flat_map(|(place, code)| [code + [0, 2, 1, 0, 1][place % 5]; 3]);
    Seen {
        picture: Picture::of(SIZE.0, SIZE.1, grained.collect()).unwrap(),
        camera,
        outer,
        measures,
    }
}

/// The code of a place of the ground face, so deep inside the edge.
fn code(deep: f64, share: f64, has_groove: bool) -> u8 {
    let across = (deep - BAND.0) / (BAND.1 - BAND.0);
    let is_in = (0.0..1.0).contains(&across) && share > SHARES.0 && share < SHARES.1;
    if !has_groove || !is_in {
        90
    } else if across < 0.3 {
        25
    } else {
        55
    }
}

#[test]
fn a_plain_shoe_has_neither_fuller_nor_holes() {
    let seen = painted(false);
    let grooves = seen.grooves();
    assert_eq!(grooves.fuller.left, None);
    assert_eq!(grooves.fuller.right, None);
    assert_eq!(holes(&seen.view(), &grooves), Vec::new());
}

#[test]
fn a_groove_without_holes_ends_where_it_does() {
    let seen = painted(true);
    let grooves = seen.grooves();
    for fuller in [grooves.fuller.left, grooves.fuller.right] {
        let fuller = fuller.unwrap();
        let (start, end) = (fuller.start.unwrap(), fuller.end.unwrap());
        assert!((start - SHARES.0).abs() < 0.01, "{start}");
        assert!((end - SHARES.1).abs() < 0.01, "{end}");
    }
    let middle = f64::midpoint(BAND.0, BAND.1);
    for at in grooves.middles.iter().flatten() {
        let deep = seen.measures.hole(*at).unwrap().to_edge;
        assert!((deep - middle).abs() < 0.4, "{deep}");
    }
    assert_eq!(holes(&seen.view(), &grooves), Vec::new());
}

/// The middles of grooves run from left to right over the toe.
#[test]
fn middles_run_from_left_to_right() {
    let middles = painted(true).grooves().middles;
    assert_eq!(middles.len(), 2);
    for (middle, up) in middles.iter().zip([1.0, -1.0]) {
        let way = *middle.last().unwrap() - *middle.first().unwrap();
        assert!(way.dot(Vec2::new(0.0, up)) > 0.0, "{way:?}");
    }
}
