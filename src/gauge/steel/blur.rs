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
pub fn row(values: &[f32], weights: &[f32]) -> Vec<f32> {
    let count = values.len();
    let at = |place: usize| values.get(place).copied().unwrap_or(0.0);
    let mirrored = |place: usize, step: usize, back: bool| {
        let place = if back {
            place
                .checked_sub(step)
                .unwrap_or_else(|| (step - place).saturating_sub(1))
        } else if place + step < count {
            place + step
        } else {
            (2 * count).saturating_sub(place + step + 1)
        };
        at(place.min(count.saturating_sub(1)))
    };
    (0..count)
        .map(|place| {
            let steps = weights.iter().enumerate();
            steps
                .map(|(step, weight)| match step {
                    0 => weight * at(place),
                    _ => weight * (mirrored(place, step, true) + mirrored(place, step, false)),
                })
                .sum()
        })
        .collect()
}

/// Rows blurred into each other, the last one beside the first.
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
