use kurbo::Point;
use nalgebra::{Rotation3, SMatrix, SVector, Vector3};

use super::edges::Edge;
use super::size::Sheet;
use crate::gauge::camera::Camera;

/// Of a camera before one is looked at: a value and its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Before {
    /// Focal length in pixels, and the uncertainty of its natural logarithm.
    pub focal: (f64, f64),
    /// Where the optical axis meets the picture; the uncertainty in pixels, each way.
    pub centre: (Point, f64),
    /// The radial term.
    pub k1: (f64, f64),
    /// No edge is seen better than this, in pixels.
    pub least_spread: f64,
}

/// Three of turning, three of place, focal length, both of the centre, distortion.
pub const UNKNOWNS: usize = 10;
type Normal = SMatrix<f64, UNKNOWNS, UNKNOWNS>;
type Step = SVector<f64, UNKNOWNS>;

/// A camera that sees the sheet, with how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The camera.
    pub camera: Camera,
    /// Covariance of what [`moved`] takes.
    pub covariance: Normal,
    /// What edges lie off by, in pixels: their spread, without strays.
    pub spread: f64,
}

impl Seen {
    /// The standard uncertainty of the focal length, as a share of it.
    pub fn focal_unsure(&self) -> f64 {
        self.covariance
            .diagonal()
            .iter()
            .nth(FOCAL)
            .map_or(0.0, |square| square.sqrt())
    }
}

/// The place of the focal length among the unknowns.
const FOCAL: usize = 6;

/// Small steps by which derivatives are taken, of each unknown: radians, mm, shares, pixels.
pub const NUDGES: [f64; UNKNOWNS] = [1e-6, 1e-6, 1e-6, 1e-4, 1e-4, 1e-4, 1e-6, 1e-3, 1e-3, 1e-6];
/// Steps of the search at most.
const STEPS: usize = 40;
/// An edge that lies off by more spreads than this counts for nothing.
const STRAY: f64 = 4.0;
/// Neighbouring edges share their error; so many of them say as much as one.
const ALIKE: f64 = 4.0;

/// A camera a little off: turned, moved, with another focal length, centre and distortion.
pub fn moved(camera: &Camera, by: &Step) -> Camera {
    let [a, b, c, x, y, z, focal, right, down, k1] = by.data.0[0];
    Camera {
        rotation: Rotation3::new(Vector3::new(a, b, c)).matrix() * camera.rotation,
        translation: camera.translation + Vector3::new(x, y, z),
        focal: camera.focal * focal.exp(),
        centre: Point::new(camera.centre.x + right, camera.centre.y + down),
        k1: camera.k1 + k1,
    }
}

/// The camera that sees these edges where they are, found from one near it.
///
/// *Source:* damped least squares (Levenberg and Marquardt), with Tukey's biweight against
/// strays: R. Hartley and A. Zisserman, Multiple View Geometry, second edition, appendix 6, and
/// P. Huber, Robust Statistics (both from memory). What is known before counts as observations.
pub fn fit(start: &Camera, sheet: Sheet, edges: &[Edge], before: &Before) -> Option<Seen> {
    let mut camera = start.clone();
    let mut damping = 1e-3;
    let mut spread = spread(&residuals(&camera, sheet, edges)?, before);
    let mut cost = cost(&camera, sheet, edges, before, spread)?;
    for _ in 0..STEPS {
        let (normal, slope) = normal(&camera, sheet, edges, before, spread)?;
        let damped = normal + Normal::from_diagonal(&(normal.diagonal() * damping));
        let step = damped.cholesky()?.solve(&-slope);
        let next = moved(&camera, &step);
        match self::cost(&next, sheet, edges, before, spread) {
            Some(value) if value <= cost => {
                let gained = cost - value;
                camera = next;
                damping = f64::max(damping / 5.0, 1e-9);
                // Strays are told anew as the camera comes nearer.
                spread = self::spread(&residuals(&camera, sheet, edges)?, before);
                cost = self::cost(&camera, sheet, edges, before, spread)?;
                if gained < 1e-9 * cost {
                    break;
                }
            }
            _ => damping *= 8.0,
        }
        if damping > 1e9 {
            break;
        }
    }
    let (normal, _) = normal(&camera, sheet, edges, before, spread)?;
    Some(Seen {
        camera,
        covariance: normal.cholesky()?.inverse(),
        spread,
    })
}

/// How far inside its side each edge lies by this camera, in pixels.
pub fn residuals(camera: &Camera, sheet: Sheet, edges: &[Edge]) -> Option<Vec<f64>> {
    let scale = camera.focal / camera.translation.norm();
    let off = |edge: &Edge| Some(scale * sheet.inside(edge.side, camera.meets(edge.at, 0.0)?));
    edges.iter().map(off).collect()
}

/// The spread of what is mostly noise: 1.4826 times the median of the absolute values.
///
/// *Source:* P. Rousseeuw and C. Croux, Alternatives to the median absolute deviation, 1993.
fn spread(residuals: &[f64], before: &Before) -> f64 {
    let mut sizes: Vec<f64> = residuals.iter().map(|value| value.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let median = sizes.get(sizes.len() / 2).copied().unwrap_or(0.0);
    f64::max(1.4826 * median, before.least_spread)
}

/// Twice what Tukey's biweight charges for a residual, in spreads, and how much it weighs.
fn biweight(off: f64) -> (f64, f64) {
    let share = 1.0 - (off / STRAY).powi(2);
    if share <= 0.0 {
        return (STRAY * STRAY / 3.0, 0.0);
    }
    (STRAY * STRAY / 3.0 * (1.0 - share.powi(3)), share * share)
}

/// How much a residual weighs.
pub fn weight(off: f64, spread: f64) -> f64 {
    biweight(off / spread).1 / (spread * spread * ALIKE)
}

fn cost(
    camera: &Camera,
    sheet: Sheet,
    edges: &[Edge],
    before: &Before,
    spread: f64,
) -> Option<f64> {
    let seen = residuals(camera, sheet, edges)?;
    let seen: f64 = seen
        .iter()
        .map(|off| biweight(off / spread).0 / ALIKE)
        .sum();
    let known: f64 = off_before(camera, before).iter().map(|off| off * off).sum();
    Some(seen + known)
}

/// What the camera is off from what was known before, each in its uncertainty.
fn off_before(camera: &Camera, before: &Before) -> [f64; 4] {
    let (focal, unsure) = before.focal;
    let (centre, pixels) = before.centre;
    let (k1, bend) = before.k1;
    [
        (camera.focal / focal).ln() / unsure,
        (camera.centre.x - centre.x) / pixels,
        (camera.centre.y - centre.y) / pixels,
        (camera.k1 - k1) / bend,
    ]
}

/// The normal equations at a camera: their matrix and half the slope of the cost.
fn normal(
    camera: &Camera,
    sheet: Sheet,
    edges: &[Edge],
    before: &Before,
    spread: f64,
) -> Option<(Normal, Step)> {
    let off = residuals(camera, sheet, edges)?;
    let known = off_before(camera, before);
    let mut slopes: Vec<Step> = vec![Step::zeros(); off.len()];
    let mut known_slopes = [Step::zeros(); 4];
    for (unknown, nudge) in NUDGES.iter().enumerate() {
        let mut by = Step::zeros();
        *by.get_mut(unknown)? = *nudge;
        let nudged = moved(camera, &by);
        let nudged_off = residuals(&nudged, sheet, edges)?;
        for (slope, (after, at)) in slopes.iter_mut().zip(nudged_off.iter().zip(&off)) {
            *slope.get_mut(unknown)? = (after - at) / nudge;
        }
        let nudged_known = off_before(&nudged, before);
        for (slope, (after, at)) in known_slopes.iter_mut().zip(nudged_known.iter().zip(&known)) {
            *slope.get_mut(unknown)? = (after - at) / nudge;
        }
    }
    let (mut matrix, mut vector) = (Normal::zeros(), Step::zeros());
    let seen = off
        .iter()
        .zip(&slopes)
        .map(|(off, slope)| (*off, slope, weight(*off, spread)));
    let known = known
        .iter()
        .zip(&known_slopes)
        .map(|(off, slope)| (*off, slope, 1.0));
    for (off, slope, weight) in seen.chain(known) {
        matrix += slope * slope.transpose() * weight;
        vector += slope * (off * weight);
    }
    Some((matrix, vector))
}
