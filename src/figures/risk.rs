use serde::Serialize;
use statrs::distribution::{Continuous, ContinuousCDF, Gamma, Normal};

use super::Lacking;
use super::chance::normal_below;
use super::integral::simpson;
use super::numbers::all_finite;

/// Steps of the integral over each stretch; even.
const STEPS: usize = 4000;
/// The share of all pieces that is left out at each end.
const ENDS: f64 = 1e-15;

/// How the true values of what is made are spread, from earlier pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Made {
    /// Around a mean, to both sides alike.
    Normal {
        /// The mean.
        mean: f64,
        /// The standard deviation.
        deviation: f64,
    },
    /// From 0 up, as what is off in one direction only.
    Gamma {
        /// The shape.
        shape: f64,
        /// The scale: mean over shape.
        scale: f64,
    },
}

/// From where to where; open where there is no limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// The least.
    pub low: Option<f64>,
    /// The most.
    pub high: Option<f64>,
}

/// How often measuring goes wrong over many pieces, as shares of all of them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Risks {
    /// Pieces that are within tolerance.
    pub conforming: f64,
    /// Pieces within tolerance that are not accepted.
    pub producer: f64,
    /// Pieces out of tolerance that are accepted.
    pub consumer: f64,
}

/// The risks over many pieces that are made so, measured with this standard uncertainty,
/// held to `tolerance` and accepted where the reading is within `accepted`.
///
/// *Source:* JCGM 106:2012, 9.5, equations 21 and 22; by Simpson's rule over each stretch
/// between the limits of the tolerance.
///
/// *Errors:* a deviation, scale, shape or uncertainty that is not above 0, limits that do
/// not rise, or a number that is not finite.
pub fn risks(
    made: Made,
    uncertainty: f64,
    tolerance: Within,
    accepted: Within,
) -> Result<Risks, Lacking> {
    for within in [tolerance, accepted] {
        let limits: Vec<f64> = [within.low, within.high].into_iter().flatten().collect();
        all_finite(&limits, "a limit")?;
        if limits.first() > limits.last() {
            return Err(Lacking::NotANumber("limits that do not rise"));
        }
    }
    if !(uncertainty > 0.0 && uncertainty.is_finite()) {
        return Err(Lacking::NotANumber("the uncertainty"));
    }
    let law = Law::of(made)?;
    let is_accepted = |value: f64| {
        let below = |limit: f64| normal_below((limit - value) / uncertainty);
        accepted.high.map_or(1.0, below) - accepted.low.map_or(0.0, below)
    };
    let (first, last) = law.ends();
    let low = tolerance.low.unwrap_or(first).clamp(first, last);
    let high = tolerance.high.unwrap_or(last).clamp(first, last);
    let conforming = law.below(high) - law.below(low);
    let passed = |from: f64, to: f64| simpson(from, to, STEPS, |y| law.density(y) * is_accepted(y));
    Ok(Risks {
        conforming,
        producer: conforming - passed(low, high),
        consumer: passed(first, low) + passed(high, last),
    })
}

/// What is known of one piece after it was measured, where earlier ones say how such pieces
/// are spread: the mean, and its standard uncertainty.
///
/// *Source:* JCGM 106:2012, A.4.4.
///
/// *Errors:* a deviation or an uncertainty that is not above 0, or a number that is not
/// finite.
pub fn measured_among(
    (mean, deviation): (f64, f64),
    (reading, uncertainty): (f64, f64),
) -> Result<(f64, f64), Lacking> {
    all_finite(&[mean, deviation, reading, uncertainty], "mean and reading")?;
    if deviation <= 0.0 || uncertainty <= 0.0 {
        return Err(Lacking::NotANumber("a deviation"));
    }
    let (among, of_one) = (deviation.powi(-2), uncertainty.powi(-2));
    let both = among + of_one;
    Ok((
        (among * mean + of_one * reading) / both,
        both.sqrt().recip(),
    ))
}

enum Law {
    Normal(Normal),
    Gamma(Gamma),
}

impl Law {
    fn of(made: Made) -> Result<Self, Lacking> {
        let wrong = || Lacking::NotANumber("how the pieces are spread");
        match made {
            Made::Normal { mean, deviation } => Normal::new(mean, deviation)
                .map(Self::Normal)
                .map_err(|_| wrong()),
            Made::Gamma { shape, scale } => Gamma::new(shape, scale.recip())
                .map(Self::Gamma)
                .map_err(|_| wrong()),
        }
    }

    fn density(&self, value: f64) -> f64 {
        match self {
            Self::Normal(law) => law.pdf(value),
            Self::Gamma(law) => law.pdf(value),
        }
    }

    fn below(&self, value: f64) -> f64 {
        match self {
            Self::Normal(law) => law.cdf(value),
            Self::Gamma(law) => law.cdf(value),
        }
    }

    /// From where to where all but nothing lies.
    fn ends(&self) -> (f64, f64) {
        match self {
            Self::Normal(law) => (law.inverse_cdf(ENDS), law.inverse_cdf(1.0 - ENDS)),
            Self::Gamma(law) => (0.0, law.inverse_cdf(1.0 - ENDS)),
        }
    }
}
