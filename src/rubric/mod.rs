//! A rubric file in, a checked rubric and a list of diagnostics out.

mod diagnostic;
mod expression;
mod model;

pub use diagnostic::{Diagnostic, Severity};
pub use expression::{Context, Expression, ExpressionError};
pub use model::*;
