use kurbo::Point;
use nalgebra::SVector;

use super::{covariance, straight_down};
use crate::gauge::picture::Picture;
use crate::gauge::refused::Refused;
use crate::gauge::sheet::{LEAST_PIXELS, Seen, UNKNOWNS, USUAL_BEND, USUAL_OFF, moved};

/// Where a file tells no focal length it is taken as that of most telephones, 26 mm on a frame
/// with a diagonal of 43.27 mm, with this uncertainty of its logarithm; common practice, no
/// source.
const USUAL_FOCAL: (f64, f64) = (26.0 / 43.266_615_3, 0.25);
/// A telephone in the hand leans from straight down by this, each way, in radians: 5 degrees, a
/// judgement, no source.
const LEAN: f64 = 5.0 * std::f64::consts::PI / 180.0;
/// A line of a ruler is marked to this, in pixels: it is plainer than a corner of a sheet, for
/// which see [`BY_HAND`](crate::gauge::sheet::BY_HAND). A judgement, no source.
const ON_LINE: f64 = 1.0;
/// Marks nearer to each other, in pixels, tell lengths to 1 % or worse: both are off by [`ON_LINE`].
const LEAST_APART: f64 = std::f64::consts::SQRT_2 * ON_LINE / 0.01;

/// The camera by two places that are so many mm apart: scale only. It is taken to look straight
/// down through the middle of the picture, its lens to bend nothing; how far off that may be goes
/// into the covariance.
///
/// *Shape:* `focal` in pixels with the uncertainty of its logarithm.
pub fn see(
    picture: &Picture,
    ends: [Point; 2],
    mm: f64,
    focal: Option<(f64, f64)>,
) -> Result<Seen, Refused> {
    let [one, other] = ends;
    let pixels = (other - one).hypot();
    if !(pixels >= LEAST_APART && pixels.is_finite() && mm > 0.0 && mm.is_finite()) {
        return Err(Refused::Near(pixels.min(LEAST_APART)));
    }
    if pixels / mm < LEAST_PIXELS {
        return Err(Refused::Far(pixels / mm));
    }
    let (width, height) = (picture.width() as f64, picture.height() as f64);
    let usual = (USUAL_FOCAL.0 * width.hypot(height), USUAL_FOCAL.1);
    let (focal, unsure) = focal.unwrap_or(usual);
    let camera = straight_down(picture.middle(), focal, focal * mm / pixels);
    let long = width.max(height);
    let causes = [
        (0, LEAN),
        (1, LEAN),
        (6, unsure),
        (7, USUAL_OFF * long),
        (8, USUAL_OFF * long),
        (9, USUAL_BEND),
    ];
    // However the camera is off, the marks stay as far apart: so it is higher or lower too.
    let apart = |by: &Shift| -> Option<f64> {
        let camera = moved(&camera, by);
        let [one, other] = [one, other].map(|at| camera.meets(at, 0.0));
        Some((other? - one?).hypot())
    };
    let held = |shift: Shift| -> Option<Shift> {
        let (mut held, mut higher) = (shift, 0.0);
        for _ in 0..3 {
            higher += (camera.translation.z + higher) * (mm / apart(&held)? - 1.0);
            held = shift + alone(HIGH, higher);
        }
        Some(held)
    };
    let shifts = causes
        .into_iter()
        .filter_map(|(unknown, by)| held(alone(unknown, by)));
    let marks = alone(
        HIGH,
        camera.translation.z * ON_LINE * std::f64::consts::SQRT_2 / pixels,
    );
    let shifts: Vec<Shift> = shifts.chain([marks]).collect();
    // Each of them moves a camera that sees both marks.
    if shifts.len() <= causes.len() {
        return Err(Refused::Near(LEAST_APART));
    }
    Ok(Seen {
        covariance: covariance(&shifts),
        camera,
        spread: ON_LINE,
    })
}

/// The place of the height among the unknowns.
const HIGH: usize = 5;

type Shift = SVector<f64, UNKNOWNS>;

/// One unknown off by so much.
fn alone(unknown: usize, by: f64) -> Shift {
    Shift::from_fn(|row, _| if row == unknown { by } else { 0.0 })
}
