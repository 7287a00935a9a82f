//! How far from what is asked for a hand lands.

use super::amount::{add, grain, less, round, share};
use crate::marking::Bands;
use crate::quantity::{Dimension, Exact};

/// How far off a learner without any skill works, in thousandths of the best band's
/// half width, as a standard deviation; and what each thousandth of skill takes off.
const WIDEST: i64 = 2900;
const SKILL_TAKES: (i64, i64) = (23, 10);
/// Nobody hands in worse than so many standard deviations, in thousandths.
pub(super) const FARTHEST: i64 = 2500;

/// How far off somebody with this skill works.
pub(super) fn spread(skill: i64) -> i64 {
    let (times, over) = SKILL_TAKES;
    (WIDEST - skill * times / over).max(250)
}

/// The value that is `off` thousandths of the way from the middle of the best band to
/// its limit.
pub(super) fn place(bands: &Bands, off: i64, dimension: Dimension) -> Exact {
    let best = bands.bands.first().map(|band| band.reach);
    let ends = best.map_or((None, None), |best| (best.low, best.high));
    let size = off.abs();
    match ends {
        (Some(low), Some(high)) => {
            let middle = share(add(low, high), 500);
            let middle = bands
                .target
                .filter(|target| best.is_some_and(|b| b.holds(*target)))
                .unwrap_or(middle);
            let (way, off) = if off < 0 {
                (less(middle, low), off)
            } else {
                (less(high, middle), off)
            };
            if way.is_zero() {
                // Nothing but the target is right: off by whole things, if at all.
                let things = Exact::whole((off / 1800).into());
                return add(middle, grain(dimension).times(things).unwrap_or(middle));
            }
            add(middle, share(way, off))
        }
        // A gap is best closed, a size is made to its limit.
        (None, Some(high)) if is_size(dimension, high) => share(high, 900 + off / 10),
        (None, Some(high)) => share(high, 250 + size * 3 / 4),
        (Some(low), None) => share(low, (1300 - size * 3 / 10).max(100)),
        (None, None) => bands.target.unwrap_or(Exact::ZERO),
    }
}

/// A length above a centimetre is a size; below, it is what should not be there.
fn is_size(dimension: Dimension, limit: Exact) -> bool {
    dimension == Dimension::Length && limit > Exact::whole(10_000_000)
}

/// Whole base units, whole things, and no size below zero.
pub(super) fn tidy(dimension: Dimension, value: Exact) -> Exact {
    let value = round(value, Exact::ONE);
    if dimension == Dimension::Angle {
        value
    } else {
        value.size()
    }
}
