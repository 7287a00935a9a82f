//! What steel weighs.

use super::sizes::from_exact;
use crate::quantity::{Exact, Length, Mass};

/// Density of mild steel in kg/m³: EN 1991-1-1, annex A has 77 to 78.5 kN/m³, and 7850 kg/m³ is
/// what section tables take (from memory).
pub const DENSITY: i64 = 7_850;

/// Mass of a volume of steel in cubic nanometres.
fn mass_of(cubic_nanometres: Exact) -> Option<Mass> {
    // A cubic nanometre is 1e-27 m³; a kilogram is 1e9 micrograms.
    let micrograms = Exact::fraction(DENSITY.into(), 1_000_000_000_000_000_000)?;
    let mass = cubic_nanometres.times(micrograms)?.rounded_to(Exact::ONE)?;
    i64::try_from(mass.numerator()).ok().map(Mass::from_base)
}

/// Mass of a rectangular bar, at [`DENSITY`]. `None` for what no mass holds.
pub fn bar_mass(length: Length, width: Length, thickness: Length) -> Option<Mass> {
    let of = |length: Length| length.quantity().base;
    mass_of(of(length).times(of(width))?.times(of(thickness))?)
}

/// Mass of a volume in mm³, at [`DENSITY`]. `None` for what no mass holds.
pub(super) fn volume_mass(cubic_mm: f64) -> Option<Mass> {
    use num_traits::ToPrimitive as _;
    // 7850 kg/m³ is 7850 micrograms in a mm³.
    let density = DENSITY.to_f64()?;
    (cubic_mm * density).round().to_i64().map(Mass::from_base)
}

/// Mass of a rectangular bar by the handbook rule: 3.4 lb for each foot of a bar of one square
/// inch.
///
/// *Source:* the rule of section tables, lb/ft = 3.4 W T with W and T in inches; it is 0.09 %
/// less than [`bar_mass`]. `None` for what no mass holds.
pub fn bar_mass_by_handbook(length: Length, width: Length, thickness: Length) -> Option<Mass> {
    let inches = |length: Length| length.quantity().base.over(Exact::whole(25_400_000));
    let feet = inches(length)?.over(Exact::whole(12))?;
    let square_inches = inches(width)?.times(inches(thickness)?)?;
    let pounds = feet.times(square_inches)?.times(Exact::fraction(34, 10)?)?;
    // 453.59237 g exactly.
    let mass = pounds.times(Exact::whole(453_592_370))?;
    let mass = mass.rounded_to(Exact::ONE)?.numerator();
    i64::try_from(mass).ok().map(Mass::from_base)
}

/// How thick a bar is on the mean once it is bumped from one length to another, its width kept:
/// its volume stays. `None` where a length is nothing or less.
pub fn bumped_thickness(thickness: Length, from: Length, to: Length) -> Option<Length> {
    let of = |length: Length| length.quantity().base;
    let is_there = from.base() > 0 && to.base() > 0;
    let thicker = of(thickness).times(of(from))?.over(of(to))?;
    from_exact(thicker).filter(|_| is_there)
}
