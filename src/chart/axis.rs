//! Round numbers along an axis that may begin anywhere, below nothing too.

/// An axis with its labelled places, from end to end.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Span {
    /// Its lower end, the first labelled place.
    pub low: f64,
    /// Its upper end, the last one.
    pub high: f64,
    /// Labelled places in rising order.
    pub ticks: Vec<(f64, String)>,
}

impl Span {
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
        let (first, last) = ((low / step).floor(), (high / step).ceil());
        let mut ticks = Vec::new();
        let mut at = first;
        while at <= last && ticks.len() < 40 {
            ticks.push((at * step, label(at * step, step)));
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

/// A number to as many places as the step has, with a minus sign.
fn label(value: f64, step: f64) -> String {
    let places = [0, 1, 2, 3, 4, 5, 6].into_iter();
    let is_enough = |places: &i32| step * 10.0_f64.powi(*places) >= 0.999;
    let places = places.into_iter().find(is_enough).unwrap_or(6);
    let places = usize::try_from(places).unwrap_or(0);
    let size = format!("{:.places$}", value.abs());
    if value < 0.0 && size.contains(|sign| ('1'..='9').contains(&sign)) {
        format!("\u{2212}{size}")
    } else {
        size
    }
}
