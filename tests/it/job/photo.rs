//! Photos through the worker: files that are none, pictures that show no shoe, and what is said
//! about the stages.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Face, Scale};
use evenshod::job::{Job, NotMeasured, Outcome, PhotoFound, PhotoWanted};
use evenshod::worker::perform;
use proptest::prelude::*;

fn wanted(photo: String) -> PhotoWanted {
    PhotoWanted {
        photo,
        scale: Scale::Sheet(Sheet::A4),
        face: Face::Ground,
        is_drawn: false,
        thickness: 10.0,
        unsure: 0.05,
        corners: None,
        is_concave: false,
        hidden: Vec::new(),
        edge_points: Vec::new(),
    }
}

/// What came of it, with the shares that were told.
fn done(wanted: PhotoWanted) -> (Result<PhotoFound, String>, Vec<f64>) {
    let mut told = Vec::new();
    let outcome = perform(&Job::Photo(wanted), &mut |share| told.push(share));
    let found = outcome.map(|outcome| match outcome {
        Outcome::Photo(found) => *found,
        other => panic!("{other:?}"),
    });
    (found, told)
}

/// A picture of so many columns and rows as a PNG, each pixel's grey by its place.
fn png(columns: u32, rows: u32, grey: impl Fn(u32, u32) -> u8) -> String {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, columns, rows);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let places = (0..rows).flat_map(|y| (0..columns).map(move |x| (x, y)));
    let greys: Vec<u8> = places.map(|(x, y)| grey(x, y)).collect();
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&greys).unwrap();
    writer.finish().unwrap();
    STANDARD.encode(bytes)
}

fn refused(found: PhotoFound) -> NotMeasured {
    match found {
        PhotoFound::Refused(why) => why,
        PhotoFound::Measured(shown) => panic!("measured: {:?}", shown.measured),
    }
}

#[test]
fn a_file_that_is_no_photo_is_told_in_words() {
    let empty = STANDARD.encode([]);
    let text = STANDARD.encode("a letter about a shoe");
    for photo in ["no base 64!".to_owned(), empty, text] {
        let (found, told) = done(wanted(photo));
        let why = found.unwrap_err();
        assert!(why.len() > 20 && !why.contains("Error"), "{why}");
        assert!(told.is_empty(), "{told:?}");
    }
}

/// Nothing to be seen, a cat's fur, a chessboard: each is refused, the stages are told
/// as far as they come, and a corner that is marked far outside changes nothing.
#[test]
fn a_picture_without_a_shoe_is_refused() {
    let fur = |x: u32, y: u32| u8::try_from((x * 7919 + y * 104_729 + x * y * 31) % 251).unwrap();
    let board = |x: u32, y: u32| {
        if (x / 20 + y / 20).is_multiple_of(2) {
            240
        } else {
            20
        }
    };
    let pictures = [
        png(400, 320, |_, _| 200),
        png(300, 300, |_, _| 255),
        png(400, 320, fur),
        png(400, 320, board),
        // A sheet with nothing on it.
        png(400, 500, |x, y| {
            if (40..360).contains(&x) && (25..477).contains(&y) {
                235
            } else {
                40
            }
        }),
    ];
    for (place, photo) in pictures.into_iter().enumerate() {
        let (found, told) = done(wanted(photo.clone()));
        let why = refused(found.unwrap());
        assert!(!why.message.is_empty(), "{place}");
        assert!((told[0] - 1.0 / 7.0).abs() < 1e-9, "{place}");
        let marked = PhotoWanted {
            corners: Some([(-1e9, 0.0), (f64::NAN, 5.0), (9.0, 1e300), (0.0, 0.0)]),
            ..wanted(photo)
        };
        refused(done(marked).0.unwrap());
    }
}

/// Whether a place in mm lies within a bar shoe so many times as large as one of 130 mm by 136 mm:
/// half an ellipse at the toe, a bar behind.
fn is_within(times: f64, (x, y): (f64, f64)) -> bool {
    let (x, y) = (x / times, y / times);
    if y < 0.0 {
        (x / 65.0).powi(2) + (y / 70.0).powi(2) < 1.0
    } else {
        x.abs() < 65.0 - 0.15 * y && y < 66.0
    }
}

/// The outline of a bar shoe, scanned at 80 dots per inch; the middle of its line goes round 99.4 %
/// of 130 mm.
#[test]
fn a_scan_of_an_outline_is_measured() {
    let mm = |pixel: u32| (f64::from(pixel) - 250.0) * 25.4 / 80.0;
    let scan = png(500, 500, |x, y| {
        let at = (mm(x), mm(y));
        let is_line = |outside, inside| is_within(outside, at) && !is_within(inside, at);
        if is_line(1.0, 0.988) || is_line(0.7, 0.688) {
            60
        } else {
            240
        }
    });
    let wanted = PhotoWanted {
        scale: Scale::Scan(Some(80.0)),
        ..wanted(scan)
    };
    let (found, _) = done(wanted);
    let shown = match found.unwrap() {
        PhotoFound::Measured(shown) => shown,
        PhotoFound::Refused(why) => panic!("{why:?}"),
    };
    assert!(shown.is_traced && !shown.no_fuller && shown.sheet.is_empty());
    let width = &shown.measured[0];
    assert_eq!(width.feature, "overall width");
    assert!((width.value - 129.2).abs() < 0.3, "{width:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Bright and dark blocks anywhere, of any kind, with corners marked anywhere: an answer each
    /// time, and no shoe among them.
    #[test]
    fn any_picture_gets_an_answer(
        blocks in prop::collection::vec((0_u32..400, 0_u32..300, 1_u32..400, 1_u32..300, 0_u8..=255), 0..12),
        corners in prop::option::of(prop::array::uniform4((-20.0_f64..420.0, -20.0_f64..320.0))),
        thickness in 0.0_f64..50.0,
        scale in prop::sample::select(vec![
            Scale::Sheet(Sheet::A4),
            Scale::Sheet(Sheet::Card),
            Scale::Ruler { ends: Some([(20.0, 30.0), (390.0, 280.0)]), mm: 120.0 },
            Scale::Scan(Some(100.0)),
            Scale::Scan(None),
        ]),
        is_drawn: bool,
    ) {
        let grey = |x: u32, y: u32| {
            let over = blocks.iter().rev().find(|(left, top, wide, high, _)| {
                (*left..left + wide).contains(&x) && (*top..top + high).contains(&y)
            });
            over.map_or(90, |(.., grey)| *grey)
        };
        let wanted = PhotoWanted {
            corners,
            thickness,
            scale,
            is_drawn,
            ..wanted(png(400, 300, grey))
        };
        let found = done(wanted).0.unwrap();
        prop_assert_eq!(found.size(), (400, 300));
    }
}
