use nalgebra::{DMatrix, DVector};
use serde::Serialize;

use crate::figures::chance::two_sided_t;
use crate::figures::numbers::{all_finite, at_least, number};
use crate::figures::{Interval, Lacking};

/// Curves whose last parameter alone bends them; for a given one the others follow from a
/// straight fit (Golub and Pereyra, SIAM J. Numer. Anal. 10 (1973) 413).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Curve {
    /// `a x^c`.
    Power,
    /// `a (1 - e^(-c x))`.
    Approach,
    /// `a + b x^(-c)`: the power law of practice, with a floor.
    PracticePower,
    /// `a + b e^(-c (x - 1))`: practice that wins the same part of what is left each time.
    PracticeExponential,
}

/// A curve laid through points by least squares.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fit {
    /// Which curve.
    pub curve: Curve,
    /// Its parameters in the order of its formula.
    pub values: Vec<f64>,
    /// Standard error of each, by the curve's slope in it where it was found.
    pub errors: Vec<f64>,
    /// Sum of the squares that it leaves.
    pub left: f64,
    /// How many points it rests on.
    pub points: usize,
}

/// How finely the bend is first looked for.
const GRID: u32 = 240;
/// Steps of the golden section between its neighbours.
const SECTIONS: u32 = 60;
/// What a step of the golden section leaves: `(sqrt 5 - 1) / 2`.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// A bend must leave less than an end of the range by this share: near it, where the curve is
/// as good as straight or a single step, rounding alone decides.
const TOLD: f64 = 1e-6;
/// Steps of the last polish.
const POLISH: u32 = 12;

/// The curve through points `(x, y)` whose squares it leaves are least.
///
/// The bend is looked for over the whole range that can be told from these places, then
/// narrowed, then all parameters are polished together (Gauss-Newton).
///
/// *Errors:* as many points as parameters or fewer, places not above 0, a number that is not
/// finite, values all alike, or no bend within that range, as where values do not flatten.
pub fn fit(curve: Curve, points: &[(f64, f64)]) -> Result<Fit, Lacking> {
    let parameters = curve.straight() + 1;
    at_least(points.len(), parameters + 1, "points")?;
    let (xs, ys): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
    all_finite(&xs, "places")?;
    all_finite(&ys, "values")?;
    if xs.iter().any(|x| *x <= 0.0) {
        return Err(Lacking::NotANumber("a place at or below 0"));
    }
    if ys.iter().all(|y| Some(y) == ys.first()) {
        return Err(Lacking::NoSpread("values"));
    }
    let search = Search {
        curve,
        xs: &xs,
        ys: DVector::from_vec(ys.clone()),
    };
    let bend = search.bend().ok_or(Lacking::NotFound("a bend"))?;
    let values = search.polished(bend).ok_or(Lacking::NotFound("a bend"))?;
    let jacobian = search.jacobian(&values);
    let left = search.left(&values);
    let inverse = (jacobian.transpose() * &jacobian).try_inverse();
    let inverse = inverse.ok_or(Lacking::NotFound("a spread of the parameters"))?;
    let freedom = number(points.len() - parameters);
    let own = inverse.diagonal();
    let errors = own.iter().map(|own| (own * left / freedom).sqrt());
    let fit = Fit {
        curve,
        errors: errors.collect(),
        values,
        left,
        points: points.len(),
    };
    all_finite(&fit.values, "the parameters")?;
    all_finite(&fit.errors, "the spread of the parameters")?;
    Ok(fit)
}

/// The curve of practice through points that leaves less: power law or exponential. Both
/// have as many parameters, so what is left alone decides; of equal ones, the power law.
///
/// *Errors:* as for [`fit`], where neither is found.
pub fn practice(points: &[(f64, f64)]) -> Result<Fit, Lacking> {
    let power = fit(Curve::PracticePower, points);
    let exponential = fit(Curve::PracticeExponential, points);
    match (power, exponential) {
        (Ok(power), Ok(exponential)) if exponential.left < power.left => Ok(exponential),
        (Ok(power), _) => Ok(power),
        (Err(_), other) => other,
    }
}

impl Fit {
    /// The curve's height at `x`.
    pub fn at(&self, x: f64) -> f64 {
        self.curve.at(&self.values, x)
    }

    /// What the curve comes to in the end, its first parameter, with its interval at `level`
    /// by Student's t; of curves of practice alone.
    ///
    /// *Source:* Draper and Smith, Applied Regression Analysis (1998), 24.2: as if the curve
    /// were straight near its parameters.
    ///
    /// *Errors:* a curve that comes to nothing or to no end, or a level that is no share.
    pub fn floor(&self, level: f64) -> Result<(f64, Interval), Lacking> {
        let is_practice = matches!(
            self.curve,
            Curve::PracticePower | Curve::PracticeExponential
        );
        let own = self.values.first().zip(self.errors.first());
        let (value, error) = own
            .filter(|_| is_practice)
            .ok_or(Lacking::NotFound("a floor"))?;
        let freedom = number(self.points) - number(self.values.len());
        let off = two_sided_t(freedom, level)? * error;
        let interval = Interval {
            low: value - off,
            high: value + off,
            level,
        };
        Ok((*value, interval))
    }
}

impl Curve {
    /// How many parameters are straight, those before the bend.
    fn straight(self) -> usize {
        match self {
            Self::Power | Self::Approach => 1,
            Self::PracticePower | Self::PracticeExponential => 2,
        }
    }

    /// What the straight parameters stand before, at `x` with this bend, and the slope of
    /// the last of them in the bend.
    fn terms(self, x: f64, bend: f64) -> (Vec<f64>, f64) {
        match self {
            Self::Power => {
                let term = x.powf(bend);
                (vec![term], term * x.ln())
            }
            Self::Approach => {
                let left = (-bend * x).exp();
                (vec![-(-bend * x).exp_m1()], x * left)
            }
            Self::PracticePower => {
                let term = x.powf(-bend);
                (vec![1.0, term], -x.ln() * term)
            }
            Self::PracticeExponential => {
                let term = (-bend * (x - 1.0)).exp();
                (vec![1.0, term], -(x - 1.0) * term)
            }
        }
    }

    fn at(self, values: &[f64], x: f64) -> f64 {
        let bend = values.last().copied().unwrap_or_default();
        let (terms, _) = self.terms(x, bend);
        values
            .iter()
            .zip(terms)
            .map(|(value, term)| value * term)
            .sum()
    }

    /// Bends that can be told apart at these places, in order.
    fn bends(self, xs: &[f64]) -> Vec<f64> {
        let far = xs.iter().copied().fold(0.0, f64::max);
        let near = xs.iter().copied().fold(f64::INFINITY, f64::min);
        let (low, high): (f64, f64) = match self {
            Self::Power => {
                let parts = (0..=GRID).map(|at| 20.0 * f64::from(at) / f64::from(GRID) - 10.0);
                return parts.collect();
            }
            Self::Approach => (1e-4 / far, 50.0 / near),
            Self::PracticePower => (1e-3, 10.0),
            Self::PracticeExponential => (1e-3 / far, 50.0),
        };
        let ratio = (high / low).ln();
        let parts = (0..=GRID).map(|at| low * (ratio * f64::from(at) / f64::from(GRID)).exp());
        parts.collect()
    }
}

struct Search<'a> {
    curve: Curve,
    xs: &'a [f64],
    ys: DVector<f64>,
}

impl Search<'_> {
    /// All parameters that leave least with this bend.
    fn with_bend(&self, bend: f64) -> Option<Vec<f64>> {
        let columns = self.curve.straight();
        let terms = self.xs.iter().flat_map(|x| self.curve.terms(*x, bend).0);
        let terms = DMatrix::from_row_iterator(self.xs.len(), columns, terms);
        if !terms.iter().all(|term| term.is_finite()) {
            return None;
        }
        let found = terms.svd(true, true).solve(&self.ys, 1e-13).ok()?;
        let mut values: Vec<f64> = found.iter().copied().collect();
        values.push(bend);
        Some(values)
    }

    fn left(&self, values: &[f64]) -> f64 {
        let points = self.xs.iter().zip(self.ys.iter());
        let left = points.map(|(x, y)| (y - self.curve.at(values, *x)).powi(2));
        left.sum()
    }

    fn left_with(&self, bend: f64) -> f64 {
        let values = self.with_bend(bend);
        values.map_or(f64::INFINITY, |values| self.left(&values))
    }

    /// The bend that leaves least; `None` where that is the end of the range.
    fn bend(&self) -> Option<f64> {
        let bends = self.curve.bends(self.xs);
        let left: Vec<f64> = bends.iter().map(|bend| self.left_with(*bend)).collect();
        let best = left.iter().enumerate();
        let best = best.min_by(|(_, one), (_, other)| one.total_cmp(other))?;
        let before = best.0.checked_sub(1)?;
        let ends = left.first().zip(left.last());
        let end = ends.map(|(first, last)| first.min(*last))?;
        if *best.1 > end * (1.0 - TOLD) {
            return None;
        }
        let (mut low, mut high) = (*bends.get(before)?, *bends.get(best.0 + 1)?);
        for _ in 0..SECTIONS {
            let part = (high - low) * GOLDEN;
            let (from, to) = (high - part, low + part);
            if self.left_with(from) <= self.left_with(to) {
                high = to;
            } else {
                low = from;
            }
        }
        Some(f64::midpoint(low, high))
    }

    /// The slope of each point in each parameter.
    fn jacobian(&self, values: &[f64]) -> DMatrix<f64> {
        let bend = values.last().copied().unwrap_or_default();
        let before = values.iter().rev().nth(1).copied().unwrap_or_default();
        let rows = self.xs.iter().flat_map(|x| {
            let (mut row, slope) = self.curve.terms(*x, bend);
            row.push(before * slope);
            row
        });
        DMatrix::from_row_iterator(self.xs.len(), values.len(), rows)
    }

    /// All parameters together, improved as long as less is left.
    fn polished(&self, bend: f64) -> Option<Vec<f64>> {
        let mut values = self.with_bend(bend)?;
        for _ in 0..POLISH {
            let points = self.xs.iter().zip(self.ys.iter());
            let off = points.map(|(x, y)| y - self.curve.at(&values, *x));
            let off = DVector::from_iterator(self.xs.len(), off);
            let step = self.jacobian(&values).svd(true, true).solve(&off, 1e-14);
            let Ok(step) = step else { break };
            let next: Vec<f64> = values.iter().zip(step.iter()).map(|(a, b)| a + b).collect();
            if self.left(&next) > self.left(&values) {
                break;
            }
            values = next;
        }
        Some(values)
    }
}
