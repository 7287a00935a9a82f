use super::super::PlanFault;
use super::super::sizes::from_mm;
use crate::quantity::Length;

/// How much longer carbon steel is at a temperature than at 20 °C, over its length there.
///
/// *Formula:* EN 1993-1-2:2005, 3.4.1.1, with T in °C: 1.2e-5 T + 0.4e-8 T² − 2.416e-4 below
/// 750 °C, 1.1e-2 up to 860 °C, 2e-5 T − 6.2e-3 up to 1200 °C.
///
/// *Errors:* [`PlanFault::Temperature`] outside 20 to 1200 °C.
pub fn elongation(celsius: f64) -> Result<f64, PlanFault> {
    if !(20.0..=1200.0).contains(&celsius) {
        return Err(PlanFault::Temperature { celsius });
    }
    Ok(if celsius < 750.0 {
        1.2e-5 * celsius + 0.4e-8 * celsius * celsius - 2.416e-4
    } else if celsius <= 860.0 {
        1.1e-2
    } else {
        2e-5 * celsius - 6.2e-3
    })
}

/// What a size measured hot comes to once it is cold: hot / (1 + [`elongation`]).
///
/// *Errors:* those of [`elongation`].
pub fn cold(hot: Length, celsius: f64) -> Result<Length, PlanFault> {
    // Never longer than what was measured, so it is always a length.
    let size = hot.to_mm() / (1.0 + elongation(celsius)?);
    Ok(from_mm(size).unwrap_or(hot))
}

/// What a cold size measures hot: cold × (1 + [`elongation`]).
///
/// *Errors:* those of [`elongation`], and a length that is too long for any.
pub fn hot(cold: Length, celsius: f64) -> Result<Length, PlanFault> {
    let size = cold.to_mm() * (1.0 + elongation(celsius)?);
    from_mm(size).ok_or(PlanFault::Needs {
        what: "a size that steel can have",
        remedy: "write a smaller one",
    })
}
