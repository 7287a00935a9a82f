use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Camera, Homography, camera_that_sees, focal_told_by};
use kurbo::Point;
use nalgebra::Point3;
use proptest::prelude::*;

use super::camera::camera;

/// The corners of a sheet of A4 (ISO 216) or of an ID-1 card (ISO/IEC 7810), from the left
/// upper one on, in mm down the page.
fn corners(width: f64, height: f64) -> [Point; 4] {
    [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(Point::from)
}

fn from(pixels: [(f64, f64); 4], to: [Point; 4]) -> Homography {
    let pairs: Vec<(Point, Point)> = pixels.map(Point::from).into_iter().zip(to).collect();
    Homography::of(&pairs).unwrap()
}

/// *Shape:* of `maps` each has a pixel and its place.
fn check(found: &Homography, matrix: [f64; 9], maps: &[[f64; 4]]) {
    let of = found.matrix() / found.matrix()[(2, 2)];
    for (at, expect) in matrix.into_iter().enumerate() {
        let value = of[(at / 3, at % 3)];
        assert!(
            (value - expect).abs() <= 1e-8 * expect.abs(),
            "{value} for {expect}"
        );
    }
    for [x, y, to_x, to_y] in maps.iter().copied() {
        let (point, expect) = (
            found.maps(Point::new(x, y)).unwrap(),
            Point::new(to_x, to_y),
        );
        assert!((point - expect).hypot() < 1e-6, "{point:?} for {expect:?}");
    }
}

/// Constructed; worked out by an 8 × 8 solve, and by OpenCV 5.0.0 getPerspectiveTransform for
/// the sheet.
#[test]
fn a_sheet_and_a_card_by_their_corners() {
    let pixels = [
        (412.0, 318.5),
        (1610.2, 355.8),
        (1688.4, 2089.1),
        (301.7, 2040.6),
    ];
    let sheet = from(pixels, corners(210.0, 297.0));
    let matrix = [
        0.180_580_785_4,
        0.011_566_146_35,
        -78.083_101_2,
        -0.006_383_798_417,
        0.205_068_827_4,
        -62.684_296_59,
        -6.292_921_919e-7,
        9.390_112_756e-5,
        1.0,
    ];
    let maps = [
        [1000.0, 1000.0, 104.332_542_8, 124.397_911],
        [700.0, 1500.0, 57.586_832_6, 210.845_253_4],
        [1500.0, 600.0, 189.244_250_5, 48.115_841_56],
    ];
    check(&sheet, matrix, &maps);
    let pixels = [
        (100.0, 120.0),
        (956.0, 140.0),
        (948.0, 676.0),
        (92.0, 660.0),
    ];
    let card = from(pixels, corners(85.60, 53.98));
    let matrix = [
        0.099_136_354_44,
        0.001_468_686_732,
        -10.089_877_85,
        -0.002_332_523_825,
        0.099_832_019_72,
        -11.746_589_98,
        -8.637_374_993e-6,
        -2.569_575_02e-7,
        1.0,
    ];
    let maps = [
        [500.0, 400.0, 40.243_710_44, 27.139_954_5],
        [1500.0, 1200.0, 142.264_127_8, 105.958_525_4],
    ];
    check(&card, matrix, &maps);
}

#[test]
fn what_decides_nothing_is_refused() {
    let to = corners(210.0, 297.0);
    let refused = |pixels: &[(f64, f64)]| {
        let pixels = pixels.iter().map(|pixel| Point::from(*pixel));
        let pairs: Vec<(Point, Point)> = pixels.zip(to).collect();
        Homography::of(&pairs).is_none()
    };
    assert!(
        refused(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0)]),
        "three corners"
    );
    assert!(
        refused(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 3.0)]),
        "a line"
    );
    assert!(
        refused(&[(0.0, 0.0), (5.0, 5.0), (9.0, 9.0), (0.0, 9.0)]),
        "three on a line"
    );
    assert!(refused(&[(7.0, 7.0); 4]), "one point");
    assert!(
        refused(&[(f64::NAN, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)]),
        "no number"
    );
    assert!(
        refused(&[(f64::INFINITY, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)]),
        "no end"
    );
}

/// The sheet as a camera sees it, its corners given about its middle with y up.
fn seen(camera: &Camera) -> Homography {
    let corners = [
        (-105.0, 148.5),
        (105.0, 148.5),
        (105.0, -148.5),
        (-105.0, -148.5),
    ];
    let pairs = corners.map(|(x, y)| {
        let pixel = camera.project(Point3::new(x, y, 0.0)).unwrap();
        (Point::new(x, y), (pixel - camera.centre).to_point())
    });
    Homography::of(&pairs).unwrap()
}

/// Square from above nothing tells how far away the lens is.
#[test]
fn a_square_view_tells_no_focal_length() {
    let found = focal_told_by(&seen(&camera(400.0, (0.0, 0.0), 0.0, 0.0)));
    assert!(
        found.is_none_or(|focal| !(300.0..5_000.0).contains(&focal)),
        "{found:?}"
    );
}

proptest! {
    /// From the four corners back to the camera that saw them, focal length and all.
    #[test]
    fn the_camera_is_found_again(
        height in 300.0..700.0_f64,
        lean in (0.05..0.4_f64, 0.05..0.4_f64),
        turn in -3.2..3.2_f64,
    ) {
        let camera = camera(height, lean, turn, 0.0);
        let sheet = seen(&camera);
        let focal = focal_told_by(&sheet).unwrap();
        prop_assert!((focal - camera.focal).abs() < 1e-4 * camera.focal, "{focal}");
        let found = camera_that_sees(&sheet, camera.centre, camera.focal).unwrap();
        prop_assert!((found.lens() - camera.lens()).norm() < 1e-5, "{:?}", found.lens());
        prop_assert!((found.rotation - camera.rotation).norm() < 1e-8);
        prop_assert!((found.tilt() - camera.tilt()).abs() < 1e-7);
    }

    /// What the sheet's corners take to the picture and back again lies where it was.
    #[test]
    fn to_the_picture_and_back_is_nowhere_else(
        height in 300.0..700.0_f64,
        lean in (-0.4..0.4_f64, -0.4..0.4_f64),
        turn in -3.2..3.2_f64,
        at in (-105.0..105.0_f64, -148.5..148.5_f64),
    ) {
        let to_picture = seen(&camera(height, lean, turn, 0.0));
        let corners = Sheet::A4.corners().map(|at| (to_picture.maps(at).unwrap(), at));
        let back = Homography::of(&corners).unwrap();
        let at = Point::from(at);
        let found = back.maps(to_picture.maps(at).unwrap()).unwrap();
        prop_assert!(found.distance(at) < 1e-8, "{found:?} for {at:?}");
    }
}
