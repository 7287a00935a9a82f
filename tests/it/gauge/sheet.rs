//! The sheet and the camera, found in painted pictures of which both are known.

use evenshod::gauge::sheet::{Sheet, Unseen, see};
use evenshod::gauge::{Camera, Picture};
use kurbo::Point;
use nalgebra::Point3;

use super::camera::camera;
use super::paint::{BarShoe, Look, Scene};

fn scene(height: f64) -> Scene {
    Scene {
        camera: Camera {
            focal: 800.0,
            centre: Point::new(500.5, 373.5),
            ..camera(height, (0.15, -0.1), 1.5, -0.04)
        },
        size: (1_000, 750),
        sheet: Sheet::A4.size(),
        shoe: BarShoe::default().laid(Point::new(4.0, -6.0), 0.2),
        thickness: 10.0,
        look: Look::default(),
    }
}

fn picture(scene: &Scene) -> Picture {
    let painted = scene.paint();
    Picture::of(painted.width, painted.height, painted.pixels).unwrap()
}

/// Corners to a third of a pixel; the lens' height within three of its uncertainties, which is
/// known by the focal length that is given.
#[test]
fn the_camera_that_painted_is_found() {
    let scene = scene(420.0);
    let seen = see(&picture(&scene), Sheet::A4, Some((800.0, 0.01)), None).unwrap();
    let found = Sheet::A4.corners();
    for corner in scene.corners() {
        let off = found.iter().map(|at| {
            let at = seen.camera.project(Point3::new(at.x, at.y, 0.0));
            (at.unwrap() - corner).hypot()
        });
        let off = off.fold(f64::INFINITY, f64::min);
        assert!(off < 0.33, "{off} px from {corner:?}");
    }
    let height = seen.camera.lens().z;
    assert!(
        (height / 420.0 - 1.0).abs() < 3.0 * seen.focal_unsure(),
        "{height}"
    );
    assert!((seen.camera.k1 + 0.04).abs() < 0.01, "{}", seen.camera.k1);
    assert!(seen.spread < 0.3, "{}", seen.spread);
}

#[test]
fn a_corner_outside_the_picture_is_refused() {
    let near = scene(235.0);
    let is_outside = |at: &Point| at.x < 0.0 || at.y < 0.0 || at.x > 999.0 || at.y > 749.0;
    let outside = near.corners().iter().filter(|at| is_outside(at)).count();
    assert!((1..4).contains(&outside), "{:?}", near.corners());
    let seen = see(&picture(&near), Sheet::A4, Some((800.0, 0.01)), None);
    assert!(matches!(seen, Err(Unseen::Corner(_))), "{seen:?}");
}

#[test]
fn a_picture_without_a_sheet_is_refused() {
    let plain = |code: u8| Picture::of(640, 480, vec![code; 640 * 480 * 3]).unwrap();
    let dark = see(&plain(0), Sheet::A4, None, None);
    assert_eq!(dark, Err(Unseen::Paper));
    let white = see(&plain(255), Sheet::A4, None, None);
    assert!(white.is_err(), "paper to every side has no edge: {white:?}");
}

/// A photo turned by a quarter shows the same sheet, turned.
#[test]
fn a_turned_picture_has_the_same_camera() {
    let scene = scene(420.0);
    let painted = scene.paint();
    let (width, height) = (painted.width, painted.height);
    let mut turned = vec![0; painted.pixels.len()];
    for (index, pixel) in painted.pixels.chunks_exact(3).enumerate() {
        let (x, y) = (index % width, index / width);
        let at = 3 * (x * height + height - 1 - y);
        turned[at..at + 3].copy_from_slice(pixel);
    }
    let focal = Some((800.0, 0.01));
    let straight = Picture::of(width, height, painted.pixels).unwrap();
    let straight = see(&straight, Sheet::A4, focal, None).unwrap();
    let turned = Picture::of(height, width, turned).unwrap();
    let turned = see(&turned, Sheet::A4, focal, None).unwrap();
    let corners = |camera: &Camera| {
        Sheet::A4.corners().map(|at| {
            let at = camera.project(Point3::new(at.x, at.y, 0.0));
            at.unwrap()
        })
    };
    let found = corners(&turned.camera);
    for at in corners(&straight.camera) {
        let at = Point::new((height - 1) as f64 - at.y, at.x);
        let off = found.iter().map(|found| (*found - at).hypot());
        let off = off.fold(f64::INFINITY, f64::min);
        assert!(off < 0.05, "{off} px from {at:?}");
    }
    let heights = [straight.camera.lens().z, turned.camera.lens().z];
    assert!((heights[0] - heights[1]).abs() < 0.05, "{heights:?}");
}
