//! A correction and the marking that it takes the place of.

use crate::records::{Ledger, Marking, Moment};

use super::document::{Block, Weight};
use super::scored::{Scored, notice};

/// A marking of the same piece that another one is tied to by a correction.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kin {
    /// When it was sealed.
    pub at: Moment,
    /// Who marked.
    pub by: String,
    /// Why the later one takes the place of the earlier.
    pub reason: String,
}

fn kin(ledger: &Ledger, marking: &Marking, reason: &str) -> Option<Kin> {
    let examiner = ledger.examiner(marking.examiner);
    Some(Kin {
        at: marking.seal.as_ref()?.at,
        by: examiner.map_or_else(String::new, |examiner| examiner.name.clone()),
        reason: reason.to_owned(),
    })
}

/// The marking that `marking` takes the place of.
pub(super) fn before(ledger: &Ledger, marking: &Marking) -> Option<Kin> {
    let replaces = marking.replaces.as_ref()?;
    kin(ledger, ledger.marking(replaces.marking)?, &replaces.reason)
}

/// The sealed marking that takes the place of `marking`.
pub(super) fn after(ledger: &Ledger, marking: &Marking) -> Option<Kin> {
    let mut others = ledger.markings_of(marking.piece);
    others.find_map(|other| {
        let replaces = other.replaces.as_ref()?;
        let is_of = replaces.marking == marking.id;
        kin(ledger, other, &replaces.reason).filter(|_| is_of)
    })
}

/// What is said at the top of either sheet.
pub(super) fn kin_blocks(scored: &Scored<'_>) -> Vec<Block> {
    let said = |text: String, reason: &str| {
        let items = vec![format!("Because: {reason}")];
        notice(Weight::Warn, text, items)
    };
    let after = scored.after.as_ref().map(|kin| {
        let Kin { at, by, reason } = kin;
        let text = format!("Replaced on {at} by {by}. This marking no longer counts; it stays.");
        said(text, reason)
    });
    let before = scored.before.as_ref().map(|kin| {
        let Kin { at, by, reason } = kin;
        let text = format!("A correction of the marking that {by} sealed on {at}, which stays.");
        said(text, reason)
    });
    after.into_iter().chain(before).collect()
}
