use super::numbers::number;

/// The integral of a smooth function by Simpson's rule in so many `steps`, an even number;
/// nothing where `to` is not above `from`.
pub(super) fn simpson(from: f64, to: f64, steps: usize, of: impl Fn(f64) -> f64) -> f64 {
    if to <= from {
        return 0.0;
    }
    let step = (to - from) / number(steps);
    let inside = (1..steps).map(|at| {
        let weight = if at % 2 == 1 { 4.0 } else { 2.0 };
        weight * of(from + step * number(at))
    });
    step / 3.0 * (of(from) + of(to) + inside.sum::<f64>())
}
