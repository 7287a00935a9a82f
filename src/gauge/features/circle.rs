use kurbo::{Point, Vec2};
use nalgebra::{Matrix3, Vector3};

/// A circle through points as well as can be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
    /// Root mean square of the distances of the points from it.
    pub rms: f64,
}

/// Steps of the fit; a toe takes fewer than ten.
const STEPS: u32 = 200;

impl Circle {
    /// The circle with the least sum of squared distances; `None` for fewer than three points,
    /// points on one line, or a fit that does not settle.
    ///
    /// *Formula:* minimise Σ (|pᵢ - c| - r)². *Source:* W. Gander, G. H. Golub and R. Strebel,
    /// Least-squares fitting of circles and ellipses, BIT 34, 1994, the geometric fit; the
    /// start is the algebraic one, linear in x, y and r² - |c|² (I. Kåsa, IEEE Transactions on
    /// Instrumentation and Measurement 25, 1976); steps are damped by Levenberg's and
    /// Marquardt's rule. *Units:* those of the points.
    pub fn fit(points: &[Point]) -> Option<Self> {
        if points.len() < 3 {
            return None;
        }
        let count = points.iter().map(|_| 1.0).sum::<f64>();
        let sum: Vec2 = points.iter().map(|point| point.to_vec2()).sum();
        let middle = (sum / count).to_point();
        let size = points.iter().map(|point| (*point - middle).hypot2());
        let size = (size.sum::<f64>() / count).sqrt();
        let scaled: Vec<Vec2> = points.iter().map(|at| (*at - middle) / size).collect();
        let start = algebraic(&scaled)?;
        let (found, squares) = geometric(&scaled, start)?;
        Some(Self {
            centre: middle + Vec2::new(found.x, found.y) * size,
            radius: found.z * size,
            rms: (squares / count).sqrt() * size,
        })
    }
}

/// Centre and radius by linear least squares.
fn algebraic(points: &[Vec2]) -> Option<Vector3<f64>> {
    let mut normal = Matrix3::zeros();
    let mut right = Vector3::zeros();
    for point in points {
        let row = Vector3::new(2.0 * point.x, 2.0 * point.y, 1.0);
        normal += row * row.transpose();
        right += row * point.hypot2();
    }
    // Points on one line leave the square to it free; points are of unit size here.
    let least = normal.symmetric_eigenvalues().min();
    if least.is_nan() || least <= 1e-10 * normal.trace() {
        return None;
    }
    let solved = normal.cholesky()?.solve(&right);
    let radius = (solved.z + solved.x * solved.x + solved.y * solved.y).sqrt();
    radius
        .is_finite()
        .then(|| Vector3::new(solved.x, solved.y, radius))
}

/// Centre and radius with the least squared distances, and their sum.
fn geometric(points: &[Vec2], start: Vector3<f64>) -> Option<(Vector3<f64>, f64)> {
    let mut at = start;
    let mut squares = squares(points, at);
    let mut damping = 1e-3;
    for _ in 0..STEPS {
        let mut normal = Matrix3::zeros();
        let mut right = Vector3::zeros();
        for point in points {
            let off = Vec2::new(at.x, at.y) - *point;
            let far = off.hypot();
            // At the centre itself any direction is as good.
            let away = if far > 0.0 {
                off / far
            } else {
                Vec2::new(1.0, 0.0)
            };
            let row = Vector3::new(away.x, away.y, -1.0);
            normal += row * row.transpose();
            right -= row * (far - at.z);
        }
        let damped = normal + Matrix3::from_diagonal(&(normal.diagonal() * damping));
        let step = damped.cholesky()?.solve(&right);
        if step.norm() < 1e-12 * (1.0 + at.norm()) {
            return Some((at, squares));
        }
        let next = at + step;
        let better = self::squares(points, next);
        if better < squares {
            (at, squares) = (next, better);
            damping /= 10.0;
        } else if damping > 1e12 {
            // No step betters it: the least that numbers can tell.
            return Some((at, squares));
        } else {
            damping *= 10.0;
        }
    }
    None
}

fn squares(points: &[Vec2], circle: Vector3<f64>) -> f64 {
    let centre = Vec2::new(circle.x, circle.y);
    let off = points
        .iter()
        .map(|point| (*point - centre).hypot() - circle.z);
    off.map(|off| off * off).sum()
}
