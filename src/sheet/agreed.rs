//! What an agreed marking is made from, and how it came about.

use crate::marking::{Agreed, CriterionResult, PointState};
use crate::records::{Ledger, Marking, in_groups};
use crate::rubric::{Entry, Rubric};

use super::compared::total_words;
use super::document::{Block, Item};
use super::readings::entry_words;
use super::scored::{Scored, heading};
use super::words::capital;

/// An agreed marking opened.
#[derive(Debug)]
pub(super) struct AgreedParts<'a> {
    /// The markings that it is made from and who made them, in order.
    pub sources: Vec<(&'a Marking, &'a str)>,
    /// How it came about.
    pub agreed: Agreed,
}

impl<'a> AgreedParts<'a> {
    /// `None` where `marking` is no agreed one, or one of its sources is not here.
    pub fn of(ledger: &'a Ledger, marking: &'a Marking, rubric: &Rubric) -> Option<Self> {
        let sources = ledger.sources(marking)?.into_iter();
        let sources = sources.map(|source| (source, ledger.examiner_name(source)));
        Some(Self {
            sources: sources.collect(),
            agreed: ledger.agreed(marking, rubric)?,
        })
    }

    /// What each examiner entered for an entry: `Wm. Green: 10.2 mm; Jo Reed: 10.4 mm`.
    pub fn readings(&self, scored: &Scored<'_>, entry: &Entry<'_>) -> String {
        let said = self.sources.iter().map(|(source, who)| {
            let words = entry_words(scored.rubric, entry, &scored.slots, &source.facts);
            let words = if words.is_empty() { "nothing" } else { &words };
            format!("{who}: {words}")
        });
        said.collect::<Vec<_>>().join("; ")
    }
}

/// Both markings with their digests, and each criterion that they differ in with what
/// became of it.
pub(super) fn agreed_blocks(scored: &Scored<'_>) -> Vec<Block> {
    let Some(AgreedParts { sources, agreed }) = &scored.agreed else {
        return Vec::new();
    };
    let made_from = sources.iter().zip(&agreed.sources);
    let made_from = made_from.map(|((source, who), outcome)| {
        let seal = source.seal.as_ref();
        let sealed = seal.map(|seal| format!("Sealed {}", seal.at));
        let digest = seal.map(|seal| {
            let groups = in_groups(&seal.digest).join(" ");
            format!("Digest (SHA-256) {groups}")
        });
        let total = Some(capital(&total_words(outcome)));
        Item {
            lead: format!("{who}, {}", source.role.word()),
            lines: [total, sealed, digest].into_iter().flatten().collect(),
        }
    });
    let mut blocks = vec![
        heading("Made from these markings"),
        Block::Items(made_from.collect()),
    ];
    let parts = [
        (PointState::Open, "Not settled yet"),
        (PointState::Settled, "Settled by the examiners"),
        (PointState::Ruled, "Settled by the rubric’s rule"),
    ];
    for (state, title) in parts {
        let points = agreed.points.iter().filter(|point| point.state == state);
        let items: Vec<Item> = points
            .filter_map(|point| agreed.outcome.criterion(&point.entry))
            .map(|result| said(scored, result))
            .collect();
        if !items.is_empty() {
            blocks.extend([heading(title), Block::Items(items)]);
        }
    }
    blocks
}

fn said(scored: &Scored<'_>, result: &CriterionResult) -> Item {
    Item::about(scored.name_of(&result.id), &result.reason)
}
