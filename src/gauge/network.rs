//! What the small networks share that tell an edge, a groove and a hole.

/// Sums side by side, which one instruction can add to.
const LANES: usize = 8;
/// Where the continued fraction of [`tanh`] reaches 1.
const FLAT: f32 = 4.97;

/// The sum of products of weights and values.
pub fn dot<T: Copy + Into<f32>>(weights: &[T], values: &[f32]) -> f32 {
    let (weights, values) = (weights.chunks(LANES), values.chunks(LANES));
    let mut sums = [0.0_f32; LANES];
    for (weights, values) in weights.zip(values) {
        for (sum, (weight, value)) in sums.iter_mut().zip(weights.iter().zip(values)) {
            *sum += (*weight).into() * value;
        }
    }
    sums.iter().sum()
}

/// The hyperbolic tangent to 1e-4, in steps that every machine takes alike.
///
/// *Source:* J. H. Lambert's continued fraction, cut off after the seventh term (1768, from
/// memory); beyond [`FLAT`] it is 1.
pub fn tanh(x: f32) -> f32 {
    let x = x.clamp(-FLAT, FLAT);
    let square = x * x;
    let above = x * (135_135.0 + square * (17_325.0 + square * (378.0 + square)));
    let below = 135_135.0 + square * (62_370.0 + square * (3_150.0 + square * 28.0));
    above / below
}
