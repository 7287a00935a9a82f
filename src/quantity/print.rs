use super::Quantity;
use super::exact::Exact;
use super::unit::{Dimension, Unit};

/// `value` to `decimals` places, ties away from zero; trailing zeros stay.
pub fn print_decimal(value: Exact, decimals: u32) -> String {
    let scale = scale(decimals);
    let Some(steps) = steps(value, decimals) else {
        return value.to_string();
    };
    let size = steps.unsigned_abs();
    let sign = if steps < 0 { "-" } else { "" };
    let scale = scale.unsigned_abs();
    if decimals == 0 {
        return format!("{sign}{size}");
    }
    let width = usize::try_from(decimals.min(18)).unwrap_or(0);
    format!("{sign}{}.{:0width$}", size / scale, size % scale)
}

fn scale(decimals: u32) -> i128 {
    10_i128.checked_pow(decimals.min(18)).unwrap_or(1)
}

/// `value` in steps of the last of so many places, ties away from zero; `None` on overflow.
fn steps(value: Exact, decimals: u32) -> Option<i128> {
    let scaled = value.times(Exact::whole(scale(decimals)))?;
    Some(scaled.rounded_to(Exact::ONE)?.numerator())
}

/// A length in inches to the nearest `1/denominator`, fraction reduced:
/// `5 3/16 in`, `1/4 in`, `2 in`.
pub fn print_length_fraction(length: Quantity, denominator: i128) -> String {
    let inches = length.base.over(Unit::Inch64.in_base());
    let rounded = Exact::fraction(1, denominator)
        .and_then(|step| inches.and_then(|value| value.rounded_to(step)));
    let Some(rounded) = rounded else {
        return length.base.to_string();
    };
    format!("{} in", print_mixed(rounded))
}

/// Whole and fraction: `-6 2/3`, `1/4`, `2`.
pub(super) fn print_mixed(value: Exact) -> String {
    let sign = if value.is_negative() { "-" } else { "" };
    let size = value.size();
    let whole = size.floor();
    let rest = size.minus(Exact::whole(whole)).unwrap_or(Exact::ZERO);
    match (whole, rest.is_zero()) {
        (_, true) => format!("{sign}{whole}"),
        (0, false) => format!("{sign}{rest}"),
        (_, false) => format!("{sign}{whole} {rest}"),
    }
}

pub(super) fn print_quantity(quantity: Quantity, unit: Unit) -> String {
    print_quantity_to(quantity, unit, unit.decimals())
}

pub(super) fn print_quantity_to(quantity: Quantity, unit: Unit, decimals: u32) -> String {
    let unit = unit.or_usual(quantity.dimension);
    match (quantity.dimension, unit) {
        (Dimension::Length, Unit::Inch32) => print_length_fraction(quantity, 32),
        (Dimension::Length, Unit::Inch64) => print_length_fraction(quantity, 64),
        (Dimension::Duration, _) => print_duration(quantity),
        _ => {
            let value = quantity.base.over(unit.in_base()).unwrap_or(Exact::ZERO);
            let number = if unit == Unit::One {
                print_short(value, 2)
            } else {
                print_decimal(value, decimals)
            };
            join_symbol(&number, unit)
        }
    }
}

/// A limit or target as short as it can be said: at most two places, trailing zeros
/// left out; in inches only where a 64th says it exactly, or else in millimetres.
pub(super) fn print_limit(quantity: Quantity, unit: Unit) -> String {
    let unit = unit.or_usual(quantity.dimension);
    if !unit.is_inch() {
        return shortened(&print_quantity_to(quantity, unit, 2));
    }
    let in_64ths = quantity
        .base
        .over(unit.in_base())
        .and_then(|inches| inches.times(Exact::whole(64)));
    if in_64ths.is_some_and(|count| count.denominator() == 1) {
        print_length_fraction(quantity, 64)
    } else {
        shortened(&print_quantity_to(quantity, Unit::Millimetre, 2))
    }
}

/// Every decimal that the value has in `unit`, up to nine: for files.
pub(super) fn print_exact_unit(quantity: Quantity, unit: Unit) -> String {
    let value = quantity.base.over(unit.in_base()).unwrap_or(Exact::ZERO);
    let terminates = value
        .times(Exact::whole(1_000_000_000))
        .is_some_and(|scaled| scaled.denominator() == 1);
    let number = if terminates {
        print_short(value, 9)
    } else {
        print_mixed(value)
    };
    join_symbol(&number, unit)
}

/// Places at which `value` no longer prints like a limit that it differs from,
/// at least `least` and at most `least + 5` (a nanometre, in millimetres), so that a reason never reads
/// "1.5 mm, over 1.5 mm". Values are in the printed unit.
pub fn decimals_that_tell_apart(value: Exact, limits: &[Exact], least: u32) -> u32 {
    // What lies a step or more away rounds elsewhere: most limits do, and are not rounded.
    let clash = |places: u32| {
        let step = Exact::fraction(1, scale(places)).unwrap_or(Exact::ONE);
        let mut near = limits
            .iter()
            .filter(|limit| **limit != value && is_nearer(**limit, value, step))
            .peekable();
        let printed = near.peek().map(|_| steps(value, places));
        near.any(|limit| Some(steps(*limit, places)) == printed)
    };
    (least..least + 5)
        .find(|places| !clash(*places))
        .unwrap_or(least + 5)
}

/// Whether two values lie less than `distance` apart; so it is assumed where that passes what
/// can be held.
pub fn is_nearer(one: Exact, other: Exact, distance: Exact) -> bool {
    one.minus(other).is_none_or(|apart| apart.size() < distance)
}

fn print_short(value: Exact, most: u32) -> String {
    shortened(&print_decimal(value, most))
}

/// Decimal places at which a value from 0 on shows two significant digits: none from 10 on,
/// nine at most.
pub fn two_digit_places(value: f64) -> usize {
    let places = (0_usize..9).find(|places| {
        let least = (0..*places).fold(10.0, |least, _| least / 10.0);
        value >= least
    });
    places.unwrap_or(9)
}

/// Takes zeros away that end the decimals: "1.50 mm" is "1.5 mm", "2.0" is "2".
pub fn shortened(text: &str) -> String {
    let (number, symbol) = text.split_at(text.find(' ').unwrap_or(text.len()));
    if number.contains('.') {
        let number = number.trim_end_matches('0').trim_end_matches('.');
        format!("{number}{symbol}")
    } else {
        text.to_owned()
    }
}

fn join_symbol(number: &str, unit: Unit) -> String {
    match unit.symbol() {
        "" => number.to_owned(),
        symbol => format!("{number} {symbol}"),
    }
}

fn print_duration(quantity: Quantity) -> String {
    let sign = if quantity.base.is_negative() { "-" } else { "" };
    let in_seconds = quantity.base.size().over(Unit::Second.in_base());
    let milli = in_seconds
        .and_then(|value| value.times(Exact::whole(1_000))?.rounded_to(Exact::ONE))
        .map_or(0, Exact::numerator);
    let seconds = Exact::fraction(milli % 60_000, 1_000).unwrap_or(Exact::ZERO);
    let parts = [
        ((milli / 3_600_000).to_string(), "h"),
        ((milli / 60_000 % 60).to_string(), "min"),
        (print_short(seconds, 3), "s"),
    ];
    let words: Vec<String> = parts
        .iter()
        .filter(|(number, _)| number != "0")
        .map(|(number, unit)| format!("{number} {unit}"))
        .collect();
    if words.is_empty() {
        "0 min".to_owned()
    } else {
        format!("{sign}{}", words.join(" "))
    }
}

/// `1 piece`, `2 pieces`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A figure that is no mark and no size to so many places, with a minus sign and never as a
/// minus nothing: `\u{2212}0.30`, `0.0`.
pub fn print_figure(value: f64, places: usize) -> String {
    let size = format!("{:.places$}", value.abs());
    if value < 0.0 && is_something(&size) {
        format!("\u{2212}{size}")
    } else {
        size
    }
}

/// The same with a plus sign too.
pub fn print_signed(value: f64, places: usize) -> String {
    let said = print_figure(value, places);
    if value > 0.0 && is_something(&said) {
        format!("+{said}")
    } else {
        said
    }
}

fn is_something(digits: &str) -> bool {
    digits.contains(|sign| ('1'..='9').contains(&sign))
}
