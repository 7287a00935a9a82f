//! A rubric file in, a checked rubric and a list of diagnostics out.
//!
//! *What:* `rubrics/README.md` describes the file; [`read_rubric`] reads it and
//! reports everything wrong at once. *Invariant:* a [`Rubric`] that comes out
//! has unique ids, names only what exists, and can be added up exactly.

mod diagnostic;
pub mod edit;
mod entries;
mod expression;
mod model;
mod read;
mod shipped;
mod totals;

pub use diagnostic::{Diagnostic, Severity};
pub use entries::{Entry, Slot};
pub use expression::{Context, Expression, ExpressionError};
pub use model::*;
pub use read::{Checked, ID_RULE, is_id, read_rubric};
pub use shipped::{Shipped, is_shipped, shipped};
pub use totals::SectionTotals;
