use std::io::Cursor;

use exif::{Exif, In, Reader, Tag, Value};

use super::turn::Turn;

/// Diagonal of a frame of 36 mm × 24 mm, in mm: to it, a focal length is made equivalent.
const DIAGONAL: f64 = 43.266_615_3;
/// Equivalent focal lengths that lenses have, in mm; others are no focal lengths.
const POSSIBLE: std::ops::RangeInclusive<f64> = 5.0..=2_000.0;
/// How far cameras stray from what they note, as a share: common practice, no source.
const HABIT: f64 = 0.01;
/// Shapes of sensors, longer by shorter side.
const SENSORS: [f64; 2] = [4.0 / 3.0, 3.0 / 2.0];
/// Two shapes are one if their sides differ by less than this share.
const ALIKE: f64 = 0.01;

/// A lens as the file tells of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// Focal length in mm that shows as much on a frame of 36 mm × 24 mm, by the diagonal.
    pub equivalent: f64,
    /// How it was written.
    pub written: Written,
}

/// How a camera noted its focal length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// As its equivalent, in whole mm.
    Equivalent,
    /// As it is, with as many pixels as the sensor has to the length.
    OnSensor,
}

impl Lens {
    /// Focal length in pixels of a picture of this size, and its standard uncertainty.
    ///
    /// *Formula:* f = f35 · √(W² + H²) / 43.27 mm; its uncertainty is of 1 % for what cameras
    /// make of it and, where it is written in whole mm, of half of one (rectangular, so
    /// divided by √3; JCGM 100:2008, 4.3.7). A picture of another shape than sensors have may
    /// be cut from one, with the focal length of the whole noted: as far as that would lead
    /// off counts as half a width too. *Left out:* a lens that focuses near stands
    /// further from its sensor, by f / distance of the real focal length (about 1 % for a
    /// phone at half a metre).
    pub fn focal(&self, width: usize, height: usize) -> (f64, f64) {
        let (width, height) = (width as f64, height as f64);
        let focal = self.equivalent * width.hypot(height) / DIAGONAL;
        let shares = match self.written {
            Written::OnSensor => [HABIT, 0.0, 0.0],
            Written::Equivalent => {
                let root = 3.0_f64.sqrt();
                let rounding = 0.5 / self.equivalent / root;
                [HABIT, rounding, lost_of(width, height) / root]
            }
        };
        let variance: f64 = shares.iter().map(|share| share * share).sum();
        (focal, focal * variance.sqrt())
    }
}

/// How much longer the diagonal of a sensor is of which such a picture may be cut, as a share.
fn lost_of(width: f64, height: f64) -> f64 {
    let (long, short) = (width.max(height), width.min(height));
    let shape = long / short;
    if SENSORS.iter().any(|sensor| is_alike(shape, *sensor)) {
        return 0.0;
    }
    // Of 4 to 3, as phones have them.
    let (long_kept, short_kept) = (long * 5.0 / 4.0, short * 5.0 / 3.0);
    long_kept.max(short_kept) / long.hypot(short) - 1.0
}

fn is_alike(one: f64, other: f64) -> bool {
    (one / other - 1.0).abs() < ALIKE
}

/// What a camera noted.
#[derive(Default)]
pub(super) struct Noted {
    /// How it was held.
    pub(super) turn: Turn,
    /// Its lens.
    pub(super) lens: Option<Lens>,
}

/// What is noted in a file whose picture is stored in so many columns and rows; of broken
/// notes, what can be read.
pub(super) fn noted(bytes: &[u8], width: usize, height: usize) -> Noted {
    let read = Reader::new()
        .continue_on_error(true)
        .read_from_container(&mut Cursor::new(bytes));
    let Ok(exif) = read.or_else(|error| error.distill_partial_result(drop)) else {
        return Noted::default();
    };
    let orientation = whole(&exif, Tag::Orientation).unwrap_or_default();
    Noted {
        turn: Turn::of(orientation),
        lens: lens(&exif, width as f64, height as f64),
    }
}

fn lens(exif: &Exif, width: f64, height: f64) -> Option<Lens> {
    let noted = noted_size(exif);
    // A picture of another shape than was noted was cut afterwards.
    if noted
        .is_some_and(|(long, short)| !is_alike(long / short, width.max(height) / width.min(height)))
    {
        return None;
    }
    let equivalent = whole(exif, Tag::FocalLengthIn35mmFilm).map(|mm| Lens {
        equivalent: f64::from(mm),
        written: Written::Equivalent,
    });
    let possible = |lens: &Lens| POSSIBLE.contains(&lens.equivalent);
    equivalent.filter(possible).or_else(|| {
        let (long, short) = noted.unwrap_or((width.max(height), width.min(height)));
        let lens = Lens {
            equivalent: on_sensor(exif)? * DIAGONAL / long.hypot(short),
            written: Written::OnSensor,
        };
        Some(lens).filter(possible)
    })
}

/// The focal length in pixels of the sensor.
fn on_sensor(exif: &Exif) -> Option<f64> {
    let unit = match whole(exif, Tag::FocalPlaneResolutionUnit).unwrap_or(2) {
        2 => 25.4,
        3 => 10.0,
        4 => 1.0,
        _ => return None,
    };
    let pixels = ratio(exif, Tag::FocalLength)? * ratio(exif, Tag::FocalPlaneXResolution)? / unit;
    pixels.is_finite().then_some(pixels)
}

/// The longer and the shorter side as they were noted.
fn noted_size(exif: &Exif) -> Option<(f64, f64)> {
    let side = |tag| whole(exif, tag).filter(|side| *side > 0).map(f64::from);
    let (width, height) = (side(Tag::PixelXDimension)?, side(Tag::PixelYDimension)?);
    Some((width.max(height), width.min(height)))
}

fn whole(exif: &Exif, tag: Tag) -> Option<u32> {
    exif.get_field(tag, In::PRIMARY)?.value.get_uint(0)
}

fn ratio(exif: &Exif, tag: Tag) -> Option<f64> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Rational(values) => values.first().map(|ratio| ratio.to_f64()),
        _ => None,
    }
}
