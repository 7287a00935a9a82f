//! What a record names, and all that goes with it.

use std::collections::BTreeSet;

use super::ids::{ExaminerId, PieceId};
use super::ledger::Ledger;
use super::marking::Marking;
use super::people::Sitting;
use super::picture::digests_in;
use super::piece::Piece;
use super::record::{Kind, Record, RecordKey};

impl Record {
    /// Keys of the records that it names; of a rubric's text what may be pictures.
    pub fn names(&self) -> Vec<RecordKey> {
        match self {
            Self::Piece(piece) => of_piece(piece),
            Self::Marking(marking) => of_marking(marking),
            Self::Milestone(milestone) => vec![RecordKey::new(Kind::Learner, milestone.learner)],
            Self::Sitting(sitting) => of_sitting(sitting),
            Self::Rubric(rubric) => in_text(&rubric.text),
            Self::RubricDraft(draft) => in_text(&draft.text),
            Self::Study(study) => vec![RecordKey::new(Kind::Instrument, &study.facts.instrument)],
            Self::Learner(_)
            | Self::Examiner(_)
            | Self::Instrument(_)
            | Self::TableHead(_)
            | Self::Picture(_) => Vec::new(),
        }
    }
}

impl Ledger {
    /// Adds to `found` what `keys` stand for and all that is named from there on, here or
    /// not.
    pub(crate) fn add_named(
        &self,
        keys: impl IntoIterator<Item = RecordKey>,
        found: &mut BTreeSet<RecordKey>,
    ) {
        // No recursion: amendments may name one another in a long chain.
        let mut open: Vec<RecordKey> = keys.into_iter().collect();
        while let Some(key) = open.pop() {
            if found.contains(&key) {
                continue;
            }
            if let Some(named) = self.get(&key) {
                open.extend(named.names());
            }
            found.insert(key);
        }
    }

    /// All that the sheets of these pieces are made from: pieces, every marking of them, and
    /// what those name.
    pub fn about(&self, pieces: impl IntoIterator<Item = PieceId>) -> Vec<Record> {
        let mut keys = Vec::new();
        for piece in pieces {
            keys.push(RecordKey::new(Kind::Piece, piece));
            let markings = self.markings_of(piece);
            keys.extend(markings.map(|marking| RecordKey::new(Kind::Marking, marking.id)));
        }
        let mut found = BTreeSet::new();
        self.add_named(keys, &mut found);
        found.iter().filter_map(|key| self.get(key)).collect()
    }
}

/// What may be pictures; other digests name nothing that is kept.
fn in_text(text: &str) -> Vec<RecordKey> {
    digests_in(text).map(picture).collect()
}

fn picture(digest: &str) -> RecordKey {
    RecordKey::new(Kind::Picture, digest)
}

fn examiner(id: ExaminerId) -> RecordKey {
    RecordKey::new(Kind::Examiner, id)
}

fn of_sitting(sitting: &Sitting) -> Vec<RecordKey> {
    let released = sitting.released.as_ref();
    let held_back = released.and_then(|release| release.held_back);
    let by = [
        released.map(|release| release.by),
        held_back.map(|held| held.by),
    ];
    by.into_iter().flatten().map(examiner).collect()
}

fn of_piece(piece: &Piece) -> Vec<RecordKey> {
    let learner = piece.learner.map(|id| RecordKey::new(Kind::Learner, id));
    let always = [
        RecordKey::new(Kind::Sitting, piece.sitting),
        RecordKey::new(Kind::Rubric, &piece.rubric),
    ];
    let told = piece.feedback.map(|feedback| examiner(feedback.by));
    always.into_iter().chain(learner).chain(told).collect()
}

fn of_marking(marking: &Marking) -> Vec<RecordKey> {
    let replaced = marking.replaces.as_ref();
    let replaced = replaced.map(|replaces| RecordKey::new(Kind::Marking, replaces.marking));
    let always = [
        RecordKey::new(Kind::Piece, marking.piece),
        RecordKey::new(Kind::Rubric, &marking.rubric),
        examiner(marking.examiner),
    ];
    let agreement = marking.agreement.iter();
    let sources = agreement.flat_map(|agreement| &agreement.from);
    let sources = sources.map(|from| RecordKey::new(Kind::Marking, from.marking));
    let taken = marking.facts.heat_log.taken_over.iter();
    let taken = taken.flat_map(|taken| {
        [
            RecordKey::new(Kind::Marking, &taken.marking),
            RecordKey::new(Kind::Examiner, &taken.examiner),
        ]
    });
    always
        .into_iter()
        .chain(replaced)
        .chain(sources)
        .chain(taken)
        .chain(marking.pictures().map(picture))
        .collect()
}
