use std::collections::BTreeSet;

use super::ids::{ExaminerId, MarkingId, PieceId};
use super::ledger::Ledger;
use super::marking::{Marking, Role};
use super::release::Whom;
use crate::quantity::Moment;

/// What may be shown of one piece's markings, and which of them it stands for.
///
/// *What is guaranteed:* while a marking that is made blind is a draft, none of the
/// sealed ones can be had from here. So a maker and an examiner, or two examiners,
/// do not see what the other gave before both are sealed. For a learner, what examiners
/// gave in a sitting that is not released cannot be had from here either.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Standing<'a> {
    drafts: Vec<&'a Marking>,
    sealed: Vec<&'a Marking>,
    /// Sealed too, and not to be seen before the sitting is released.
    held: Vec<&'a Marking>,
}

/// That a marking is sealed, without anything of what it gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unseen {
    /// Which.
    pub marking: MarkingId,
    /// What it counts as.
    pub role: Role,
    /// Who sealed it.
    pub examiner: ExaminerId,
    /// When.
    pub at: Moment,
}

impl<'a> Standing<'a> {
    fn of(
        markings: impl Iterator<Item = &'a Marking>,
        is_released: impl Fn(&Marking) -> bool,
    ) -> Self {
        let (sealed, drafts): (Vec<_>, Vec<_>) =
            markings.partition(|marking| marking.seal.is_some());
        let replaced: BTreeSet<MarkingId> = sealed
            .iter()
            .filter_map(|marking| Some(marking.replaces.as_ref()?.marking))
            .collect();
        let still_counts = |marking: &&Marking| !replaced.contains(&marking.id);
        let sealed = sealed.into_iter().filter(still_counts);
        let (sealed, held) = sealed.partition(|marking| is_released(marking));
        Self {
            drafts,
            sealed,
            held,
        }
    }

    /// Those that are not sealed, oldest first.
    pub fn drafts(&self) -> &[&'a Marking] {
        &self.drafts
    }

    /// Whether something is sealed that may not be seen yet.
    pub fn is_unseen(&self) -> bool {
        let is_blind = |marking: &&Marking| marking.role.is_blind();
        self.all_sealed().next().is_some() && self.drafts.iter().any(is_blind)
    }

    /// Whether examiners have sealed what is held back until the sitting is released.
    /// While it may not be seen for another reason, that one goes before.
    pub fn is_held(&self) -> bool {
        !self.held.is_empty() && !self.is_unseen()
    }

    /// All that are sealed, to be seen or not.
    fn all_sealed(&self) -> impl Iterator<Item = &'a Marking> {
        self.sealed.iter().chain(&self.held).copied()
    }

    /// What is sealed and may not be seen yet, oldest first; none where all may be.
    pub fn unseen(&self) -> Vec<Unseen> {
        if !self.is_unseen() {
            return Vec::new();
        }
        let said = self.all_sealed().filter_map(|marking| {
            Some(Unseen {
                marking: marking.id,
                role: marking.role,
                examiner: marking.examiner,
                at: marking.seal.as_ref()?.at,
            })
        });
        said.collect()
    }

    /// The sealed ones of examiners that nothing replaces, oldest first, whether or not
    /// they may be seen: for counting them.
    pub(super) fn by_examiners(&self, ledger: &Ledger) -> Vec<&'a Marking> {
        let sealed = self.sealed.iter().copied();
        let by_one = |marking: &&Marking| ledger.first_role(marking).is_examiners();
        sealed.filter(by_one).collect()
    }

    /// The latest sealed one that examiners agreed on, made from what still counts.
    pub(super) fn agreed(&self) -> Option<&'a Marking> {
        let mut sealed = self.sealed.iter().rev();
        sealed.find(|marking| self.is_agreed(marking)).copied()
    }

    /// Whether a marking is made from others that all still count.
    fn is_agreed(&self, marking: &Marking) -> bool {
        let counts = |id: MarkingId| self.sealed.iter().any(|one| one.id == id);
        let mut agreement = marking.agreement.iter();
        agreement.any(|made| made.from.iter().all(|from| counts(from.marking)))
    }

    /// Whether a marking is made blind beside another one: then pages that anybody
    /// opens show the marks of none.
    pub fn is_apart(&self) -> bool {
        let count = self.drafts.len() + self.all_sealed().count();
        count > 1 && self.drafts.iter().any(|marking| marking.role.is_blind())
    }

    /// The sealed ones that nothing replaces, oldest first; none while they may not be
    /// seen.
    pub fn sealed(&self) -> &[&'a Marking] {
        if self.is_unseen() { &[] } else { &self.sealed }
    }

    /// The marking that the piece stands for: the one that its examiners agreed on, else
    /// the latest sealed one that is not its maker's, or the maker's own where there is no
    /// other. None while what examiners gave is held back: then the piece stands for
    /// nothing that may be seen.
    pub fn counts(&self) -> Option<&'a Marking> {
        if self.is_held() {
            return None;
        }
        let by_weight = |marking: &&&Marking| {
            let is_agreed = self.is_agreed(marking);
            (marking.role != Role::Own, is_agreed, marking.id)
        };
        self.sealed().iter().max_by_key(by_weight).copied()
    }

    /// The maker's own marking, sealed and to be seen.
    pub fn own(&self) -> Option<&'a Marking> {
        let mut sealed = self.sealed().iter().rev();
        sealed.find(|marking| marking.role == Role::Own).copied()
    }

    /// The maker's own marking and what the piece stands for beside it, where there are
    /// both.
    pub fn own_and_counting(&self) -> Option<(&'a Marking, &'a Marking)> {
        let counts = self.counts().filter(|marking| marking.role != Role::Own)?;
        Some((self.own()?, counts))
    }
}

impl Ledger {
    /// What may be shown of the markings of `piece` to examiners.
    pub fn standing(&self, piece: PieceId) -> Standing<'_> {
        self.standing_for(piece, Whom::Examiner)
    }

    /// What may be shown of the markings of `piece` to `whom`.
    pub fn standing_for(&self, piece: PieceId, whom: Whom) -> Standing<'_> {
        let is_held = self.is_held(piece, whom);
        let is_released = |marking: &Marking| !is_held || self.is_makers(marking);
        Standing::of(self.markings_of(piece), is_released)
    }
}
