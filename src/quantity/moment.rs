use std::fmt;
use std::str::FromStr;

use chrono::{
    DateTime, Datelike as _, FixedOffset, NaiveDate, SecondsFormat, TimeDelta, Timelike as _,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use thiserror::Error;

/// A text that is no date or time.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TimeError {
    /// Not a moment.
    #[error("`{text}` is not a moment; write it like 2026-11-25T10:42:00.000+00:00")]
    Moment {
        /// The text as written.
        text: String,
    },
    /// Not a day.
    #[error("`{text}` is not a day; write it like 2026-11-25")]
    Day {
        /// The text as written.
        text: String,
    },
}

/// A moment in UTC milliseconds with the local offset in minutes kept.
///
/// *What is guaranteed:* it lies in the years 1 to 9999. *Print:*
/// `25 Nov 2026 10:42`, local time. *Serde:* RFC 3339 text with milliseconds.
/// *Compare:* by instant, then offset.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    utc_ms: i64,
    offset_min: i16,
}

/// First and last millisecond of the years 1 and 9999, less a day for offsets.
const FIRST_MS: i64 = -62_135_510_400_000;
const LAST_MS: i64 = 253_402_214_399_999;
const MOST_OFFSET_MIN: i16 = 23 * 60 + 59;

impl Moment {
    /// `utc_ms` milliseconds since 1970 UTC where local clocks are `offset_min`
    /// minutes ahead of UTC; what passes the guaranteed range is cut to it.
    pub fn new(utc_ms: i64, offset_min: i16) -> Self {
        Self {
            utc_ms: utc_ms.clamp(FIRST_MS, LAST_MS),
            offset_min: offset_min.clamp(-MOST_OFFSET_MIN, MOST_OFFSET_MIN),
        }
    }

    /// Milliseconds since 1970 UTC.
    pub fn utc_ms(self) -> i64 {
        self.utc_ms
    }

    /// Minutes by which local clocks were ahead of UTC.
    pub fn offset_min(self) -> i16 {
        self.offset_min
    }

    /// The civil day there and then.
    pub fn day(self) -> Day {
        Day(self.local().date_naive())
    }

    /// The time of day there and then: `10:42`.
    pub fn clock(self) -> String {
        self.local().format("%H:%M").to_string()
    }

    /// Hours, minutes and seconds of the clock there and then.
    pub fn time_of_day(self) -> (u16, u8, f64) {
        let time = self.local().time();
        let hour = u16::try_from(time.hour()).unwrap_or_default();
        let minute = u8::try_from(time.minute()).unwrap_or_default();
        let milli = time.second() * 1_000 + time.nanosecond() / 1_000_000;
        (hour, minute, f64::from(milli) / 1_000.0)
    }

    /// RFC 3339 text with milliseconds and offset.
    pub fn rfc3339(self) -> String {
        self.local().to_rfc3339_opts(SecondsFormat::Millis, false)
    }

    fn local(self) -> DateTime<FixedOffset> {
        let utc = DateTime::UNIX_EPOCH + TimeDelta::milliseconds(self.utc_ms);
        let offset = FixedOffset::east_opt(i32::from(self.offset_min) * 60);
        offset.map_or_else(|| utc.fixed_offset(), |offset| utc.with_timezone(&offset))
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.local().format("%-d %b %Y %H:%M").fmt(f)
    }
}

impl FromStr for Moment {
    type Err = TimeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let refused = || TimeError::Moment {
            text: text.to_owned(),
        };
        let local = DateTime::parse_from_rfc3339(text).map_err(|_| refused())?;
        let offset_s = local.offset().local_minus_utc();
        let offset_min = i16::try_from(offset_s / 60).map_err(|_| refused())?;
        let moment = Self::new(local.timestamp_millis(), offset_min);
        // Cutting a recorded time to the range would change it silently.
        let kept = moment.utc_ms == local.timestamp_millis()
            && i32::from(moment.offset_min) * 60 == offset_s;
        kept.then_some(moment).ok_or_else(refused)
    }
}

/// A civil date.
///
/// *Print:* `25 Nov 2026`. *Serde:* `2026-11-25`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(NaiveDate);

impl Day {
    /// The day, where the calendar has it and the year is 1 to 9999.
    pub fn new(year: i32, month: u32, day: u32) -> Option<Self> {
        let date = NaiveDate::from_ymd_opt(year, month, day)?;
        (1..=9999).contains(&year).then_some(Self(date))
    }

    /// `2026-11-25`, as files and date fields hold it.
    pub fn iso(self) -> String {
        self.0.format("%Y-%m-%d").to_string()
    }

    /// The year.
    pub fn year(self) -> i32 {
        self.0.year()
    }

    /// The day of the week: `Wednesday`.
    pub fn weekday(self) -> String {
        self.0.format("%A").to_string()
    }

    /// The date as a calendar library holds it.
    pub fn date(self) -> NaiveDate {
        self.0
    }

    /// Whole months from `earlier` to this day; less than none where it lies before.
    pub fn months_since(self, earlier: Self) -> i32 {
        let months = |day: NaiveDate| {
            let in_year = i32::try_from(day.month0()).unwrap_or(0);
            day.year() * 12 + in_year
        };
        let begun = i32::from(self.0.day() < earlier.0.day());
        months(self.0) - months(earlier.0) - begun
    }

    /// Days from `earlier` to this day.
    pub fn days_since(self, earlier: Self) -> i64 {
        self.0.signed_duration_since(earlier.0).num_days()
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.format("%-d %b %Y").fmt(f)
    }
}

impl FromStr for Day {
    type Err = TimeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let mut parts = text.trim().splitn(3, '-');
        let mut number = |digits: usize| {
            let part = parts.next()?;
            let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| part.parse::<u32>().ok()).flatten()
        };
        let day = (|| {
            let year = i32::try_from(number(4)?).ok()?;
            Self::new(year, number(2)?, number(2)?)
        })();
        day.ok_or_else(|| TimeError::Day {
            text: text.to_owned(),
        })
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.rfc3339())
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?
            .parse()
            .map_err(de::Error::custom)
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.iso())
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?
            .parse()
            .map_err(de::Error::custom)
    }
}
