use crate::records::Moment;

/// How far what is typed is stored.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Saving {
    /// Nothing was typed yet.
    #[default]
    Untouched,
    /// A write is under way.
    Saving,
    /// All of it is stored.
    Saved(Moment),
    /// Some of it is not stored, and a notice says why.
    NotSaved,
    /// The browser keeps nothing: it lasts while the page is open.
    OnlyHere,
}

impl Saving {
    /// What the page's head says.
    pub fn words(self) -> String {
        match self {
            Self::Untouched => String::new(),
            Self::Saving => "Saving…".to_owned(),
            Self::Saved(at) => format!("Saved {}", at.clock()),
            Self::NotSaved => "Not saved".to_owned(),
            Self::OnlyHere => "Kept only while this page is open".to_owned(),
        }
    }

    /// The state in a word, for style sheets and tests.
    pub fn word(self) -> &'static str {
        match self {
            Self::Untouched => "untouched",
            Self::Saving => "saving",
            Self::Saved(_) => "saved",
            Self::NotSaved => "not-saved",
            Self::OnlyHere => "only-here",
        }
    }

    /// Whether closing the page would lose something.
    pub fn is_unsafe_to_close(self) -> bool {
        matches!(self, Self::Saving | Self::NotSaved | Self::OnlyHere)
    }
}
