//! The sheet and the camera, found in painted pictures of which both are known.

use evenshod::gauge::sheet::{Sheet, Unseen, see};
use evenshod::gauge::{Camera, Picture, Refused, Spot};
use kurbo::Point;
use nalgebra::Point3;

use super::camera::camera;
use super::paint::{BarShoe, Look, Painted, Scene};

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

/// Whoever took the photo is told which corner it is.
#[test]
fn a_place_is_told_by_which_way_it_lies() {
    let told = |x: f64, y: f64| {
        let spot = Spot {
            of: Sheet::A4,
            at: Point::new(x, y),
            size: (1_000, 750),
        };
        (
            Refused::Corner(spot).to_string(),
            Refused::Side(spot).place(),
        )
    };
    for (x, y, wanted) in [
        (-40.0, -20.0, "top left"),
        (990.0, 10.0, "top right"),
        (1_100.0, 800.0, "bottom right"),
        (100.0, 700.0, "bottom left"),
        (500.0, 5.0, "at the top of"),
        (520.0, 770.0, "at the bottom of"),
        (20.0, 380.0, "at the left of"),
        (960.0, 360.0, "at the right of"),
    ] {
        let (text, at) = told(x, y);
        assert!(text.contains(wanted), "{x}, {y}: {text}");
        let at = at.unwrap();
        assert!((0.0..=999.0).contains(&at.x) && (0.0..=749.0).contains(&at.y));
    }
}

/// Advice names what lies there, a sheet or a card.
#[test]
fn what_is_refused_is_called_by_its_name() {
    for (of, name) in [(Sheet::Letter, "sheet"), (Sheet::Card, "card")] {
        let spot = Spot {
            of,
            at: Point::new(10.0, 10.0),
            size: (1_000, 750),
        };
        let all = [
            Refused::Corner(spot),
            Refused::Side(spot),
            Refused::Bent(of, 0.5),
            Refused::NotThatSheet(of),
        ];
        for why in all {
            let text = why.to_string();
            assert!(text.contains(&format!(" {name} ")), "{text}");
            assert!(name == "sheet" || !text.contains("sheet"), "{text}");
        }
    }
}

#[test]
fn a_picture_without_a_sheet_is_refused() {
    let plain = |code: u8| Picture::of(640, 480, vec![code; 640 * 480 * 3]).unwrap();
    let dark = see(&plain(0), Sheet::A4, None, None);
    assert_eq!(dark, Err(Unseen::Paper));
    let white = see(&plain(255), Sheet::A4, None, None);
    assert!(white.is_err(), "paper to every side has no edge: {white:?}");
}

/// A picture each of whose pixels goes where `to` says.
fn moved(painted: &Painted, size: (usize, usize), to: &dyn Fn(usize, usize) -> usize) -> Picture {
    let mut moved = vec![0; painted.pixels.len()];
    for (index, pixel) in painted.pixels.chunks_exact(3).enumerate() {
        let at = 3 * to(index % painted.width, index / painted.width);
        moved[at..at + 3].copy_from_slice(pixel);
    }
    Picture::of(size.0, size.1, moved).unwrap()
}

/// The corners of the sheet in the picture, and how high the lens is.
fn found(picture: &Picture) -> ([Point; 4], f64) {
    let camera = see(picture, Sheet::A4, Some((800.0, 0.01)), None)
        .unwrap()
        .camera;
    let corners = Sheet::A4
        .corners()
        .map(|at| camera.project(Point3::new(at.x, at.y, 0.0)).unwrap());
    (corners, camera.lens().z)
}

/// A photo turned by a quarter or mirrored shows the same sheet, turned or mirrored, from as high.
#[test]
fn a_turned_or_mirrored_picture_has_the_same_camera() {
    let painted = scene(420.0).paint();
    let (width, height) = (painted.width, painted.height);
    let straight = found(&moved(&painted, (width, height), &|x, y| y * width + x));
    let turned = found(&moved(&painted, (height, width), &|x, y| {
        x * height + height - 1 - y
    }));
    let mirrored = found(&moved(&painted, (width, height), &|x, y| {
        y * width + width - 1 - x
    }));
    let (right, bottom) = ((width - 1) as f64, (height - 1) as f64);
    let turn = straight.0.map(|at| Point::new(bottom - at.y, at.x));
    let mirror = straight.0.map(|at| Point::new(right - at.x, at.y));
    for ((corners, high), expect) in [(turned, turn), (mirrored, mirror)] {
        for at in expect {
            let off = corners.iter().map(|found| found.distance(at));
            let off = off.fold(f64::INFINITY, f64::min);
            assert!(off < 0.05, "{off} px from {at:?}");
        }
        assert!((high - straight.1).abs() < 0.05, "{high} and {straight:?}");
    }
}

/// ISO 216: A0 is 841 mm × 1189 mm, and each next size is the one before cut across its long side,
/// rounded down to whole mm. Letter is 8 1/2 in × 11 in, an inch 25.4 mm.
#[test]
fn sheets_have_the_sizes_of_their_standards() {
    let (mut short, mut long) = (841, 1189);
    for _ in 0..4 {
        (short, long) = (long / 2, short);
    }
    assert_eq!(Sheet::A4.size(), (f64::from(short), f64::from(long)));
    let (width, height) = Sheet::Letter.size();
    assert!((width - 8.5 * 25.4).abs() < 1e-9 && (height - 11.0 * 25.4).abs() < 1e-9);
    for sheet in [Sheet::A4, Sheet::Letter] {
        let [left_top, right_top, right_bottom, _] = sheet.corners();
        let sides = (
            left_top.distance(right_top),
            right_top.distance(right_bottom),
        );
        assert_eq!(sides, sheet.size());
    }
}
