//! Markings as rows of typed fields under named columns, for files: one row a criterion
//! ([`long_rows`]) or one a marking ([`wide_rows`]), under the columns that somebody has
//! chosen and named ([`in_columns`]).

mod long;
mod named;
mod wide;

use std::collections::BTreeMap;

use crate::quantity::{Exact, print_decimal, shortened};
use crate::records::{Day, Layout, Moment};

pub use long::long_rows;
pub(super) use long::{first_impression, handed, kind_word};
pub use named::{SameName, in_columns};
pub use wide::wide_rows;

/// One field of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Field {
    /// Text, as a person may have typed it; may be empty.
    Text(String),
    /// A number in digits, with a point before decimals.
    Number(String),
    /// A civil date.
    Day(Day),
    /// A moment with its local offset.
    Moment(Moment),
}

/// A field under the key of its column.
pub(super) type Named = (&'static str, Field);

impl Field {
    /// A text.
    pub(super) fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// Nothing.
    pub(super) fn empty() -> Self {
        Self::Text(String::new())
    }

    /// At most six decimals, halves away from zero.
    pub(super) fn decimal(value: Exact) -> Self {
        Self::Number(shortened(&print_decimal(value, DECIMALS)))
    }

    /// A float with at most six decimals.
    pub(super) fn measure(value: f64) -> Self {
        Self::Number(shortened(&format!("{value:.6}")))
    }

    /// A whole number.
    pub(super) fn whole(value: impl ToString) -> Self {
        Self::Number(value.to_string())
    }

    /// What it says, as text: dates as ISO 8601, moments as RFC 3339.
    pub fn words(&self) -> String {
        match self {
            Self::Text(text) | Self::Number(text) => text.clone(),
            Self::Day(day) => day.iso(),
            Self::Moment(moment) => moment.rfc3339(),
        }
    }
}

/// Decimals have so many places at most.
const DECIMALS: u32 = 6;

/// Whether `value` is a decimal of no more places than files hold.
pub(super) fn is_decimal(value: Exact) -> bool {
    let scale = 10_i128.pow(DECIMALS);
    let scaled = value.times(Exact::whole(scale));
    scaled.is_some_and(|scaled| scaled.denominator() == 1)
}

/// Named columns and rows of the same width.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Rows {
    /// Names of the columns.
    pub columns: Vec<String>,
    /// The rows, each as wide as the columns.
    pub rows: Vec<Vec<Field>>,
}

/// Rows of fields by key, under the usual columns of `layout`; a field that a row lacks is
/// empty.
fn rows_of(layout: Layout, rows: impl Iterator<Item = Vec<Named>>) -> Rows {
    let keys = layout.keys();
    let rows = rows.map(|row| {
        let mut fields: BTreeMap<&str, Field> = row.into_iter().collect();
        let row = keys.iter().map(|key| fields.remove(key));
        row.map(|field| field.unwrap_or_else(Field::empty))
            .collect()
    });
    Rows {
        rows: rows.collect(),
        columns: keys.iter().map(|key| (*key).to_owned()).collect(),
    }
}
