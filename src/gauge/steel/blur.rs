use num_traits::AsPrimitive;

/// Weights of a Gaussian of that standard deviation in steps, from the middle outwards; they
/// count once in the middle and twice outside it.
pub fn weights(deviation: f64) -> Vec<f32> {
    let reach: usize = (4.0 * deviation + 0.5).as_();
    let plain = (0..=reach).map(|step| (-0.5 * (step as f64 / deviation).powi(2)).exp());
    let plain: Vec<f64> = plain.collect();
    let all: f64 = 2.0 * plain.iter().sum::<f64>() - 1.0;
    plain.iter().map(|weight| (weight / all).as_()).collect()
}

/// A row blurred, mirrored at its ends.
#[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
pub fn row(values: &[f32], weights: &[f32]) -> Vec<f32> {
    let reach = weights.len().saturating_sub(1);
    let ended = mirrored(values, reach);
    let from = |start: usize| ended.get(start..).unwrap_or_default().iter();
    let middle = weights.first().copied().unwrap_or_default();
    let mut sums: Vec<f32> = values.iter().map(|value| middle * value).collect();
    for (step, weight) in weights.iter().enumerate().skip(1) {
        let both = from(reach - step).zip(from(reach + step));
        for (sum, (before, after)) in sums.iter_mut().zip(both) {
            *sum += weight * (before + after);
        }
    }
    sums
}

/// A row with so many values more at either end, as a mirror there shows them; where it is
/// shorter than that, its other end goes on.
fn mirrored(values: &[f32], more: usize) -> Vec<f32> {
    let (Some(first), Some(last)) = (values.first(), values.last()) else {
        return Vec::new();
    };
    let shown = more.min(values.len());
    let beyond = more - shown;
    let mut all = Vec::with_capacity(values.len() + 2 * more);
    all.extend(std::iter::repeat_n(*last, beyond));
    all.extend(values.iter().take(shown).rev());
    all.extend(values);
    all.extend(values.iter().rev().take(shown));
    all.extend(std::iter::repeat_n(*first, beyond));
    all
}

/// Rows blurred into each other, the last one beside the first.
#[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
pub fn around(rows: &[Vec<f32>], weights: &[f32]) -> Vec<Vec<f32>> {
    let count = rows.len();
    (0..count)
        .map(|place| {
            let mut sum = vec![0.0; rows.first().map_or(0, Vec::len)];
            for (step, weight) in weights.iter().enumerate() {
                let after = (place + step) % count;
                let before = (place + count * (1 + step / count) - step) % count;
                let both: &[usize] = if step == 0 {
                    &[after]
                } else {
                    &[after, before]
                };
                for row in both.iter().filter_map(|row| rows.get(*row)) {
                    for (sum, value) in sum.iter_mut().zip(row) {
                        *sum += weight * value;
                    }
                }
            }
            sum
        })
        .collect()
}

/// Places round a closed line blurred into each other.
pub fn line(points: &[kurbo::Point], deviation: f64) -> Vec<kurbo::Point> {
    let rows: Vec<Vec<f32>> = points
        .iter()
        .map(|point| vec![point.x.as_(), point.y.as_()])
        .collect();
    around(&rows, &weights(deviation))
        .iter()
        .filter_map(|row| match row.as_slice() {
            [x, y] => Some(kurbo::Point::new(f64::from(*x), f64::from(*y))),
            _ => None,
        })
        .collect()
}

/// A closed line blurred, and what that takes off bends put back as far as it can be told.
pub fn evened(points: &[kurbo::Point], deviation: f64) -> Vec<kurbo::Point> {
    let once = line(points, deviation);
    let twice = line(&once, deviation);
    let both = once.iter().zip(&twice);
    both.map(|(once, twice)| *once + (*once - *twice)).collect()
}
