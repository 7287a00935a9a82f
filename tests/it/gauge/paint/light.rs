use num_traits::AsPrimitive as _;
use rand_distr::{Distribution as _, Normal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;

/// Light as codes of 8 bits, alike in red, green and blue but for the noise.
///
/// *Source of the coding:* IEC 61966-2-1 (sRGB).
pub fn coded(light: &[f64], noise: f64, seed: u64) -> Vec<u8> {
    let mut draws = Xoshiro256PlusPlus::seed_from_u64(seed);
    let noise = Normal::new(0.0, noise).expect("a standard deviation");
    let mut pixels = Vec::with_capacity(3 * light.len());
    for &light in light {
        let share = if light <= 0.003_130_8 {
            12.92 * light
        } else {
            1.055 * light.powf(1.0 / 2.4) - 0.055
        };
        let codes = [(); 3].map(|()| 255.0 * share + noise.sample(&mut draws));
        let whole = |code: f64| -> u8 { code.round().clamp(0.0, 255.0).as_() };
        pixels.extend(codes.map(whole));
    }
    pixels
}
