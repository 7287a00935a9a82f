//! Round numbers along an axis that may begin anywhere, below nothing too.

use crate::quantity::print_figure;

/// An axis with its labelled places, from end to end.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RoundAxis {
    /// Its lower end, the first labelled place.
    pub low: f64,
    /// Its upper end, the last one.
    pub high: f64,
    /// Labelled places in rising order.
    pub ticks: Vec<(f64, String)>,
}

impl RoundAxis {
    /// An axis that holds `low` and `high` and has about `parts` parts of 1, 2 or 5 times a
    /// power of ten.
    pub fn around(low: f64, high: f64, parts: f64) -> Self {
        let (low, high) = if low < high {
            (low, high)
        } else {
            (low - 1.0, low + 1.0)
        };
        let rough = (high - low) / parts.max(1.0);
        let power = 10.0_f64.powf(rough.log10().floor());
        let steps = [1.0, 2.0, 5.0, 10.0].map(|step| step * power);
        let step = steps.into_iter().find(|step| *step >= rough);
        let step = step.unwrap_or(10.0 * power);
        let places = places(step);
        let (first, last) = ((low / step).floor(), (high / step).ceil());
        let mut ticks = Vec::new();
        let mut at = first;
        while at <= last && ticks.len() < 40 {
            ticks.push((at * step, print_figure(at * step, places)));
            at += 1.0;
        }
        Self {
            low: first * step,
            high: last * step,
            ticks,
        }
    }

    /// Where a value stands between two places of a drawing.
    pub fn place(&self, value: f64, from: f64, to: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        from + share * (to - from)
    }
}

/// So many places tell labels a step apart.
fn places(step: f64) -> usize {
    let mut rest = step;
    let mut places = 0;
    while rest < 0.999 && places < 6 {
        rest *= 10.0;
        places += 1;
    }
    places
}
