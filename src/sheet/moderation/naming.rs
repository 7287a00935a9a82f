//! How examiners and pieces are called here.

use std::collections::{BTreeMap, BTreeSet};

use crate::moderation::{Gathered, Seen};
use crate::records::{ExaminerId, Ledger, PieceId, sha256_hex};

/// Names of examiners and pieces, or what stands for them.
#[derive(Debug, Default)]
pub(super) struct Naming {
    examiners: BTreeMap<ExaminerId, String>,
    pieces: BTreeMap<PieceId, (usize, String)>,
}

impl Naming {
    /// Those of all that was gathered. Hidden examiners have letters in an order that tells
    /// nothing of them; the same ones have the same letters again.
    pub(super) fn of(ledger: &Ledger, gathered: &Gathered<'_>, hides: bool) -> Self {
        let mut shuffled = gathered.examiners.clone();
        shuffled.sort_by_key(|one| sha256_hex(one.to_string().as_bytes()));
        let names = shuffled.iter().zip(1..).map(|(examiner, at)| {
            let letter = letters(at);
            let name = ledger.examiner(*examiner).map(|one| one.name.clone());
            let name = name.filter(|_| !hides);
            let name = name.unwrap_or_else(|| format!("Examiner {letter}"));
            (*examiner, letter, name)
        });
        let names: Vec<(ExaminerId, String, String)> = names.collect();
        let (mut once, mut twice) = (BTreeSet::new(), BTreeSet::new());
        for (_, _, name) in &names {
            if !once.insert(name.clone()) {
                twice.insert(name.clone());
            }
        }
        let told = |(examiner, letter, name): (ExaminerId, String, String)| {
            let is_alone = !twice.contains(&name);
            let told = if is_alone {
                name
            } else {
                format!("{name} ({letter})")
            };
            (examiner, told)
        };
        let seen = gathered.twice.iter().chain(&gathered.once).zip(1..);
        let pieces = seen.map(|(seen, number)| {
            let told = if hides {
                String::new()
            } else {
                piece_words(ledger, seen)
            };
            (seen.piece.id, (number, told))
        });
        Self {
            examiners: names.into_iter().map(told).collect(),
            pieces: pieces.collect(),
        }
    }

    /// What an examiner is called.
    pub(super) fn examiner(&self, id: ExaminerId) -> String {
        let name = self.examiners.get(&id).cloned();
        name.unwrap_or_else(|| "an examiner".to_owned())
    }

    /// The number of a piece here.
    pub(super) fn number(&self, id: PieceId) -> String {
        let number = self.pieces.get(&id);
        number
            .map(|(number, _)| number.to_string())
            .unwrap_or_default()
    }

    /// The number of a piece with whose it is: `3, ticket S1`.
    pub(super) fn piece(&self, id: PieceId) -> String {
        let words = self.pieces.get(&id).map(|(_, words)| words.as_str());
        match words.filter(|words| !words.is_empty()) {
            Some(words) => format!("{}, {words}", self.number(id)),
            None => self.number(id),
        }
    }
}

/// A, B and so on; after Z comes AA.
pub(super) fn letters(number: usize) -> String {
    let mut rest = number;
    let mut said = Vec::new();
    while rest > 0 {
        let at = (rest - 1) % 26;
        said.extend(('A'..='Z').nth(at));
        rest = (rest - 1) / 26;
    }
    said.iter().rev().collect()
}

fn piece_words(ledger: &Ledger, seen: &Seen<'_>) -> String {
    let piece = seen.piece;
    let learner = piece.learner.and_then(|id| ledger.learner(id));
    match (&piece.ticket, learner) {
        (_, Some(learner)) => learner.name.clone(),
        (Some(ticket), None) => format!("ticket {ticket}"),
        (None, None) => String::new(),
    }
}
