use nalgebra::{Cholesky, DMatrix, DVector};
use serde::Serialize;

use super::super::Lacking;
use super::super::numbers::{cross_products, number, variance};
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
const STEPS: u32 = 500;
/// The fit has come to an end where no slope of its discrepancy is more than this.
const STILL: f64 = 1e-11;
/// An item of which less than this is its own is a Heywood case: the likelihood is still
/// rising where the fit no longer means anything.
const OWN: f64 = 1e-4;
/// A step is halved so often before the fit is given up.
const HALVINGS: u32 = 40;

/// Omega total of a one-factor model (McDonald 1999, 6.3): the squared sum of loadings over
/// itself and the sum of unique variances, both in the unit of the marks.
///
/// *Estimator:* maximum likelihood for normal marks, on the correlations, by the method of
/// Joreskog 1967: the loadings that are best for given unique variances are known, and those
/// are sought over their logarithms. The factor is turned so that loadings add up to no
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
fn one_factor(correlations: &DMatrix<f64>) -> Result<(DVector<f64>, DVector<f64>), Lacking> {
    let count = correlations.nrows();
    // Cholesky's method takes a matrix that rounding alone keeps from being singular.
    let shifted = correlations - DMatrix::identity(count, count) * 1e-10;
    let inverse = Cholesky::new(shifted)
        .ok_or(Lacking::Dependent("items"))?
        .inverse();
    // Where Joreskog starts: what the other items do not tell of each.
    let start = 1.0 - 0.5 / number(count);
    let mut logs = inverse.diagonal().map(|one| (start / one).ln());
    let mut here = Profile::of(correlations, &logs);
    for _ in 0..STEPS {
        if here.slope.amax() < STILL {
            return Ok(here.fit(&logs));
        }
        let (next, profile) = step(correlations, &logs, &here)?;
        (logs, here) = (next, profile);
        if logs.min() < OWN.ln() {
            return Err(Lacking::NotFound(
                "a factor that leaves each item some variance of its own",
            ));
        }
    }
    Err(Lacking::NotFound("the one-factor fit"))
}

/// A step down from `here`, no logarithm by more than 1, halved until it goes down.
fn step(
    correlations: &DMatrix<f64>,
    logs: &DVector<f64>,
    here: &Profile,
) -> Result<(DVector<f64>, Profile), Lacking> {
    let lost = || Lacking::NotFound("the one-factor fit");
    let curve = Cholesky::new(here.curve.clone()).ok_or_else(lost)?;
    let mut down = curve.solve(&here.slope);
    down /= down.amax().max(1.0);
    for _ in 0..HALVINGS {
        let next = logs - &down;
        let profile = Profile::of(correlations, &next);
        // Near the end rounding hides how far down a step goes.
        if profile.value <= here.value + 1e-14 {
            return Ok((next, profile));
        }
        down *= 0.5;
    }
    Err(lost())
}

/// The discrepancy of a one-factor model at given unique variances, with the best loadings.
///
/// With the correlations divided by the roots of the unique variances from both sides, their
/// eigenvalues `e` and eigenvectors `v`, and sums over all but the largest: the discrepancy
/// is `sum (e - ln e - 1)`, its slope over the logarithm of an item's unique variance
/// `sum (1 - e) v_i^2`, its curve nearly `(sum v_i v_j)^2` (Joreskog 1967, 4; Lawley and
/// Maxwell 1971, 4.3).
struct Profile {
    value: f64,
    slope: DVector<f64>,
    curve: DMatrix<f64>,
    /// The loadings over the roots of the unique variances.
    axis: DVector<f64>,
}

impl Profile {
    fn of(correlations: &DMatrix<f64>, logs: &DVector<f64>) -> Self {
        let roots = DMatrix::from_diagonal(&logs.map(|log| (-0.5 * log).exp()));
        let axes = (&roots * correlations * &roots).symmetric_eigen();
        let (first, largest) = axes.eigenvalues.argmax();
        let count = logs.len();
        let (mut value, mut slope) = (0.0, DVector::zeros(count));
        let mut outer = DMatrix::zeros(count, count);
        for (place, axis) in axes.eigenvectors.column_iter().enumerate() {
            let own = axes.eigenvalues.get(place).filter(|_| place != first);
            if let Some(eigenvalue) = own {
                value += eigenvalue - eigenvalue.ln() - 1.0;
                slope += (1.0 - eigenvalue) * axis.component_mul(&axis);
                outer += axis * axis.transpose();
            }
        }
        let axis = axes.eigenvectors.column(first) * (largest - 1.0).max(0.0).sqrt();
        Self {
            value,
            slope,
            curve: outer.component_mul(&outer),
            axis,
        }
    }

    /// Loadings and unique variances.
    fn fit(&self, logs: &DVector<f64>) -> (DVector<f64>, DVector<f64>) {
        let loadings = self.axis.component_mul(&logs.map(|log| (0.5 * log).exp()));
        let turn = if loadings.sum() < 0.0 { -1.0 } else { 1.0 };
        (loadings * turn, logs.map(f64::exp))
    }
}
