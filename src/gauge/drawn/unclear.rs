use thiserror::Error;

/// Why a drawn outline cannot be measured, and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Unclear {
    /// No line is there.
    #[error(
        "no drawn outline was found; draw it with one dark line on white paper, away from the edge of the paper and from all else"
    )]
    Missing,
    /// A line is not closed.
    #[error(
        "a line of the outline is open, or a stroke lies beside it; close every gap, rub out the rest, and take it again"
    )]
    Open,
    /// A line runs twice.
    #[error(
        "the outline is drawn twice in places; draw over the right line, rub out the other, and take it again"
    )]
    Doubled,
    /// The line fades.
    #[error("the line is too faint in places; draw over it with a darker pencil and take it again")]
    Faint,
    /// More is drawn than one outline.
    #[error(
        "more is drawn than the outline of one shoe; rub out or cover all other lines, and take it again"
    )]
    Others,
}

impl Unclear {
    /// A short word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Missing => "no-line",
            Self::Open => "open-line",
            Self::Doubled => "double-line",
            Self::Faint => "faint-line",
            Self::Others => "other-lines",
        }
    }
}
