use kurbo::{Point, Vec2};
use nalgebra::{Matrix3, Vector3};

use super::target::Target;
use super::{Edge, Rigid};

/// Turns that the search begins from, in radians: unlike shoes have more than one place where no
/// small step betters the fit.
const STARTS: [f64; 3] = [0.0, -0.03, 0.03];
/// Steps at most; a fit of two shoes takes five to fifteen.
const STEPS: usize = 60;
/// A step is halved so often before the closed form is tried.
const HALVES: usize = 10;
/// A step that betters the mean square by less than this share of it, or of this many mm², is
/// the last.
const DONE: f64 = 1e-11;

/// What moves places nearest to edges.
pub(super) struct Fit {
    pub motion: Rigid,
    /// Mean squared distance in mm².
    pub error: f64,
    pub error_before: f64,
}

/// A place with the nearest one of the edges.
struct Pair {
    at: Point,
    to: Point,
}

/// See [`lay_over`](super::lay_over).
pub(super) fn fit(places: &[(Point, Option<Edge>)], target: &Target) -> Fit {
    let begun = pairs(places, target, &Rigid::NONE);
    let (error_before, about) = (mean_square(&begun), middle(&begun));
    let fits = STARTS.map(|turn| {
        let start = Rigid::NONE.then(turn, about, Vec2::ZERO);
        steps_from(start, places, target)
    });
    let best = fits
        .into_iter()
        .min_by(|one, other| one.1.total_cmp(&other.1));
    let (motion, error) = best.unwrap_or((Rigid::NONE, error_before));
    Fit {
        motion,
        error,
        error_before,
    }
}

/// The best motion that steps lead to, with its mean squared distance.
fn steps_from(start: Rigid, places: &[(Point, Option<Edge>)], target: &Target) -> (Rigid, f64) {
    let mut motion = start;
    let mut found = pairs(places, target, &motion);
    let mut error = mean_square(&found);
    for _ in 0..STEPS {
        let middle = middle(&found);
        let square = square_step(&found, middle);
        let halves = (0..HALVES).map(|half| 0.5_f64.powi(i32::try_from(half).unwrap_or(0)));
        let tries = square.into_iter().flat_map(|(turn, shift)| {
            let halves = halves.clone();
            halves.map(move |part| (turn * part, shift * part))
        });
        let better = tries.chain([closed_form(&found, middle)]).find_map(|step| {
            let (turn, shift) = step;
            let next = motion.then(turn, middle, shift);
            let pairs = pairs(places, target, &next);
            let least = mean_square(&pairs);
            (least < error).then_some((next, pairs, least))
        });
        let Some((next, pairs, least)) = better else {
            break;
        };
        let gain = error - least;
        (motion, found, error) = (next, pairs, least);
        if gain <= DONE * (error + DONE) {
            break;
        }
    }
    (motion, error)
}

fn pairs(places: &[(Point, Option<Edge>)], target: &Target, motion: &Rigid) -> Vec<Pair> {
    let mut hints = target.hints();
    let pair = |(place, edge): &(Point, Option<Edge>)| {
        let at = motion.of(*place);
        Pair {
            at,
            to: at - target.nearest(at, *edge, &mut hints).off,
        }
    };
    places.iter().map(pair).collect()
}

fn count(pairs: &[Pair]) -> f64 {
    pairs.len().max(1) as f64
}

fn mean_square(pairs: &[Pair]) -> f64 {
    let squares = pairs.iter().map(|pair| (pair.at - pair.to).hypot2());
    squares.sum::<f64>() / count(pairs)
}

fn middle(pairs: &[Pair]) -> Point {
    let sum: Vec2 = pairs.iter().map(|pair| pair.at.to_vec2()).sum();
    (sum / count(pairs)).to_point()
}

/// The turn about a place, and the shift, that lessen the distances square to the edges most,
/// for small ones; `None` where these do not decide it.
fn square_step(pairs: &[Pair], about: Point) -> Option<(f64, Vec2)> {
    let (mut normal, mut right) = (Matrix3::zeros(), Vector3::zeros());
    for pair in pairs {
        let off = pair.at - pair.to;
        let far = off.hypot();
        // Where it touches, it pulls nowhere.
        if far > 0.0 {
            let away = off / far;
            let row = Vector3::new((pair.at - about).cross(away), away.x, away.y);
            normal += row * row.transpose();
            right -= row * far;
        }
    }
    let step = normal.cholesky()?.solve(&right);
    let is_sound = step.iter().all(|value| value.is_finite());
    is_sound.then(|| (step.x, Vec2::new(step.y, step.z)))
}

/// The turn about the middle of the places, and the shift, that bring all of them nearest to
/// their pairs: Arun and others 1987, whose singular vectors in the plane are one angle.
fn closed_form(pairs: &[Pair], middle: Point) -> (f64, Vec2) {
    let sum: Vec2 = pairs.iter().map(|pair| pair.to.to_vec2()).sum();
    let target = (sum / count(pairs)).to_point();
    let (mut cross, mut dot) = (0.0, 0.0);
    for pair in pairs {
        let (from, to) = (pair.at - middle, pair.to - target);
        cross += from.cross(to);
        dot += from.dot(to);
    }
    (cross.atan2(dot), target - middle)
}
