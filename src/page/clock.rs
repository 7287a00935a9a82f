//! The outside's clock and chance; they enter commands and nothing else.

use js_sys::Date;

use crate::records::{Day, Moment};

/// This moment with the local offset.
pub(crate) fn now() -> Moment {
    let date = Date::new_0();
    let offset = whole(-date.get_timezone_offset());
    Moment::new(whole(date.get_time()), i16::try_from(offset).unwrap_or(0))
}

/// Milliseconds since 1970 UTC.
pub(super) fn now_ms() -> u64 {
    u64::try_from(now().utc_ms()).unwrap_or(0)
}

/// The local day.
pub(crate) fn today() -> Day {
    now().day()
}

/// Bytes that nobody can guess; `None` where the browser gives none.
pub(crate) fn random<const N: usize>() -> Option<[u8; N]> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).ok()?;
    Some(bytes)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a whole number of milliseconds or minutes; `as` cuts what passes the range"
)]
fn whole(number: f64) -> i64 {
    number as i64
}
