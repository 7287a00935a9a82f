use serde::{Deserialize, Serialize};

use crate::quantity::Day;

/// Days of sittings, both ends in it; an open end reaches as far as there are records.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Span {
    /// The first day.
    pub from: Option<Day>,
    /// The last one.
    pub to: Option<Day>,
}

impl Span {
    /// Whether a day lies in it.
    pub fn holds(self, day: Day) -> bool {
        self.from.is_none_or(|from| day >= from) && self.to.is_none_or(|to| day <= to)
    }
}
