use krilla::error::KrillaError;
use thiserror::Error;

/// Why no PDF could be made.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PdfError {
    /// No document was given.
    #[error("there is nothing to write: choose at least one sheet and save again")]
    Nothing,
    /// A built-in face cannot be read.
    #[error("the built-in face could not be read: {0}; report this, it is a fault of the program")]
    Face(String),
    /// The writer refused it.
    #[error("the PDF could not be written: {0}; report this, it is a fault of the program")]
    Writer(String),
}

impl From<KrillaError> for PdfError {
    fn from(error: KrillaError) -> Self {
        match error {
            KrillaError::Validation(broken) => Self::Writer(format!("{broken:?}")),
            KrillaError::Font(_, why) => Self::Face(why),
            other => Self::Writer(format!("{other:?}")),
        }
    }
}
