use nalgebra::{DMatrix, DVector};

use super::spread::Estimates;

/// How sure one value is, in two parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// Standard uncertainty of what is its own.
    pub own: f64,
    /// What it is off by with one standard uncertainty of what all values of the photograph
    /// share, with its sign.
    pub shared: f64,
}

impl Estimates {
    /// The uncertainty of each value, taken apart so that differences and sums of values come out
    /// right: the largest part that all of them share, as one cause, and the rest as if it were
    /// each value's own. Both together are the whole, so nothing is made to look surer.
    ///
    /// *Formula:* with D the standard uncertainties, the first principal component λ v of the
    /// shared covariance scaled by D on both sides; the shared part is √λ v D, the own part what
    /// is left of the variance. *Source:* I. T. Jolliffe, Principal Component Analysis, 2002,
    /// chapter 2; JCGM 102:2011 for matrices of covariance.
    pub fn parts(&self) -> Vec<Parts> {
        let sizes = DVector::from_vec(self.uncertainties());
        let count = sizes.len();
        let scaled = DMatrix::from_fn(count, count, |row, column| {
            let both = sizes.get(row).zip(sizes.get(column));
            let size = both.map_or(0.0, |(one, other)| one * other);
            let shared = self.shared.get((row, column)).copied();
            shared.filter(|_| size > 0.0).map_or(0.0, |of| of / size)
        });
        let eigen = scaled.symmetric_eigen();
        let first = eigen.eigenvalues.argmax().0;
        let most = eigen.eigenvalues.max().max(0.0).sqrt();
        let way = eigen.eigenvectors.column(first);
        // A direction has no sign of its own: where the width grows counts as above zero.
        let sign = way.iter().sum::<f64>().signum();
        let each = sizes.iter().zip(way.iter());
        each.map(|(size, way)| {
            let shared = sign * most * way * size;
            Parts {
                own: (size * size - shared * shared).max(0.0).sqrt(),
                shared,
            }
        })
        .collect()
    }
}
