use std::collections::BTreeSet;

use super::super::makers::name_known;
use crate::records::Span;
use crate::records::{Day, LearnerId, Ledger, Marking, Piece, Whom};

/// What a learner has made, as far as pages may say so.
pub(in crate::present) struct Works<'a> {
    pub drafts: Vec<(&'a Piece, &'a Marking)>,
    pub sealed: Vec<Work<'a>>,
    /// How many of the sealed are held back from the learner.
    pub held: usize,
}

/// A sealed piece.
pub(in crate::present) struct Work<'a> {
    pub piece: &'a Piece,
    pub day: Option<Day>,
    /// What it stands for; `None` while that is held back from whoever looks.
    pub marking: Option<&'a Marking>,
    /// Whether it is held back from the learner.
    pub is_held: bool,
}

impl<'a> Works<'a> {
    /// The sealed pieces that were made in these days, oldest first.
    pub(super) fn made_in(&self, span: Span) -> impl Iterator<Item = &Work<'a>> {
        let sealed = self.sealed.iter().rev();
        sealed.filter(move |work| work.day.is_none_or(|day| span.holds(day)))
    }

    pub fn counted(&self) -> String {
        let on_bench: BTreeSet<_> = self.drafts.iter().map(|(piece, _)| piece.id).collect();
        let sealed = self.sealed.iter().map(|work| work.piece.id);
        let all: BTreeSet<_> = on_bench.iter().copied().chain(sealed).collect();
        let pieces = match all.len() {
            0 => return "no pieces yet".to_owned(),
            1 => "1 piece".to_owned(),
            count => format!("{count} pieces"),
        };
        let parts = [(on_bench.len(), "on the bench"), (self.held, "held")];
        let parts = parts.into_iter().filter(|(count, _)| *count > 0);
        parts.fold(pieces, |all, (count, how)| format!("{all}, {count} {how}"))
    }
}

/// What the learner `id` has made, with the marks that `whom` may see.
pub(in crate::present) fn works_of(ledger: &Ledger, id: LearnerId, whom: Whom) -> Works<'_> {
    let mut works = Works {
        drafts: Vec::new(),
        sealed: Vec::new(),
        held: 0,
    };
    for piece in ledger
        .pieces_of(id)
        .filter(|piece| name_known(ledger, piece))
    {
        let standing = ledger.standing(piece.id);
        let drafts = standing.drafts().iter().rev();
        works.drafts.extend(drafts.map(|marking| (piece, *marking)));
        let is_held = ledger.standing_for(piece.id, Whom::Learner).is_held();
        works.held += usize::from(is_held);
        works.sealed.extend(standing.counts().map(|marking| Work {
            piece,
            day: ledger.sitting(piece.sitting).map(|sitting| sitting.day),
            marking: Some(marking).filter(|_| whom == Whom::Examiner || !is_held),
            is_held,
        }));
    }
    let order = |work: &Work<'_>| std::cmp::Reverse((work.day, work.piece.id));
    works.sealed.sort_by_key(order);
    works
}
