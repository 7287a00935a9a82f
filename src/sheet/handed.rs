//! How far the marks of a piece have come to its learner: released, held back, explained.

use crate::records::{Deed, Ledger, Marking, Role, Sitting, Whom};

use super::document::{Block, Fact, Weight};
use super::scored::{Scored, notice};
use super::words::capital;

/// What a sheet says of a marking that is not released.
pub(super) const NOT_RELEASED: &str = "Not released to the learner";

/// Who did something and when, for reading: `3 Dec 2026 10:42 by Jo Reed`.
pub fn deed_words(ledger: &Ledger, deed: Deed) -> String {
    let name = ledger.examiner(deed.by).map(|examiner| &*examiner.name);
    format!("{} by {}", deed.at, name.unwrap_or("an examiner"))
}

/// How far the marks of a sitting have come to its learners.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Released {
    /// Whether what examiners gave is held back.
    pub is_held: bool,
    /// When it was released and by whom; empty where nobody had to, or has.
    pub released: String,
    /// The same of its being held back since.
    pub held_back: String,
}

impl Released {
    /// The state of `sitting`.
    pub fn of(ledger: &Ledger, sitting: &Sitting) -> Self {
        let release = sitting.released.filter(|_| sitting.kind.waits());
        let words = |deed: Option<Deed>| deed.map(|deed| deed_words(ledger, deed));
        let released = release.map(|release| Deed {
            at: release.at,
            by: release.by,
        });
        let held_back = release.and_then(|release| release.held_back);
        Self {
            is_held: sitting.is_held(),
            released: words(released).unwrap_or_default(),
            held_back: words(held_back).unwrap_or_default(),
        }
    }

    /// In a line: `held`, `released 3 Dec 2026 10:42 by Jo Reed`, `released by sealing`.
    pub fn words(&self) -> String {
        match (self.is_held, self.released.as_str()) {
            (true, "") => "held".to_owned(),
            (true, _) => format!("held, {}", self.before()),
            (false, "") => "released by sealing".to_owned(),
            (false, released) => format!("released {released}"),
        }
    }

    /// What went before a sitting was held back.
    fn before(&self) -> String {
        let Self {
            released,
            held_back,
            ..
        } = self;
        format!("released {released}, held back {held_back}")
    }
}

/// How far one marking has come to the learner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handed {
    /// How far the marks of its sitting have come; `None` for what the maker gave, which
    /// nobody releases.
    pub released: Option<Released>,
    /// Whether what examiners gave to the same piece is held back, where this is the
    /// maker's own.
    pub others_held: bool,
    /// When its learner was told what to make of it and by whom; empty where nobody has.
    pub feedback: String,
}

impl Handed {
    /// How far `marking` has come, whose piece and sitting are in `ledger`; else `None`.
    pub(super) fn of(ledger: &Ledger, marking: &Marking) -> Option<Self> {
        let piece = ledger.piece(marking.piece)?;
        let sitting = ledger.sitting(piece.sitting)?;
        let is_own = ledger.first_role(marking) == Role::Own;
        let feedback = piece.feedback.map(|deed| deed_words(ledger, deed));
        let standing = ledger.standing_for(piece.id, Whom::Learner);
        Some(Self {
            released: (!is_own).then(|| Released::of(ledger, sitting)),
            others_held: is_own && standing.is_held(),
            feedback: feedback.unwrap_or_default(),
        })
    }
}

/// What is said on top of a document about `scored` while it is not for the learner.
pub(super) fn held_blocks(scored: &Scored<'_>) -> Option<Block> {
    let handed = scored.handed.as_ref()?;
    if handed.others_held {
        let text = "What the examiner gave is not released yet";
        return Some(notice(Weight::Info, text, Vec::new()));
    }
    let released = handed.released.as_ref().filter(|one| one.is_held)?;
    let before = (!released.held_back.is_empty()).then(|| capital(&released.before()));
    Some(notice(
        Weight::Info,
        NOT_RELEASED,
        before.into_iter().collect(),
    ))
}

/// When it was released and when feedback was given, as facts of its sheet.
pub(super) fn handed_facts(scored: &Scored<'_>) -> Vec<Fact> {
    let Some(handed) = &scored.handed else {
        return Vec::new();
    };
    let released = handed.released.as_ref().filter(|one| !one.is_held);
    let released = released.map_or("", |one| &one.released);
    let facts = [("Released", released), ("Feedback given", &handed.feedback)];
    let facts = facts.into_iter().filter(|(_, value)| !value.is_empty());
    let facts = facts.map(|(label, value)| Fact {
        label: label.into(),
        value: value.to_owned(),
    });
    facts.collect()
}
