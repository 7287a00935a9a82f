use num_traits::ToPrimitive;

use crate::quantity::Exact;

/// What repeats of one reading say by themselves: a type A evaluation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Repeats {
    /// Arithmetic mean.
    pub mean: f64,
    /// Experimental standard deviation of one reading: its repeatability.
    pub deviation: f64,
    /// That of the mean.
    pub of_mean: f64,
}

/// Of `values` in one unit, which the results are in too; `None` for fewer than two.
///
/// *Formulas:* mean, `s = sqrt(sum (q - mean)^2 / (n - 1))` and `s / sqrt n` (JCGM 100:2008,
/// 4.2.1 to 4.2.3).
pub fn repeats(values: &[Exact]) -> Option<Repeats> {
    let count = values.len().to_f64().filter(|count| *count >= 2.0)?;
    let mean = Exact::mean(values)?;
    // Differences are exact, so that large values that differ little lose nothing.
    let off = values.iter().map(|value| Some(value.minus(mean)?.to_f64()));
    let off: Vec<f64> = off.collect::<Option<_>>()?;
    let squares: f64 = off.iter().map(|off| off * off).sum();
    let deviation = (squares / (count - 1.0)).sqrt();
    Some(Repeats {
        mean: mean.to_f64(),
        deviation,
        of_mean: deviation / count.sqrt(),
    })
}
