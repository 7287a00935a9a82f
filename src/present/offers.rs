use crate::command::RubricText;
use crate::records::sha256_hex;

/// A rubric that a piece can be started with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// What it is for, in a line.
    pub about: String,
    /// The rubric itself.
    pub rubric: RubricText,
}

impl Offer {
    /// What a form calls it: its digest.
    pub fn key(&self) -> &str {
        &self.rubric.digest
    }
}

/// Every rubric that ships, in order.
pub fn offers() -> Vec<Offer> {
    // Filled in from the rubric room when it ships its files.
    [
        ("straight-bar", "Straight bar shoe", "three-quarter fullered, rolled toe"),
        ("concave-front", "Concave front shoe", "with toe clip"),
    ]
    .into_iter()
    .map(|(id, title, about)| Offer {
        about: about.to_owned(),
        rubric: RubricText {
            digest: sha256_hex(id.as_bytes()),
            rubric_id: id.to_owned(),
            version: "0".to_owned(),
            title: title.to_owned(),
            text: format!("# {title}\n"),
        },
    })
    .collect()
}
