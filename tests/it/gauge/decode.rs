//! Files that another program wrote (`tests/data/gauge/make.py`), and bytes that are no photo.

use std::fs;

use evenshod::gauge::decode::{NoPhoto, Photo, Written, decode};
use proptest::prelude::*;

const SIZE: (usize, usize) = (400, 300);
const SQUARE: usize = 60;

fn file(name: &str) -> Vec<u8> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/gauge/files/");
    fs::read(format!("{folder}{name}")).unwrap()
}

fn photo(name: &str) -> Photo {
    decode(&file(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

fn refused(name: &str) -> NoPhoto {
    decode(&file(name)).expect_err(name)
}

/// The picture as `make.py` says it is drawn.
fn drawn(x: usize, y: usize) -> [u8; 3] {
    let (right, below) = (x >= SIZE.0 - SQUARE, y >= SIZE.1 - SQUARE);
    if (x < SQUARE || right) && (y < SQUARE || below) {
        return match (right, below) {
            (false, false) => [220, 40, 40],
            (true, false) => [40, 180, 60],
            (false, true) => [40, 60, 220],
            (true, true) => [230, 210, 40],
        };
    }
    let growing = |from: usize, by: usize| u8::try_from(from + by).unwrap();
    [growing(40, x * 160 / 399), growing(60, y * 120 / 299), 120]
}

/// ITU-R BT.601, as the files in grey have it.
fn grey([red, green, blue]: [u8; 3]) -> [u8; 3] {
    let sum = 299 * u32::from(red) + 587 * u32::from(green) + 114 * u32::from(blue);
    [u8::try_from((sum + 500) / 1_000).unwrap(); 3]
}

/// Mean and largest difference from what should be there.
fn apart(photo: &Photo, wanted: impl Fn(usize, usize) -> [u8; 3]) -> (f64, u8) {
    assert_eq!((photo.width, photo.height), SIZE);
    assert_eq!(photo.pixels.len(), 3 * SIZE.0 * SIZE.1);
    let (pixels, _) = photo.pixels.as_chunks::<3>();
    let places = (0..SIZE.1).flat_map(|y| (0..SIZE.0).map(move |x| (x, y)));
    let pairs = pixels.iter().zip(places);
    let each: Vec<u8> = pairs
        .flat_map(|(pixel, (x, y))| {
            let wanted = wanted(x, y);
            [0, 1, 2].map(|part| pixel[part].abs_diff(wanted[part]))
        })
        .collect();
    let sum: f64 = each.iter().map(|each| f64::from(*each)).sum();
    (sum / each.len() as f64, each.into_iter().max().unwrap())
}

#[test]
fn a_picture_without_loss_is_the_one_that_was_drawn() {
    for name in ["plain.png", "deep.png", "lossless.webp"] {
        assert_eq!(apart(&photo(name), drawn), (0.0, 0), "{name}");
    }
    for name in ["grey.png", "png-by-its-bytes.jpg"] {
        let (_, most) = apart(&photo(name), |x, y| grey(drawn(x, y)));
        assert!(most <= 1, "{name}: {most}");
    }
}

#[test]
fn a_picture_with_loss_is_near_the_one_that_was_drawn() {
    // Quality 70 with halved colours blurs the edges of the squares, no more.
    let names = ["plain.jpg", "progressive.jpg", "lossy.webp", "palette.png"];
    for name in names {
        let (mean, _) = apart(&photo(name), drawn);
        assert!(mean < 3.0, "{name}: {mean}");
    }
    let (mean, most) = apart(&photo("fine.jpg"), drawn);
    assert!(mean < 1.5 && most < 40, "{mean}, {most}");
    let (mean, _) = apart(&photo("grey.jpg"), |x, y| grey(drawn(x, y)));
    assert!(mean < 1.5, "{mean}");
}

/// A shoe cut out of its background lies on white, as it would on paper.
#[test]
fn what_shows_through_is_white() {
    let half = |value: u8| u8::try_from((u32::from(value) * 128 + 255 * 127 + 127) / 255).unwrap();
    let wanted = |x, y| {
        if x < SIZE.0 / 2 {
            [255; 3]
        } else {
            drawn(x, y).map(half)
        }
    };
    for name in ["clear.png", "clear.webp"] {
        assert_eq!(apart(&photo(name), wanted), (0.0, 0), "{name}");
    }
}

#[test]
fn a_photo_stands_upright_however_the_camera_was_held() {
    for orientation in 1..=8 {
        let name = format!("turned-{orientation}.jpg");
        let photo = photo(&name);
        let (mean, _) = apart(&photo, drawn);
        assert!(mean < 3.0, "{name}: {mean}");
        assert!(photo.focal().is_some(), "{name}");
    }
    let (mean, _) = apart(&photo("turned-6.webp"), drawn);
    assert!(mean < 3.0, "{mean}");
}

/// 26 mm on a picture of 500 px from corner to corner: 26 × 500 / 43.2666 = 300.46 px. Half a mm
/// of 26 over the root of three is 1.110 %, and 1 % is added: 1.494 %.
#[test]
fn focal_length_comes_from_its_equivalent() {
    for name in ["turned-1.jpg", "turned-6.jpg", "turned-6.webp"] {
        let photo = photo(name);
        assert_eq!(photo.lens.unwrap().written, Written::Equivalent, "{name}");
        let (focal, uncertainty) = photo.focal().unwrap();
        assert!((focal - 300.463).abs() < 0.001, "{name}: {focal}");
        assert!(
            (uncertainty - 0.014_94).abs() < 1e-5,
            "{name}: {uncertainty}"
        );
    }
}

/// 50 mm on a sensor of 2,540 pixels to the inch, 800 × 600: 5,000 px, and half as many on a
/// picture of half its size. Nothing is rounded, so 1 % is left.
#[test]
fn focal_length_comes_from_the_sensor() {
    let photo = photo("sensor.jpg");
    assert_eq!(photo.lens.unwrap().written, Written::OnSensor);
    let (focal, uncertainty) = photo.focal().unwrap();
    assert!((focal - 2_500.0).abs() < 0.01, "{focal}");
    assert!((uncertainty - 0.01).abs() < 1e-5, "{uncertainty}");
}

/// 16 to 9, as wide as 4 to 3, has 1.25 / 1.1473 of its diagonal: 8.95 %, 5.17 % over the root
/// of three, which with the 1.494 % of 26 mm makes 5.38 %.
#[test]
fn another_shape_than_sensors_have_is_less_sure() {
    let lens = photo("turned-1.jpg").lens.unwrap();
    let share = |width, height| {
        let (focal, uncertainty) = lens.focal(width, height);
        uncertainty / focal
    };
    assert!((share(4_000, 3_000) - 0.014_94).abs() < 1e-5);
    assert!((share(4_000, 6_000) - 0.014_94).abs() < 1e-5);
    assert!((share(4_000, 2_250) - 0.053_80).abs() < 1e-4);
    assert!((share(2_250, 4_000) - 0.053_80).abs() < 1e-4);
}

#[test]
fn a_lens_that_cannot_be_is_none() {
    let names = [
        "plain.jpg",
        "plain.png",
        "zero.jpg",
        "absurd.jpg",
        "cropped.jpg",
    ];
    for name in names {
        assert_eq!(photo(name).lens, None, "{name}");
    }
}

/// A file in which nothing but the notes is broken gives its picture.
#[test]
fn broken_notes_refuse_no_picture() {
    let good = file("turned-6.jpg");
    let begins = good
        .windows(6)
        .position(|bytes| bytes == b"Exif\0\0")
        .unwrap()
        + 6;
    let ends = begins + usize::from(u16::from_be_bytes([good[begins - 8], good[begins - 7]])) - 8;
    for at in begins..ends {
        for value in [0, 0xff, good[at] ^ 0x80] {
            let mut bytes = good.clone();
            bytes[at] = value;
            let photo = decode(&bytes).unwrap_or_else(|why| panic!("{at}: {why}"));
            assert_eq!(photo.pixels.len(), 3 * SIZE.0 * SIZE.1);
            let is_sane = |(focal, uncertainty): (f64, f64)| {
                focal.is_finite() && focal > 0.0 && uncertainty > 0.0 && uncertainty < 1.0
            };
            assert!(photo.focal().is_none_or(is_sane), "{at}");
        }
    }
}

/// Rendered photos, of which the camera is known (`tests/data/gauge/photos/`).
#[test]
fn photos_have_the_size_and_the_lens_of_their_camera() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/gauge/photos/");
    for name in ["bar", "open", "covered"] {
        let photo = decode(&fs::read(format!("{folder}{name}.jpg")).unwrap()).unwrap();
        let truth = fs::read_to_string(format!("{folder}{name}.json")).unwrap();
        let truth: serde_json::Value = serde_json::from_str(&truth).unwrap();
        let size = [photo.width, photo.height];
        assert_eq!(serde_json::json!(size), truth["camera"]["size"], "{name}");
        let noted = photo.lens.map(|lens| lens.equivalent);
        assert_eq!(noted, truth["exif_focal_35mm"].as_f64(), "{name}");
        if let Some((focal, uncertainty)) = photo.focal() {
            let off = focal - truth["camera"]["K"][0][0].as_f64().unwrap();
            assert!(off.abs() < 2.0 * uncertainty * focal, "{name}: {off}");
        }
    }
}

/// A PNG of 300 × 300 with this density, in pixels to a metre.
fn with_density(across: u32, down: u32, unit: png::Unit) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, 300, 300);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: across,
        yppu: down,
        unit,
    }));
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&[255; 300 * 300]).unwrap();
    writer.finish().unwrap();
    bytes
}

/// 11,811 to a metre are 299.9994 to the inch of 25.4 mm; what programs put in that know of none,
/// 72 and 96, tells none.
#[test]
fn a_scan_tells_how_finely_it_was_taken() {
    let told = |across, down, unit| decode(&with_density(across, down, unit)).unwrap().density;
    let dots = told(11_811, 11_811, png::Unit::Meter).unwrap();
    assert!((dots - 299.9994).abs() < 1e-6, "{dots}");
    assert_eq!(told(11_811, 5_906, png::Unit::Meter), None);
    assert_eq!(told(11_811, 11_811, png::Unit::Unspecified), None);
    assert_eq!(told(2_835, 2_835, png::Unit::Meter), None, "72 to the inch");
    let mut jpeg = file("plain.jpg");
    let jfif = [
        b"\xff\xd8\xff\xe0\0\x10JFIF\0\x01\x02".as_slice(),
        &[2, 0, 118, 0, 118, 0, 0],
    ];
    jpeg.splice(0..2, jfif.concat());
    let dots = decode(&jpeg).unwrap().density.unwrap();
    assert!((dots - 299.72).abs() < 1e-9, "118 to a cm: {dots}");
}

#[test]
fn what_is_no_photo_is_refused_with_its_reason() {
    assert_eq!(refused("cmyk.jpg"), NoPhoto::PrintingInks);
    assert_eq!(refused("moving.webp"), NoPhoto::Moving);
    assert_eq!(refused("moving.png"), NoPhoto::Moving);
    for name in ["dot.jpg", "dot.png", "dot.webp"] {
        let (width, height) = (1, 1);
        assert_eq!(refused(name), NoPhoto::TooSmall { width, height }, "{name}");
    }
    for name in ["huge.jpg", "huge.png"] {
        let (width, height) = (60_000, 60_000);
        assert_eq!(refused(name), NoPhoto::TooLarge { width, height }, "{name}");
    }
    assert_eq!(decode(b""), Err(NoPhoto::Empty));
    assert_eq!(decode(b"length,width\n1,2\n"), Err(NoPhoto::Unknown));
    let said = |bytes: &[u8]| decode(bytes).unwrap_err().to_string();
    assert!(said(b"\0\0\0\x18ftypheic\0\0\0\0").contains("a HEIC picture"));
    assert!(said(b"\0\0\0\x18ftypheic\0\0\0\0").contains("set the camera to JPEG"));
    assert!(said(b"\0\0\0\x18ftypisom\0\0\0\0").contains("a film"));
    assert!(said(b"II*\0\x08\0\0\0").contains("a TIFF or raw picture"));
    assert!(said(b"GIF89a").contains("a GIF picture"));
}

/// A small file that would go over a large picture again and again.
#[test]
fn a_jpeg_of_endless_passes_is_refused() {
    let mut bytes = file("progressive.jpg");
    let end = bytes.len() - 2;
    let pass = b"\xff\xda\0\x08\x01\x01\0\0\x3f\0".repeat(60);
    bytes.splice(end..end, pass);
    assert_eq!(decode(&bytes), Err(NoPhoto::TooManyPasses { most: 40 }));
}

/// Passes are held whole beside the picture, so that colour at full size takes nine bytes a pixel.
#[test]
fn a_large_jpeg_in_passes_with_full_colour_is_refused() {
    let sized = |samples: u8| {
        let mut bytes = file("progressive.jpg");
        let frame = bytes
            .windows(2)
            .position(|pair| pair == b"\xff\xc2")
            .unwrap();
        bytes[frame + 5..frame + 9].copy_from_slice(&[0x17, 0x70, 0x1f, 0x40]);
        bytes[frame + 11] = samples;
        decode(&bytes)
    };
    let (width, height) = (8_000, 6_000);
    assert_eq!(sized(0x11), Err(NoPhoto::PassesTooLarge { width, height }));
    // Colour at half the size each way has room; there are too few bytes for the picture.
    assert!(matches!(sized(0x22), Err(NoPhoto::Cut { .. })));
}

/// So few bytes cannot hold so many pixels, though the file has an end.
#[test]
fn a_jpeg_with_a_larger_head_than_body_is_cut() {
    let mut bytes = file("plain.jpg");
    let frame = bytes
        .windows(2)
        .position(|pair| pair == b"\xff\xc0")
        .unwrap();
    bytes[frame + 5] = 0xff;
    let size = bytes.len();
    assert_eq!(decode(&bytes), Err(NoPhoto::Cut { size }));
}

const WHOLE: [&str; 8] = [
    "plain.jpg",
    "grey.jpg",
    "progressive.jpg",
    "turned-6.jpg",
    "palette.png",
    "deep.png",
    "lossy.webp",
    "lossless.webp",
];

/// Half a photo would give half a shoe.
#[test]
fn a_file_cut_anywhere_is_no_photo() {
    for name in WHOLE {
        let bytes = file(name);
        for tenth in 0..10 {
            let cut = &bytes[..bytes.len() * tenth / 10];
            let why = decode(cut).expect_err(name);
            // The first tenth may not tell what it was.
            let is_told = matches!(why, NoPhoto::Cut { .. }) || tenth == 0;
            assert!(is_told, "{name}, {tenth}: {why}");
        }
    }
}

fn begun() -> impl Strategy<Value = &'static [u8]> {
    let heads: [&[u8]; 6] = [
        b"",
        b"\xff\xd8\xff\xe0",
        b"\xff\xd8\xff\xc0\0\x11\x08\x01\x90\x01\x90\x03",
        b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
        b"RIFF\x40\0\0\0WEBPVP8 ",
        b"RIFF\x40\0\0\0WEBPVP8L",
    ];
    prop::sample::select(heads.to_vec())
}

/// A whole picture or a reason.
fn check_answered(bytes: &[u8]) -> Result<(), TestCaseError> {
    match decode(bytes) {
        Ok(photo) => prop_assert_eq!(photo.pixels.len(), 3 * photo.width * photo.height),
        Err(why) => prop_assert!(!why.to_string().is_empty()),
    }
    Ok(())
}

proptest! {
    /// Any bytes, whatever they begin as, get an answer.
    #[test]
    fn any_bytes_are_answered(
        head in begun(),
        rest in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        check_answered(&[head, &rest].concat())?;
    }

    /// So does a good file with some bytes changed, taken out or put in twice.
    #[test]
    fn a_spoilt_file_is_answered(
        name in prop::sample::select(WHOLE.to_vec()),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..12),
        (from, to) in (any::<prop::sample::Index>(), any::<prop::sample::Index>()),
        is_doubled in any::<bool>(),
        is_cut in any::<bool>(),
    ) {
        let mut bytes = file(name);
        for (at, value) in changes {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        let (from, to) = (from.index(bytes.len()), to.index(bytes.len()));
        let part = bytes[from.min(to)..from.max(to)].to_vec();
        if is_doubled {
            bytes.splice(from..from, part);
        } else if is_cut {
            bytes.drain(from.min(to)..from.max(to));
        }
        check_answered(&bytes)?;
    }
}
