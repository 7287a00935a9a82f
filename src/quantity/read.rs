use thiserror::Error;

use super::Quantity;
use super::exact::Exact;
use super::unit::{Dimension, Unit};

/// Why a text is not the quantity that was asked for, and what would be.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ReadError {
    /// Nothing but spaces.
    #[error("nothing is written here; write a number such as 10.5 or 3/8")]
    Empty,
    /// Something that is no number.
    #[error("`{text}` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2")]
    NotANumber {
        /// The text as written.
        text: String,
    },
    /// A fraction over nothing.
    #[error("`{text}` divides by zero; write a fraction such as 3/8")]
    ZeroDenominator {
        /// The text as written.
        text: String,
    },
    /// A word that is no unit.
    #[error("`{unit}` is not a unit of {}; use {hint}", dimension.word())]
    UnknownUnit {
        /// The word as written.
        unit: String,
        /// What is measured here.
        dimension: Dimension,
        /// Units that would do.
        hint: &'static str,
    },
    /// A unit of something else.
    #[error("`{unit}` is a unit, but not of {}; use {hint}", dimension.word())]
    WrongDimension {
        /// The unit as written.
        unit: String,
        /// What is measured here.
        dimension: Dimension,
        /// Units that would do.
        hint: &'static str,
    },
    /// More digits than a shoe can need.
    #[error(
        "`{text}` is too large or has too many digits; use at most 9 before and 9 after the point"
    )]
    TooLarge {
        /// The text as written.
        text: String,
    },
    /// Limits the wrong way round.
    #[error("`{text}` runs backwards; write the smaller value first, as in 0.5..0.6")]
    Backwards {
        /// The text as written.
        text: String,
    },
}

const MOST_DIGITS: usize = 9;

/// Reads one exact number: `7`, `-7.25`, `7,25`, `3/8`, `1 1/2`, `1-1/2`, `1½`.
///
/// *Errors:* [`ReadError`]; at most nine digits stand before and nine after the
/// point.
pub fn read_exact(text: &str) -> Result<Exact, ReadError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ReadError::Empty);
    }
    Ok(read_number(text)?.value)
}

/// Reads an amount of `dimension` as a person writes it. A bare number takes
/// `bare_unit`; a fraction without a unit is inches where a length is read.
///
/// *Units:* exact base units. *Errors:* [`ReadError`].
pub fn read_quantity(
    text: &str,
    dimension: Dimension,
    bare_unit: Unit,
) -> Result<Quantity, ReadError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ReadError::Empty);
    }
    if dimension == Dimension::Duration {
        return read_duration(text, bare_unit);
    }
    let (number, symbol) = split_unit(text);
    let number = read_number(number).map_err(|fault| with_text(fault, text))?;
    let unit = match symbol {
        "" if number.is_fraction && dimension == Dimension::Length => Unit::Inch64,
        "" => bare_unit.or_usual(dimension),
        symbol => read_unit(symbol, dimension)?,
    };
    amount(number.value, unit, text)
}

/// Where a unit stands without a number, the whole text is no number.
fn with_text(fault: ReadError, whole: &str) -> ReadError {
    match fault {
        ReadError::NotANumber { text } if text.is_empty() => ReadError::NotANumber {
            text: whole.to_owned(),
        },
        fault => fault,
    }
}

/// The unit written at the end of `text`, if it is a known one.
pub(super) fn trailing_unit(text: &str) -> Option<Unit> {
    Unit::from_symbol(split_unit(text.trim()).1)
}

struct Number {
    value: Exact,
    is_fraction: bool,
}

fn amount(value: Exact, unit: Unit, text: &str) -> Result<Quantity, ReadError> {
    let base = value.times(unit.in_base());
    base.map(|base| Quantity::new(unit.dimension(), base))
        .ok_or_else(|| ReadError::TooLarge {
            text: text.to_owned(),
        })
}

fn read_unit(symbol: &str, dimension: Dimension) -> Result<Unit, ReadError> {
    let hint = units_hint(dimension);
    match Unit::from_symbol(symbol) {
        Some(unit) if unit.dimension() == dimension => Ok(unit),
        Some(_) => Err(ReadError::WrongDimension {
            unit: symbol.to_owned(),
            dimension,
            hint,
        }),
        None => Err(ReadError::UnknownUnit {
            unit: symbol.to_owned(),
            dimension,
            hint,
        }),
    }
}

fn units_hint(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "mm, cm or in",
        Dimension::Angle => "deg or °",
        Dimension::Mass => "g, kg, oz or lb",
        Dimension::Duration => "h, min or s",
        Dimension::Count => "a plain number without a unit",
    }
}

/// Splits `10.5 mm` into `10.5` and `mm`: the unit starts at the first
/// character that no number contains.
fn split_unit(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !is_number_char(c))
        .unwrap_or(text.len());
    let (number, unit) = text.split_at_checked(end).unwrap_or((text, ""));
    (number.trim(), unit.trim())
}

fn is_number_char(c: char) -> bool {
    c.is_ascii_digit()
        || matches!(
            c,
            '.' | ',' | '/' | '⁄' | '-' | '−' | '+' | ' ' | '\u{a0}' | '\u{202f}'
        )
        || vulgar_fraction(c).is_some()
}

fn vulgar_fraction(c: char) -> Option<(i128, i128)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

fn read_number(text: &str) -> Result<Number, ReadError> {
    let no_number = || ReadError::NotANumber {
        text: text.to_owned(),
    };
    let trimmed = text.trim();
    let (negative, body) = match trimmed.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest.trim_start()),
        None => (
            false,
            trimmed.strip_prefix('+').unwrap_or(trimmed).trim_start(),
        ),
    };
    let number = if let Some((glyph, fraction)) = body
        .chars()
        .next_back()
        .and_then(|c| Some((c, vulgar_fraction(c)?)))
    {
        let whole = body.strip_suffix(glyph).unwrap_or("").trim();
        read_mixed(whole, Exact::fraction(fraction.0, fraction.1), text)?
    } else if let Some((left, below)) = body.split_once(['/', '⁄']) {
        let (whole, above) = match left.trim().rsplit_once([' ', '-', '\u{a0}', '\u{202f}']) {
            Some((whole, above)) => (whole.trim().trim_end_matches('-').trim(), above),
            None => ("", left.trim()),
        };
        let above = read_digits(above, text)?;
        let below = read_digits(below.trim(), text)?;
        if below == 0 {
            return Err(ReadError::ZeroDenominator {
                text: text.to_owned(),
            });
        }
        read_mixed(whole, Exact::fraction(above, below), text)?
    } else {
        Number {
            value: read_decimal(body, text)?,
            is_fraction: false,
        }
    };
    if body.is_empty() {
        return Err(no_number());
    }
    let value = if negative {
        number.value.negated()
    } else {
        number.value
    };
    Ok(Number { value, ..number })
}

fn read_mixed(whole: &str, fraction: Option<Exact>, text: &str) -> Result<Number, ReadError> {
    let whole = if whole.is_empty() {
        0
    } else {
        read_digits(whole, text)?
    };
    let value = fraction
        .and_then(|fraction| Exact::whole(whole).plus(fraction))
        .ok_or_else(|| ReadError::TooLarge {
            text: text.to_owned(),
        })?;
    Ok(Number {
        value,
        is_fraction: true,
    })
}

fn read_decimal(body: &str, text: &str) -> Result<Exact, ReadError> {
    let (whole, decimals) = match body.split_once(['.', ',']) {
        Some(parts) => parts,
        None => (body, ""),
    };
    if whole.is_empty() && decimals.is_empty() {
        return Err(ReadError::NotANumber {
            text: text.to_owned(),
        });
    }
    let too_large = || ReadError::TooLarge {
        text: text.to_owned(),
    };
    let digits = |part: &str| {
        if part.is_empty() {
            Ok(0)
        } else {
            read_digits(part, text)
        }
    };
    let decimals = decimals.trim_end_matches('0');
    let (whole, below) = (digits(whole)?, digits(decimals)?);
    if decimals.len() > MOST_DIGITS {
        return Err(too_large());
    }
    let places = u32::try_from(decimals.len()).unwrap_or(u32::MAX);
    let scale = 10_i128.checked_pow(places);
    scale
        .and_then(|scale| Exact::whole(whole).plus(Exact::fraction(below, scale)?))
        .ok_or_else(too_large)
}

fn read_digits(part: &str, text: &str) -> Result<i128, ReadError> {
    if part.is_empty() || !part.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(ReadError::NotANumber {
            text: text.to_owned(),
        });
    }
    if part.trim_start_matches('0').len() > MOST_DIGITS {
        return Err(ReadError::TooLarge {
            text: text.to_owned(),
        });
    }
    part.parse().map_err(|_| ReadError::TooLarge {
        text: text.to_owned(),
    })
}

/// `35 min`, `1 h 40 min`, `1 h 40` (the last number takes the next smaller
/// unit), `90 s`, `12` (takes `bare_unit`). A sign in front counts for all parts.
fn read_duration(text: &str, bare_unit: Unit) -> Result<Quantity, ReadError> {
    let no_number = || ReadError::NotANumber {
        text: text.to_owned(),
    };
    let (is_negative, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    if unsigned.is_empty() {
        return Err(no_number());
    }
    let mut rest = unsigned;
    let mut total = Exact::ZERO;
    let mut next_bare = if bare_unit.dimension() == Dimension::Duration {
        bare_unit
    } else {
        Unit::Minute
    };
    while !rest.is_empty() {
        let unit_at = rest
            .find(|c: char| !is_number_char(c))
            .unwrap_or(rest.len());
        let (number, tail) = rest.split_at_checked(unit_at).unwrap_or((rest, ""));
        let symbol_end = tail.find(is_number_char).unwrap_or(tail.len());
        let (symbol, after) = tail.split_at_checked(symbol_end).unwrap_or((tail, ""));
        let unit = match symbol.trim() {
            "" => next_bare,
            symbol => read_unit(symbol, Dimension::Duration)?,
        };
        if number.trim_start().starts_with(['-', '−', '+']) {
            return Err(no_number());
        }
        let number = read_number(number).map_err(|fault| with_text(fault, text))?;
        let part = number.value.times(unit.in_base());
        total = part
            .and_then(|part| total.plus(part))
            .ok_or_else(|| ReadError::TooLarge {
                text: text.to_owned(),
            })?;
        next_bare = if unit == Unit::Hour {
            Unit::Minute
        } else {
            Unit::Second
        };
        rest = after.trim();
    }
    if is_negative {
        total = total.negated();
    }
    Ok(Quantity::new(Dimension::Duration, total))
}
