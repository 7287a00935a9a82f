use crate::command::RubricText;
use crate::records::sha256_hex;
use crate::rubric::{Rubric, Threshold, read_rubric, shipped};
use crate::sheet::percent_words;

/// A rubric that a piece can be started with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// What it comes to: `100 marks, 65 to pass`.
    pub about: String,
    /// Ids of its entries.
    pub entries: Vec<String>,
    /// The rubric itself.
    pub rubric: RubricText,
}

impl Offer {
    /// What a form calls it: its digest.
    pub fn key(&self) -> &str {
        &self.rubric.digest
    }

    fn of(text: &str) -> Option<Self> {
        let rubric = read_rubric(text).rubric?;
        Some(Self {
            about: offer_words(&rubric),
            entries: entry_ids(&rubric),
            rubric: RubricText {
                digest: sha256_hex(text.as_bytes()),
                rubric_id: rubric.id,
                version: rubric.version,
                title: rubric.title,
                text: text.to_owned(),
            },
        })
    }
}

/// Every rubric that ships, in order. *Cost:* reads them all; ask once.
pub fn offers() -> Vec<Offer> {
    shipped()
        .iter()
        .filter_map(|shipped| Offer::of(shipped.text))
        .collect()
}

pub(super) fn entry_ids(rubric: &Rubric) -> Vec<String> {
    let entries = rubric.entries().into_iter();
    entries.map(|entry| entry.id).collect()
}

/// The offers that are a self-check of a rubric with this id and these entries: other
/// rubrics that ask for nothing but some of the same entries.
pub(super) fn self_checks<'a>(
    offers: &'a [Offer],
    rubric_id: &str,
    entries: &[String],
) -> Vec<&'a Offer> {
    let is_one = |offer: &&Offer| {
        offer.rubric.rubric_id != rubric_id && offer.entries.iter().all(|id| entries.contains(id))
    };
    offers.iter().filter(is_one).collect()
}

/// What a rubric comes to: `100 marks, 65 to pass`.
pub(super) fn offer_words(rubric: &Rubric) -> String {
    let out_of = rubric.out_of().map(|marks| format!("{marks} marks"));
    let parts = [
        out_of,
        Some(format!("{} to pass", pass_words(rubric.award.pass))),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A pass mark as people read it: `65` or `65 %`.
fn pass_words(pass: Threshold) -> String {
    match pass {
        Threshold::Marks(marks) => marks.to_string(),
        Threshold::Percent(percent) => percent_words(percent),
    }
}
