//! The painter of test pictures, held to what it says is there.

use evenshod::gauge::Camera;
use kurbo::{Point, Vec2};
use nalgebra::Point3;

use super::camera::camera;
use super::paint::{BarShoe, Look, Painted, Scene};

fn scene(look: Look) -> Scene {
    Scene {
        camera: Camera {
            focal: 640.0,
            centre: Point::new(399.5, 299.5),
            // Long side of the sheet along that of the picture.
            ..camera(420.0, (0.15, -0.1), 1.5, -0.04)
        },
        size: (800, 600),
        sheet: (210.0, 297.0),
        shoe: BarShoe::default().laid(Point::new(4.0, -6.0), 0.2),
        thickness: 10.0,
        look,
    }
}

/// All white and nothing else.
const WHITE: Look = Look {
    paper: 1.0,
    bench: 1.0,
    steel: 1.0,
    wall: 1.0,
    falloff: 0.0,
    shadow: (0.0, (0.0, 0.0), 1.0),
    blur: 0.7,
    noise: 0.0,
    seed: 1,
    rounded: 0.0,
};

/// How much is dark, in pixels, and about which place.
fn dark(painted: &Painted) -> (f64, Point) {
    let lit = |code: u8| {
        let coded = f64::from(code) / 255.0;
        if coded <= 0.04045 {
            coded / 12.92
        } else {
            ((coded + 0.055) / 1.055).powf(2.4)
        }
    };
    let (mut sum, mut about) = (0.0, Vec2::ZERO);
    for (index, pixel) in painted.pixels.chunks_exact(3).enumerate() {
        let dark = 1.0 - lit(pixel[0]);
        let at = Vec2::new(
            (index % painted.width) as f64,
            (index / painted.width) as f64,
        );
        sum += dark;
        about += at * dark;
    }
    (sum, (about / sum).to_point())
}

/// Area of rings, the later ones holes, and its centroid, by the corners.
fn rings(rings: &[Vec<Point>]) -> (f64, Point) {
    let (mut area, mut about) = (0.0, Vec2::ZERO);
    for (index, ring) in rings.iter().enumerate() {
        let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
        let (mut own, mut moment) = (0.0, Vec2::ZERO);
        for (p, q) in pairs {
            let twice = p.x * q.y - q.x * p.y;
            own += twice / 2.0;
            moment += (p.to_vec2() + q.to_vec2()) * twice / 6.0;
        }
        let sign = own.signum() * if index == 0 { 1.0 } else { -1.0 };
        area += sign * own;
        about += sign * moment;
    }
    (area, (about / area).to_point())
}

fn seen(scene: &Scene, ring: &[Point], height: f64) -> Vec<Point> {
    let seen = |at: &Point| scene.camera.project(Point3::new(at.x, at.y, height));
    ring.iter().map(|at| seen(at).unwrap()).collect()
}

/// What is dark has the area and the place of what should be: edges are off by a hundredth of
/// a pixel at most.
fn assert_same(what: &str, (sum, about): (f64, Point), (area, place): (f64, Point)) {
    assert!(
        (sum / area - 1.0).abs() < 5e-4,
        "{what}: {sum} px for {area}"
    );
    assert!(
        (about - place).hypot() < 0.02,
        "{what}: {about:?} for {place:?}"
    );
}

#[test]
fn steel_is_painted_where_its_upper_edge_is() {
    let scene = scene(Look {
        steel: 0.0,
        ..WHITE
    });
    let outlines = [
        scene.outer_in_picture(),
        seen(&scene, &scene.shoe.inner, scene.thickness),
    ];
    assert_same("face", dark(&scene.paint()), rings(&outlines));
}

/// From right above, outer walls are hidden by the face, and inner ones end at their foot.
#[test]
fn a_wall_is_painted_down_to_its_foot() {
    let look = Look {
        steel: 0.0,
        wall: 0.0,
        ..WHITE
    };
    let mut scene = scene(look);
    scene.camera = Camera {
        focal: 640.0,
        centre: Point::new(399.5, 299.5),
        ..camera(420.0, (0.0, 0.0), 1.5, 0.0)
    };
    let outlines = [
        scene.outer_in_picture(),
        seen(&scene, &scene.shoe.inner, 0.0),
    ];
    assert_same("face and wall", dark(&scene.paint()), rings(&outlines));
}

#[test]
fn the_sheet_is_painted_where_its_corners_are() {
    // No distortion, so that its sides are straight.
    let mut scene = scene(Look {
        paper: 0.0,
        steel: 0.0,
        wall: 0.0,
        ..WHITE
    });
    scene.camera.k1 = 0.0;
    assert_same(
        "sheet",
        dark(&scene.paint()),
        rings(&[scene.corners().to_vec()]),
    );
}

/// A shadow takes what it should, and only from where it falls.
#[test]
fn a_shadow_lies_beside_the_shoe() {
    let look = Look {
        shadow: (0.35, (3.0, 0.0), 2.0),
        ..WHITE
    };
    let scene = scene(look);
    let (sum, about) = dark(&scene.paint());
    let edge = scene.outer_in_picture();
    let (_, middle) = rings(std::slice::from_ref(&edge));
    let right = seen(&scene, &[Point::new(4.0, -6.0), Point::new(5.0, -6.0)], 0.0);
    let right = right[1] - right[0];
    assert!(sum > 100.0, "{sum}");
    assert!(
        (about - middle).dot(right) > 0.0,
        "{about:?} from {middle:?}"
    );
}

/// Rounding to whole codes adds a twelfth to the variance: √(1.2² + 1/12) = 1.234.
#[test]
fn noise_is_as_strong_as_asked_and_the_same_for_a_seed() {
    let mut scene = scene(Look {
        bench: 0.2,
        paper: 0.2,
        steel: 0.2,
        wall: 0.2,
        noise: 1.2,
        ..WHITE
    });
    scene.size = (200, 150);
    let painted = scene.paint();
    let codes: Vec<f64> = painted.pixels.iter().map(|code| f64::from(*code)).collect();
    let mean = codes.iter().sum::<f64>() / codes.len() as f64;
    let square: f64 = codes.iter().map(|code| (code - mean).powi(2)).sum();
    let deviation = (square / codes.len() as f64).sqrt();
    // 0.2 of white: 255 (1.055 × 0.2^(1 / 2.4) - 0.055) = 123.55.
    assert!((mean - 123.55).abs() < 0.02, "{mean}");
    assert!((deviation - 1.234).abs() < 0.01, "{deviation}");
    assert_eq!(scene.paint(), painted);
    let other = Scene {
        look: Look {
            seed: 2,
            ..scene.look
        },
        ..scene
    };
    assert_ne!(other.paint(), painted);
}
