use std::collections::BTreeSet;

use super::super::makers::name_known;
use crate::records::{Day, LearnerId, Ledger, Marking, Piece};

/// What a learner has made, as far as pages may say so.
pub(in crate::present) struct Works<'a> {
    pub drafts: Vec<(&'a Piece, &'a Marking)>,
    pub sealed: Vec<Work<'a>>,
}

/// A sealed piece.
pub(in crate::present) struct Work<'a> {
    pub piece: &'a Piece,
    pub day: Option<Day>,
    pub marking: &'a Marking,
}

impl Works<'_> {
    pub fn counted(&self) -> String {
        let on_bench: BTreeSet<_> = self.drafts.iter().map(|(piece, _)| piece.id).collect();
        let sealed = self.sealed.iter().map(|work| work.piece.id);
        let all: BTreeSet<_> = on_bench.iter().copied().chain(sealed).collect();
        let pieces = match all.len() {
            0 => return "no pieces yet".to_owned(),
            1 => "1 piece".to_owned(),
            count => format!("{count} pieces"),
        };
        match on_bench.len() {
            0 => pieces,
            count => format!("{pieces}, {count} on the bench"),
        }
    }
}

pub(in crate::present) fn works_of(ledger: &Ledger, id: LearnerId) -> Works<'_> {
    let mut works = Works {
        drafts: Vec::new(),
        sealed: Vec::new(),
    };
    for piece in ledger
        .pieces_of(id)
        .filter(|piece| name_known(ledger, piece))
    {
        let standing = ledger.standing(piece.id);
        let drafts = standing.drafts().iter().rev();
        works.drafts.extend(drafts.map(|marking| (piece, *marking)));
        works.sealed.extend(standing.counts().map(|marking| Work {
            piece,
            day: ledger.sitting(piece.sitting).map(|sitting| sitting.day),
            marking,
        }));
    }
    works.sealed.sort_by_key(|work| std::cmp::Reverse(work.day));
    works
}
