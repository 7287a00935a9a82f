use nalgebra::{Cholesky, DMatrix, DVector};
use serde::Serialize;

use super::super::Lacking;
use super::super::moments::{cross_products, number, variance};
use super::marks;

/// The one-factor fit of a set of items, and what it says of their total.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Omega {
    /// Omega total: the share of the total's variance that is the factor's.
    pub omega: f64,
    /// Each item's loading on the factor, standardized.
    pub loadings: Vec<f64>,
    /// Each item's own share of its variance, standardized.
    pub unique: Vec<f64>,
}

/// The most steps of the fit.
const STEPS: u32 = 50_000;
/// The fit has come to an end where no loading moves by more than this in a step.
const STILL: f64 = 1e-12;
/// An item of which less than this is its own is a Heywood case: the likelihood is still
/// rising where the fit no longer means anything.
const OWN: f64 = 1e-4;

/// Omega total of a one-factor model (McDonald 1999, 6.3): the squared sum of loadings over
/// itself and the sum of unique variances, both in the unit of the marks.
///
/// *Estimator:* maximum likelihood for normal marks, on the correlations, by the EM
/// algorithm (Rubin and Thayer 1982). The factor is turned so that loadings add up to no
/// less than 0. Where items go against one another, loadings of unlike sign take from omega;
/// turn such items first.
///
/// # Errors
///
/// Fewer than three items, no more rows than items, a mark missing or not finite, an item
/// that does not vary, items that follow from one another, and a fit that does not come to an
/// end inside (a Heywood case).
pub fn omega(rows: &[Vec<f64>]) -> Result<Omega, Lacking> {
    let least = rows.first().map_or(0, Vec::len).saturating_add(1);
    let table = marks(rows, least.max(4), 3)?;
    let items = table.columns();
    let deviations: Vec<f64> = items.iter().map(|item| variance(item).sqrt()).collect();
    if deviations.iter().any(|deviation| *deviation <= 0.0) {
        return Err(Lacking::NoSpread("marks of an item"));
    }
    let free = number(table.rows().len()) - 1.0;
    let correlation = |a: usize, b: usize| -> Option<f64> {
        let (one, other) = (items.get(a)?, items.get(b)?);
        let scale = deviations.get(a)? * deviations.get(b)?;
        Some(cross_products(one, other) / free / scale)
    };
    let count = items.len();
    let correlations = DMatrix::from_fn(count, count, |a, b| correlation(a, b).unwrap_or(0.0));
    let (loadings, unique) = one_factor(&correlations)?;
    let scaled = loadings.iter().zip(&deviations);
    let common = scaled.map(|(loading, deviation)| loading * deviation);
    let common = common.sum::<f64>().powi(2);
    let own = unique.iter().zip(&deviations);
    let own: f64 = own
        .map(|(unique, deviation)| unique * deviation * deviation)
        .sum();
    Ok(Omega {
        omega: common / (common + own),
        loadings: loadings.iter().copied().collect(),
        unique: unique.iter().copied().collect(),
    })
}

/// Loadings and unique variances of one factor, from correlations.
///
/// A step of EM: with `b = l' S^-1`, where `S` is what the model says the correlations are,
/// the new loadings are `R b' / (b R b' + 1 - b l)` and the new unique variances
/// `1 - l (R b')` of each item. `S^-1` is known by Sherman and Morrison's formula.
fn one_factor(correlations: &DMatrix<f64>) -> Result<(DVector<f64>, DVector<f64>), Lacking> {
    let smallest = 1e-10;
    let shifted =
        correlations - DMatrix::identity(correlations.nrows(), correlations.nrows()) * smallest;
    if Cholesky::new(shifted).is_none() {
        return Err(Lacking::Dependent("items"));
    }
    let mut loadings = start(correlations);
    let mut unique = loadings.map(|loading| 1.0 - loading * loading);
    for _ in 0..STEPS {
        let over = loadings.component_div(&unique);
        let weights = &over / (1.0 + over.dot(&loadings));
        let seen = correlations * &weights;
        let left = 1.0 - weights.dot(&loadings);
        let next = &seen / (weights.dot(&seen) + left);
        unique = next.component_mul(&seen).map(|common| 1.0 - common);
        let moved = (&next - &loadings).amax();
        loadings = next;
        if unique.min() < OWN {
            return Err(Lacking::NotFound(
                "a factor that leaves each item some variance of its own",
            ));
        }
        if moved < STILL {
            if loadings.sum() < 0.0 {
                loadings.neg_mut();
            }
            return Ok((loadings, unique));
        }
    }
    Err(Lacking::NotFound("the one-factor fit"))
}

/// Where the fit starts: the correlations' first principal axis, drawn in so that each item
/// keeps some variance of its own. It carries the pattern of signs.
fn start(correlations: &DMatrix<f64>) -> DVector<f64> {
    let axes = correlations.clone().symmetric_eigen();
    let (place, value) = axes.eigenvalues.argmax();
    let axis = axes.eigenvectors.column(place).into_owned();
    (axis * value.sqrt()).map(|loading| loading.clamp(-0.95, 0.95))
}
