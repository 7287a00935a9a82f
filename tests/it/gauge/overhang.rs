//! A shoe that hangs over the edge of its sheet: its outline is led over it, where that goes.

use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::steel::in_steps;
use evenshod::gauge::{Overhang, Picture, View};
use kurbo::{Point, Vec2};

use super::camera::camera;
use super::features::known;

/// So high is the face that is measured, in mm.
const HEIGHT: f64 = 10.0;
/// Half of the long side of A4, in mm.
const HALF: f64 = 148.5;

/// A4 from 500 mm above its middle.
fn sheet() -> Overhang {
    let camera = camera(500.0, (0.0, 0.0), 0.0, 0.0);
    let picture = Picture::of(1, 1, vec![0; 3]).unwrap();
    let view = View {
        picture: &picture,
        camera: &camera,
        height: HEIGHT,
    };
    Overhang::of(&view, &Sheet::A4.corners())
}

/// The outer edge of a known bar shoe, turned so that `way` of it leads up the page, and laid so
/// that it reaches over the short side there by so many mm.
fn hung(way: Vec2, over: f64) -> Vec<Point> {
    let all = known();
    let shoe = all.iter().find(|shoe| !shoe.inner().is_empty()).unwrap();
    let toe = shoe.measured().frame.back * -1.0;
    // Of the shoe's own: forward is the toe.
    let turn = |at: Point| {
        let at = at.to_vec2();
        let (along, across) = (at.dot(toe), at.cross(toe));
        Point::new(
            across * way.y + along * way.x,
            along * way.y - across * way.x,
        )
    };
    let outer: Vec<Point> = shoe.outer().into_iter().map(turn).collect();
    let top = outer
        .iter()
        .map(|at| at.y)
        .fold(f64::NEG_INFINITY, f64::max);
    let middle = outer.iter().map(|at| at.x).sum::<f64>() / outer.len() as f64;
    let by = Vec2::new(-middle, HALF + over - top);
    let laid: Vec<Point> = outer.iter().map(|at| *at + by).collect();
    in_steps(&laid, 0.5)
}

const TOE: Vec2 = Vec2::new(0.0, 1.0);
const SIDE: Vec2 = Vec2::new(1.0, 0.0);

/// The outline of a toe is led over the edge about as it runs; one that is rolled or flat is a few
/// mm flatter than an arc.
#[test]
fn a_toe_is_led_over_the_edge() {
    let sheet = sheet();
    for over in [6.0, 10.0, 14.0] {
        let outer = hung(TOE, over);
        assert!(sheet.is_met_by(&outer) && sheet.can_lead(&outer), "{over}");
        let led = sheet.led(outer.clone());
        assert_eq!(led.len(), outer.len());
        let off = led.iter().map(|at| {
            let far = outer.iter().map(|place| place.distance(*at));
            far.fold(f64::INFINITY, f64::min)
        });
        let worst = off.fold(0.0, f64::max);
        assert!(worst < 3.5, "{over}: {worst}");
        let beyond = sheet.beyond(&outer);
        assert!(beyond.len() < outer.len() / 3, "{over}: {}", beyond.len());
    }
}

/// A branch takes its heel along, and a shoe on the sheet has nothing to be led.
#[test]
fn only_a_toe_can_be_led() {
    let sheet = sheet();
    assert!(!sheet.can_lead(&hung(SIDE, 11.0)));
    assert!(!sheet.can_lead(&hung(TOE, 40.0)));
    let on_it = hung(TOE, -20.0);
    assert!(!sheet.is_met_by(&on_it) && sheet.beyond(&on_it).is_empty());
    assert_eq!(sheet.led(on_it.clone()), on_it);
}
