use num_traits::ToPrimitive as _;

use crate::quantity::{Exact, Mass};

/// What is left of 1 after so many heats that each take the share `loss`: (1 − s)ⁿ.
pub(in crate::plan) fn left(loss: f64, heats: u32) -> f64 {
    (1.0 - loss)
        .max(0.0)
        .powi(heats.to_i32().unwrap_or(i32::MAX))
}

/// What is left of a mass after heats that each take a share of what there is as scale:
/// mₙ = m₀ (1 − s)ⁿ. `None` for a share below 0 or over 1.
pub fn left_of(mass: Mass, loss: Exact, heats: u32) -> Option<Mass> {
    let is_share = !loss.is_negative() && loss <= Exact::ONE;
    let after = mass.base().to_f64()? * left(loss.to_f64(), heats);
    let after = after.round().to_i64().map(Mass::from_base);
    after.filter(|_| is_share)
}
