use nalgebra::SVector;

use super::{covariance, straight_down};
use crate::gauge::picture::Picture;
use crate::gauge::refused::Refused;
use crate::gauge::sheet::{LEAST_PIXELS, Seen};

/// From so high, in mm, a camera sees the ground; as nothing stands above it, any height would do.
const HEIGHT: f64 = 1_000.0;
/// An inch, in mm.
const INCH: f64 = 25.4;
/// A flatbed scanner's lengths are off by this share; a judgement, no source.
const UNSURE: f64 = 0.002;
/// How well the places of a scan's pixels are known, in pixels.
const SPREAD: f64 = 0.1;

/// A scan as a camera that looks straight down: on the ground both show the same.
pub fn see(picture: &Picture, dots_per_inch: f64) -> Result<Seen, Refused> {
    let pixels = dots_per_inch / INCH;
    // What is not a number is none.
    if !(pixels >= LEAST_PIXELS && pixels.is_finite()) {
        return Err(Refused::Far(pixels.max(0.0)));
    }
    let shift = SVector::from_fn(|row, _| if row == 5 { HEIGHT * UNSURE } else { 0.0 });
    Ok(Seen {
        camera: straight_down(picture.middle(), pixels * HEIGHT, HEIGHT),
        covariance: covariance(&[shift]),
        spread: SPREAD,
    })
}
