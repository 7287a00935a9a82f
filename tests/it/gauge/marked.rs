//! The camera by corners of the sheet that are marked by hand, in painted pictures.

use evenshod::gauge::sheet::{Seen, Sheet, UNKNOWNS, Unseen, moved, see};
use evenshod::gauge::{Camera, Picture};
use kurbo::{Point, Vec2};
use nalgebra::{Point3, SVector};

use super::camera::camera;
use super::paint::{BarShoe, Look, Painted, Scene};

fn scene() -> Scene {
    Scene {
        camera: Camera {
            focal: 800.0,
            centre: Point::new(500.5, 373.5),
            ..camera(420.0, (0.15, -0.1), 1.5, -0.04)
        },
        size: (1_000, 750),
        sheet: Sheet::A4.size(),
        shoe: BarShoe::default().laid(Point::new(4.0, -6.0), 0.2),
        thickness: 10.0,
        look: Look::default(),
    }
}

fn picture(painted: Painted) -> Picture {
    Picture::of(painted.width, painted.height, painted.pixels).unwrap()
}

/// The largest distance of a corner from where it is, in pixels.
fn off(seen: &Seen, truth: &[Point; 4]) -> f64 {
    let found = Sheet::A4.corners().map(|at| {
        let at = seen.camera.project(Point3::new(at.x, at.y, 0.0));
        at.unwrap()
    });
    let nearest = |at: &Point| {
        let far = found.iter().map(|found| (*found - *at).hypot());
        far.fold(f64::INFINITY, f64::min)
    };
    truth.iter().map(nearest).fold(0.0, f64::max)
}

/// The standard uncertainty, in pixels to the right, of where the middle of the sheet is seen
/// (JCGM 100:2008, 5.2.2).
fn middle_unsure(seen: &Seen) -> f64 {
    let step = 1e-4;
    let x = |camera: &Camera| camera.project(Point3::origin()).unwrap().x;
    let slope = SVector::<f64, UNKNOWNS>::from_fn(|unknown, _| {
        let by = SVector::<f64, UNKNOWNS>::from_fn(|at, _| if at == unknown { step } else { 0.0 });
        (x(&moved(&seen.camera, &by)) - x(&seen.camera)) / step
    });
    (slope.transpose() * seen.covariance * slope)[0].sqrt()
}

/// Marks a thumb's width off: the sides, which are seen, tell the rest.
#[test]
fn marks_are_bettered_by_the_sides() {
    let scene = scene();
    let truth = scene.corners();
    let mut marks = truth;
    let offs = [(2.0, 1.0), (-1.5, 2.0), (1.0, -2.0), (-2.0, -1.0)];
    for (mark, by) in marks.iter_mut().zip(offs) {
        *mark += Vec2::from(by);
    }
    let seen = see(
        &picture(scene.paint()),
        Sheet::A4,
        Some((800.0, 0.01)),
        Some(marks),
    );
    let seen = seen.unwrap();
    assert!(off(&seen, &truth) < 0.33, "{} px", off(&seen, &truth));
}

/// A corner that is covered is refused, and measured where it is marked.
#[test]
fn a_covered_corner_can_be_marked() {
    let scene = scene();
    let truth = scene.corners();
    let mut painted = scene.paint();
    for (index, pixel) in painted.pixels.chunks_exact_mut(3).enumerate() {
        let at = Point::new((index % 1_000) as f64, (index / 1_000) as f64);
        if (at - truth[1]).hypot() < 60.0 {
            pixel.fill(60);
        }
    }
    let picture = picture(painted);
    let focal = Some((800.0, 0.01));
    let refused = see(&picture, Sheet::A4, focal, None);
    assert!(matches!(refused, Err(Unseen::Corner(_))), "{refused:?}");
    let mut marks = truth;
    marks[1] += Vec2::new(1.0, -1.0);
    let seen = see(&picture, Sheet::A4, focal, Some(marks)).unwrap();
    assert!(off(&seen, &truth) < 0.6, "{} px", off(&seen, &truth));
}

/// Without a side to be seen the marks alone tell the camera, as surely as a hand marks: the
/// same whatever the order.
#[test]
fn marks_alone_tell_the_camera() {
    let scene = Scene {
        camera: Camera {
            k1: 0.0,
            ..scene().camera
        },
        ..scene()
    };
    let [a, b, c, d] = scene.corners();
    let grey = Picture::of(1_000, 750, vec![128; 1_000 * 750 * 3]).unwrap();
    for order in [[a, b, c, d], [c, a, d, b], [d, c, b, a]] {
        let seen = see(&grey, Sheet::A4, Some((800.0, 0.01)), Some(order)).unwrap();
        assert!(off(&seen, &[a, b, c, d]) < 0.2, "{}", off(&seen, &order));
        // Where the diagonals of four marks meet is known to 1 / √2 of one: to half of each of
        // two, along both. The camera's own unknowns add to that, and no more than as much again.
        let unsure = middle_unsure(&seen);
        assert!((1.0..2.2).contains(&unsure), "{unsure} px");
    }
    let small = [
        a,
        a + Vec2::new(9.0, 0.0),
        a + Vec2::new(9.0, 12.0),
        a + Vec2::new(0.0, 12.0),
    ];
    let far = see(&grey, Sheet::A4, Some((800.0, 0.01)), Some(small));
    assert!(far.is_err(), "{far:?}");
}
