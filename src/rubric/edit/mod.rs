//! Changes to a rubric's text that leave everything else in it as it is: comments,
//! order, spacing, the way numbers are written.
//!
//! A [`Path`] names a place in the file, an [`Outline`] says what stands there, and
//! [`change`] writes one [`Edit`] into the text. None of them knows what a rubric is:
//! whether the text still is one, [`read_rubric`](super::read_rubric) says.

mod compare;
mod list;
mod outline;
mod path;
mod walk;
mod write;

use thiserror::Error;
use toml_edit::DocumentMut;

pub use compare::{Difference, compare};
pub use outline::Outline;
pub use path::{Path, Step};

/// One change to a rubric's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Writes a value; adds the key where its table has none yet.
    Set {
        /// The key.
        at: Path,
        /// What stands there from now on.
        to: Written,
    },
    /// Takes a key out, or one item of a list.
    Remove {
        /// The key or item.
        at: Path,
    },
    /// Puts an item into a list of tables; makes the list where there is none.
    Insert {
        /// The item from now on.
        at: Path,
        /// Its keys in order.
        item: Vec<(&'static str, Written)>,
    },
    /// Makes a table where there is none, behind all others.
    Begin {
        /// Where it stands from now on: at the root.
        at: Path,
        /// Its keys in order.
        keys: Vec<(&'static str, Written)>,
    },
    /// Moves an item of a list, with all that is in it.
    Move {
        /// The item.
        at: Path,
        /// Its place from now on.
        to: usize,
    },
}

/// A value as it is to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Written {
    /// A text in quotes.
    Text(String),
    /// A number where it is one, digit for digit; else a text in quotes, as in
    /// `"1.5 mm"` and `"20/3"`.
    Amount(String),
    /// True or false.
    Flag(bool),
}

/// Why a change cannot be made; the text stays as it is.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum EditError {
    /// The text is not TOML.
    #[error("the text cannot be read as TOML: {why}; mend it as text first")]
    NotToml {
        /// What the reader says.
        why: String,
    },
    /// What the change is about is not in the text.
    #[error("there is no `{at}` in the text; it was changed meanwhile, so look again")]
    Missing {
        /// What was looked for.
        at: Path,
    },
}

/// `text` with one change in it.
///
/// *Errors:* [`EditError`]; no text and no path panics.
pub fn change(text: &str, edit: &Edit) -> Result<String, EditError> {
    let mut document: DocumentMut =
        text.parse()
            .map_err(|fault: toml_edit::TomlError| EditError::NotToml {
                why: fault.message().to_owned(),
            })?;
    let (path, done) = match edit {
        Edit::Set { at, to } => (at, write::set(&mut document, at, to)),
        Edit::Remove { at } => (at, list::remove(&mut document, at)),
        Edit::Insert { at, item } => (at, list::insert(&mut document, at, item)),
        Edit::Begin { at, keys } => (at, write::begin(&mut document, at, keys)),
        Edit::Move { at, to } => (at, list::relocate(&mut document, at, *to)),
    };
    match done {
        Some(()) => Ok(document.to_string()),
        None => Err(EditError::Missing { at: path.clone() }),
    }
}
