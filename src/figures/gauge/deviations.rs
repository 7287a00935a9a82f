use num_traits::ToPrimitive as _;
use serde::Serialize;

use super::super::Lacking;

/// Standard deviations that a gauge study finds, in the unit of the readings.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Deviations {
    /// Repeatability, or equipment variation: one operator, one part.
    pub repeatability: f64,
    /// Reproducibility, or appraiser variation: between operators, with what an operator
    /// does differently from part to part where that is kept.
    pub reproducibility: f64,
    /// Both together.
    pub gauge: f64,
    /// Between parts.
    pub part: f64,
    /// Gauge and parts together.
    pub total: f64,
}

/// Shares of something, `0.25` for 25 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Shares {
    /// Of repeatability.
    pub repeatability: f64,
    /// Of reproducibility.
    pub reproducibility: f64,
    /// Of both together.
    pub gauge: f64,
    /// Of the parts.
    pub part: f64,
}

/// How many classes of parts a gauge can tell apart.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Categories {
    /// `1.41 part / gauge`.
    pub ratio: f64,
    /// The ratio without its fraction.
    pub distinct: u32,
}

/// Parts over gauge to classes: the ratio of part to gauge that gives one more class, as AIAG
/// prints it (the root of two, Wheeler and Lyday 1989).
const CLASSES: f64 = 1.41;
/// A tolerance holds so many standard deviations (AIAG, 4th edition: 6; earlier 5.15).
const STUDY: f64 = 6.0;

impl Deviations {
    /// From variances: `within` of repeatability, `between` of reproducibility, `part`.
    pub(super) fn of_variances(within: f64, between: f64, part: f64) -> Self {
        Self {
            repeatability: within.sqrt(),
            reproducibility: between.sqrt(),
            gauge: (within + between).sqrt(),
            part: part.sqrt(),
            total: (within + between + part).sqrt(),
        }
    }

    /// Shares of the total standard deviation (per cent of study variation). They do not add
    /// up to 1, as standard deviations do not add.
    ///
    /// # Errors
    ///
    /// Readings that are all alike.
    pub fn of_study(&self) -> Result<Shares, Lacking> {
        self.over(self.total, |deviation| deviation)
    }

    /// Shares of the total variance (per cent contribution); gauge and part add up to 1.
    ///
    /// # Errors
    ///
    /// Readings that are all alike.
    pub fn of_variance(&self) -> Result<Shares, Lacking> {
        self.over(self.total * self.total, |deviation| deviation * deviation)
    }

    /// The share of reproducibility in the variance of gauge, repeatability being the rest.
    ///
    /// # Errors
    ///
    /// A gauge without any variation.
    pub fn reproducibility_of_gauge(&self) -> Result<f64, Lacking> {
        let shares = self.over(self.gauge * self.gauge, |deviation| deviation * deviation)?;
        Ok(shares.reproducibility)
    }

    /// Shares of a tolerance, its upper less its lower limit, in the unit of the readings:
    /// `6 deviation / tolerance`.
    ///
    /// # Errors
    ///
    /// A tolerance that is not a positive number.
    pub fn of_tolerance(&self, tolerance: f64) -> Result<Shares, Lacking> {
        if !(tolerance > 0.0 && tolerance.is_finite()) {
            return Err(Lacking::NotANumber("the tolerance"));
        }
        self.over(tolerance, |deviation| STUDY * deviation)
    }

    /// Number of distinct categories: `1.41 part / gauge`, its fraction dropped (AIAG, 4th
    /// edition, chapter III).
    ///
    /// # Errors
    ///
    /// A gauge without any variation, which gives no number.
    pub fn categories(&self) -> Result<Categories, Lacking> {
        let ratio = CLASSES * self.part / self.gauge;
        if !ratio.is_finite() {
            return Err(Lacking::NoSpread("readings of one part"));
        }
        Ok(Categories {
            ratio,
            distinct: ratio.floor().to_u32().unwrap_or(u32::MAX),
        })
    }

    fn over(&self, whole: f64, of: impl Fn(f64) -> f64) -> Result<Shares, Lacking> {
        if whole <= 0.0 {
            return Err(Lacking::NoSpread("readings"));
        }
        Ok(Shares {
            repeatability: of(self.repeatability) / whole,
            reproducibility: of(self.reproducibility) / whole,
            gauge: of(self.gauge) / whole,
            part: of(self.part) / whole,
        })
    }
}
