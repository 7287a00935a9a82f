//! Fuller and nail holes in small pictures of a shoe's ground face alone, painted here.

use evenshod::gauge::features::{Measures, measure};
use evenshod::gauge::groove::{Grooves, grooves};
use evenshod::gauge::holes::holes;
use evenshod::gauge::steel::in_steps;
use evenshod::gauge::{Camera, Picture, View};
use kurbo::{Point, Vec2};

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

/// Light of each place: bright paper, steel, and the groove in it, if there is one, darker the
/// nearer to its outer wall.
fn painted(has_groove: bool) -> Seen {
    let shoe = BarShoe::default().laid(Point::ZERO, 0.0);
    let outer = in_steps(&shoe.outer, 0.5);
    let measures = measure(&outer, &[shoe.inner.clone()], None).unwrap();
    let camera = Camera {
        centre: Point::new(239.5, 249.5),
        ..camera(400.0, (0.08, 0.05), 0.0, 0.0)
    };
    let mut pixels = Vec::new();
    for y in 0..SIZE.1 {
        for x in 0..SIZE.0 {
            let at = camera.meets(Point::new(x as f64, y as f64), THICKNESS);
            let light = at.and_then(|at| light(&measures, at, has_groove));
            // A grain of one code, so that nothing is quite even.
            let code = light.unwrap_or(220) + ((7 * x + 13 * y) % 3) as u8;
            pixels.extend([code; 3]);
        }
    }
    Seen {
        picture: Picture::of(SIZE.0, SIZE.1, pixels).unwrap(),
        camera,
        outer,
        measures,
    }
}

/// The code of a place of the ground face; nothing off the steel.
fn light(measures: &Measures, at: Point, has_groove: bool) -> Option<u8> {
    let place = measures.hole(at).ok()?;
    let share = measures.fuller_end(at).ok()?.share;
    let across = (place.to_edge - BAND.0) / (BAND.1 - BAND.0);
    let is_in = (0.0..1.0).contains(&across) && share > SHARES.0 && share < SHARES.1;
    Some(if !has_groove || !is_in {
        90
    } else if across < 0.3 {
        25
    } else {
        55
    })
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
