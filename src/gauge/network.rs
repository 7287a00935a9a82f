//! What the small networks share that tell an edge, a groove and a hole.
//!
//! What adds many numbers asks for SIMD where it is built for WebAssembly, as `steel` does too:
//! compilers use it there only if they are told to.

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

/// Places that are weighed side by side: four instructions each add to four.
const BESIDE: usize = 16;

/// Values of so many clues for places in a row.
pub struct Table<const CLUES: usize> {
    /// As many places.
    count: usize,
    /// For some places side by side the values of each clue; at the end nothing.
    blocks: Vec<[[f32; BESIDE]; CLUES]>,
}

/// A mixture of clues: how much each counts, what is added, and how much it all counts.
pub type Mixture<'a, const CLUES: usize> = (&'a [f32; CLUES], f32, f32);

impl<const CLUES: usize> Table<CLUES> {
    /// The table of so many places by the clues of each.
    pub fn of(count: usize, mut clues: impl FnMut(usize) -> [f32; CLUES]) -> Self {
        let mut blocks = vec![[[0.0; BESIDE]; CLUES]; count.div_ceil(BESIDE)];
        let mut place = 0;
        for block in &mut blocks {
            for lane in 0..BESIDE.min(count - place) {
                for (row, value) in block.iter_mut().zip(clues(place)) {
                    if let Some(cell) = row.get_mut(lane) {
                        *cell = value;
                    }
                }
                place += 1;
            }
        }
        Self { count, blocks }
    }

    /// For each place the sum of its clues as `plain` weighs them, and of the bent mixtures.
    #[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
    pub fn scores<'a>(
        &self,
        plain: &[f32; CLUES],
        mixtures: impl Iterator<Item = Mixture<'a, CLUES>> + Clone,
    ) -> Vec<f32> {
        let blocks = self.blocks.iter().flat_map(|block| {
            let mut sums = mixed(block, plain, 0.0);
            for (mixture, offset, weight) in mixtures.clone() {
                for (sum, mixed) in sums.iter_mut().zip(mixed(block, mixture, offset)) {
                    *sum += weight * tanh(mixed);
                }
            }
            sums
        });
        blocks.take(self.count).collect()
    }
}

fn mixed<const CLUES: usize>(
    block: &[[f32; BESIDE]; CLUES],
    weights: &[f32; CLUES],
    offset: f32,
) -> [f32; BESIDE] {
    let mut sums = [offset; BESIDE];
    for (values, weight) in block.iter().zip(weights) {
        for (sum, value) in sums.iter_mut().zip(values) {
            *sum += weight * value;
        }
    }
    sums
}
