//! The columns of tables that leave the program, under the names that a college uses.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::stamp::Stamp;
use crate::rubric::is_id;

/// The key of the columns of all criteria in a wide table; one alone has this, a point and
/// the id of its line on the mark sheet.
pub const MARKS: &str = "marks";

/// What stands for the criterion's id in the name of all criteria's columns.
pub const ANY: char = '*';

/// So many characters are in a name at most.
const LONGEST: usize = 120;

/// How the marks of markings stand in a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Layout {
    /// A row for each criterion.
    Long,
    /// A row for each marking.
    Wide,
}

/// What is true of a whole marking.
macro_rules! with_whole {
    ($($own:literal),* $(,)?) => {
        &[
            "piece_id", "marking_id", "learner", "ticket", "sitting", "date", "attempt", "ended",
            "examiner", "role", "rubric_id", "rubric_version", "rubric_digest", "sealed_at",
            "marking_digest", "award", "total", "total_out_of", "pass_mark", "overall_comment",
            "award_reason", "first_impression", $($own,)* "released", "feedback",
        ]
    };
}

impl Layout {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Long, Self::Wide];

    /// The layout as files and keys write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::Wide => "wide",
        }
    }

    /// The layout that files write so.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|layout| layout.word() == word)
    }

    /// The keys of its columns in their usual order; in a wide table [`MARKS`] stands for
    /// those of all criteria.
    pub fn keys(self) -> &'static [&'static str] {
        match self {
            Self::Long => with_whole!(
                "section_id",
                "section",
                "criterion_id",
                "criterion",
                "shoe",
                "kind",
                "reading",
                "unit",
                "value",
                "value_unit",
                "standard_uncertainty",
                "state",
                "marks_numerator",
                "marks_denominator",
                "marks",
                "out_of",
                "reason",
                "faults",
                "comment",
            ),
            Self::Wide => with_whole!("marks"),
        }
    }

    /// The usual columns, each called by its key.
    pub fn usual(self) -> Vec<NamedColumn> {
        let keys = self.keys().iter();
        let named = keys.map(|key| NamedColumn {
            key: (*key).to_owned(),
            name: if self == Self::Wide && *key == MARKS {
                format!("{MARKS}.{ANY}")
            } else {
                (*key).to_owned()
            },
        });
        named.collect()
    }

    /// Whether a column can have this key.
    fn has(self, key: &str) -> bool {
        let entry = key.strip_prefix(MARKS).and_then(|id| id.strip_prefix('.'));
        self.keys().contains(&key)
            || self == Self::Wide && entry.is_some_and(|id| id.split('.').all(is_id))
    }
}

/// A column with what it is called.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NamedColumn {
    /// What stands in it, one of [`Layout::keys`].
    pub key: String,
    /// Its heading.
    pub name: String,
}

/// The head of tables of one layout as a college wants it.
///
/// Its id is the layout, so a ledger has one of each at most.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TableHead {
    /// Which layout they are for.
    #[serde(rename = "id")]
    pub layout: Layout,
    /// Last written.
    pub stamp: Stamp,
    /// The columns in their order; none stand for the usual ones.
    pub columns: Vec<NamedColumn>,
}

/// What stands against columns.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ColumnFault {
    /// No column has this key.
    #[error("`{key}` is no column of this table; take a key from the list of those left out")]
    Unknown {
        /// The key as written.
        key: String,
    },
    /// A key that stands there twice.
    #[error("`{key}` stands here twice; take one of the two lines out")]
    TwiceKey {
        /// The key.
        key: String,
    },
    /// A name that two columns have.
    #[error("`{name}` is the name of {first} and of {second}; give one of them another name")]
    TwiceName {
        /// The name.
        name: String,
        /// The key of the first.
        first: String,
        /// The key of the second.
        second: String,
    },
    /// A column without a name.
    #[error("`{key}` has no name; write one behind the =, or take the line out")]
    NoName {
        /// The key.
        key: String,
    },
    /// A name that no head of a table can be.
    #[error(
        "the name of `{key}` has a line end, another sign that is not seen, or more than \
         {LONGEST} characters; write a short name"
    )]
    Unfit {
        /// The key.
        key: String,
    },
    /// The columns of all criteria under one name.
    #[error(
        "the name of `{MARKS}` needs one {ANY}, where the id of each criterion goes; write for \
         example {MARKS} = Mark {ANY}"
    )]
    NoPlace,
}

/// What stands against `columns` of `layout`, each with the place of its line from 0; none
/// where they can be kept. Names are compared without regard to capitals, as many readers of
/// tables do.
pub fn column_faults(layout: Layout, columns: &[NamedColumn]) -> Vec<(usize, ColumnFault)> {
    let mut faults = Vec::new();
    let mut keys: BTreeMap<&str, usize> = BTreeMap::new();
    let mut names: BTreeMap<String, &str> = BTreeMap::new();
    for (at, NamedColumn { key, name }) in columns.iter().enumerate() {
        let own = key.clone();
        if !layout.has(key) {
            faults.push((at, ColumnFault::Unknown { key: own }));
            continue;
        }
        if keys.insert(key, at).is_some() {
            faults.push((at, ColumnFault::TwiceKey { key: own }));
            continue;
        }
        if let Some(fault) = name_fault(layout, key, name) {
            faults.push((at, fault));
        } else if let Some(first) = names.insert(name.to_lowercase(), key) {
            let fault = ColumnFault::TwiceName {
                name: name.clone(),
                first: first.to_owned(),
                second: own,
            };
            faults.push((at, fault));
        }
    }
    faults
}

fn name_fault(layout: Layout, key: &str, name: &str) -> Option<ColumnFault> {
    let own = key.to_owned();
    if name.trim().is_empty() {
        return Some(ColumnFault::NoName { key: own });
    }
    if name.chars().any(char::is_control) || name.chars().count() > LONGEST || name.trim() != name {
        return Some(ColumnFault::Unfit { key: own });
    }
    let is_for_all = layout == Layout::Wide && key == MARKS;
    (is_for_all && name.matches(ANY).count() != 1).then_some(ColumnFault::NoPlace)
}
