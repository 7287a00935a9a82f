use std::fmt;
use std::ops::Range;

/// How much a diagnostic weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The rubric cannot be used.
    Error,
    /// The rubric can be used, but a person should look.
    Warning,
}

/// Where in the text, what is wrong there and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// Error or warning.
    pub severity: Severity,
    /// Line, counted from 1.
    pub line: usize,
    /// Column in characters, counted from 1.
    pub column: usize,
    /// The bytes of the text that it is about.
    pub span: Range<usize>,
    /// What is wrong.
    pub what: String,
    /// What would be right.
    pub remedy: String,
}

impl Diagnostic {
    /// A diagnostic about `span` of `text`.
    pub fn new(
        severity: Severity,
        text: &str,
        span: Range<usize>,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        let (line, column) = place(text, span.start);
        Self {
            severity,
            line,
            column,
            span,
            what: what.into(),
            remedy: remedy.into(),
        }
    }
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "line {}, column {}: {}; {}",
            self.line, self.column, self.what, self.remedy
        )
    }
}

/// Line and column, both from 1, of byte `at`; the end of the text for a byte
/// behind it.
fn place(text: &str, at: usize) -> (usize, usize) {
    let before = (0..=at.min(text.len()))
        .rev()
        .find_map(|end| text.get(..end))
        .unwrap_or("");
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
    (line, column)
}
