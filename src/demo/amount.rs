//! Shares and sums of exact amounts that the demo keeps small enough never to
//! overflow; where one would, the first amount stands.

use crate::quantity::{Dimension, Exact, Quantity, Unit, print_decimal, shortened};

/// So many thousandths of `of`.
pub(super) fn share(of: Exact, per_mille: i64) -> Exact {
    let factor = Exact::fraction(per_mille.into(), 1000);
    factor.and_then(|factor| of.times(factor)).unwrap_or(of)
}

pub(super) fn add(a: Exact, b: Exact) -> Exact {
    a.plus(b).unwrap_or(a)
}

pub(super) fn less(a: Exact, b: Exact) -> Exact {
    a.minus(b).unwrap_or(a)
}

pub(super) fn round(value: Exact, step: Exact) -> Exact {
    value.rounded_to(step).unwrap_or(value)
}

/// The least change that shows: one thing, or one usual unit.
pub(super) fn grain(dimension: Dimension) -> Exact {
    dimension.usual_unit().in_base()
}

/// `base` in decimals without rounding, with its unit.
pub(super) fn exact_text(dimension: Dimension, base: Exact) -> String {
    let unit = match dimension {
        Dimension::Duration => Unit::Second,
        other => other.usual_unit(),
    };
    let number = base.over(unit.in_base()).unwrap_or(base);
    format!("{} {}", shortened(&print_decimal(number, 6)), unit.symbol())
        .trim()
        .to_owned()
}

/// The next step of 1, 2 or 5 times a power of ten that is not finer than `size`, of
/// base units; 1 for nothing.
pub(super) fn handy_step(size: Exact) -> Exact {
    let mut power = 1_i128;
    // Far beyond what any instrument of a forge is off by.
    while power < 1_000_000_000_000 {
        for factor in [1, 2, 5] {
            let step = Exact::whole(factor * power);
            if step >= size {
                return step;
            }
        }
        power *= 10;
    }
    Exact::whole(power)
}

/// A duration in whole minutes as people write it.
pub(super) fn minutes_text(duration: Quantity) -> String {
    let minutes = duration.base.over(Unit::Minute.in_base());
    let minutes = minutes.map_or(0, |minutes| round(minutes, Exact::ONE).numerator());
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}
