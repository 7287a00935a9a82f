use evenshod::gauge::Camera;
use kurbo::Point;
use nalgebra::{Point3, Rotation3, Vector3};
use proptest::prelude::*;

/// A camera so far above the middle of the sheet, leaning and turned by angles in radians.
pub fn camera(height: f64, lean: (f64, f64), turn: f64, k1: f64) -> Camera {
    let down = Rotation3::from_euler_angles(std::f64::consts::PI, 0.0, 0.0);
    let rotation = Rotation3::from_euler_angles(lean.0, lean.1, turn) * down;
    let lens = Vector3::new(8.0, -12.0, height);
    Camera {
        rotation: *rotation.matrix(),
        translation: -(rotation * lens),
        focal: 1_200.0,
        centre: Point::new(799.5, 599.5),
        k1,
    }
}

#[test]
fn a_square_view_scales_by_focal_length_over_distance() {
    let camera = camera(400.0, (0.0, 0.0), 0.0, 0.0);
    // 10 mm to the right of the lens' foot at 400 mm: 10 × 1200 / 400 px, and y runs down.
    let seen = camera.project(Point3::new(18.0, -2.0, 0.0)).unwrap();
    assert!((seen - Point::new(829.5, 569.5)).hypot() < 1e-9, "{seen:?}");
    assert!(camera.tilt().abs() < 1e-6);
    assert!((camera.lens() - Point3::new(8.0, -12.0, 400.0)).norm() < 1e-9);
    // 10 mm of lift at 400 mm reads 400 / 390, 2.6 % large.
    let lifted = camera.project(Point3::new(18.0, -2.0, 10.0)).unwrap();
    let apart = (lifted - camera.centre).hypot() / (seen - camera.centre).hypot();
    assert!((apart - 400.0 / 390.0).abs() < 1e-9, "{apart}");
    assert_eq!(
        camera.project(Point3::new(0.0, 0.0, 401.0)),
        None,
        "behind the lens"
    );
}

/// A lens that bends by this much shows what lies near its axis, and where its picture would
/// fold back nothing is told.
#[test]
fn a_folded_picture_tells_nothing() {
    // The radius grows until 1 + 3 k1 r² = 0, at r = 1.29 for k1 = -0.2.
    let camera = camera(100.0, (0.0, 0.0), 0.0, -0.2);
    let seen = camera.project(Point3::new(108.0, -12.0, 0.0)).unwrap();
    // r = 1: 1200 × (1 - 0.2) px from the axis.
    assert!(((seen - camera.centre).hypot() - 960.0).abs() < 1e-9);
    assert!(camera.meets(seen, 0.0).is_some());
    assert_eq!(camera.project(Point3::new(148.0, -12.0, 0.0)), None);
    let beyond = Point::new(camera.centre.x + 1_100.0, camera.centre.y);
    assert_eq!(camera.meets(beyond, 0.0), None);
}

proptest! {
    /// To the picture and back is where it was, on any plane below the lens.
    #[test]
    fn a_pixel_lies_where_it_was_seen(
        x in -120.0..120.0_f64,
        y in -160.0..160.0_f64,
        z in 0.0..20.0_f64,
        height in 250.0..700.0_f64,
        lean in (-0.4..0.4_f64, -0.4..0.4_f64),
        turn in -3.2..3.2_f64,
        k1 in -0.12..0.12_f64,
    ) {
        let camera = camera(height, lean, turn, k1);
        // Beyond its fold a lens as bent as this shows nothing.
        let Some(seen) = camera.project(Point3::new(x, y, z)) else { return Ok(()); };
        let back = camera.meets(seen, z).unwrap();
        prop_assert!((back - Point::new(x, y)).hypot() < 1e-6, "{back:?}");
    }
}
