use num_traits::AsPrimitive as _;

/// A picture of one value a pixel, blurred by a Gaussian of this standard deviation in pixels.
pub fn blurred(light: &[f64], (width, height): (usize, usize), sigma: f64) -> Vec<f64> {
    if sigma <= 0.0 {
        return light.to_vec();
    }
    let reach: usize = (3.0 * sigma).ceil().as_();
    let weights: Vec<f64> = (0..=2 * reach)
        .map(|index| {
            let away = (index as f64 - reach as f64) / sigma;
            (-0.5 * away * away).exp()
        })
        .collect();
    let sum: f64 = weights.iter().sum();
    // One way and then the other; beyond its edge a picture goes on as it ends.
    let along = |from: &[f64], count: usize, step: usize, start: usize, to: &mut [f64]| {
        for at in 0..count {
            let parts = weights.iter().enumerate().map(|(index, weight)| {
                let other = (at + index).saturating_sub(reach).min(count - 1);
                weight * from[start + other * step]
            });
            to[start + at * step] = parts.sum::<f64>() / sum;
        }
    };
    let mut across = light.to_vec();
    for y in 0..height {
        along(light, width, 1, y * width, &mut across);
    }
    let mut both = across.clone();
    for x in 0..width {
        along(&across, height, width, x, &mut both);
    }
    both
}
