use std::collections::BTreeSet;

use super::dates::when_clock;
use super::makers::{maker_name, occasion, rubric_title};
use super::pieces::{Called, PieceRow, draft_row, held_row, last_written, sealed_row};
use super::scores::Rubrics;
use crate::records::{Ledger, MarkingId, Moment, PieceId, Role, Whom};

/// Sealed pieces that the bench lists.
const LATEST: usize = 10;

/// The bench: what is being marked and what was marked last.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    /// Drafts, the last written first.
    pub drafts: Vec<PieceRow>,
    /// Sealed pieces, newest first.
    pub latest: Vec<PieceRow>,
}

impl Bench {
    /// Whether there is nothing at all to show.
    pub fn is_empty(&self) -> bool {
        self.drafts.is_empty() && self.latest.is_empty()
    }

    /// How many drafts there are, in words.
    pub fn drafts_counted(&self) -> String {
        match self.drafts.len() {
            1 => "1 draft".to_owned(),
            count => format!("{count} drafts"),
        }
    }
}

/// The bench of `ledger` as it stands `now`. Anybody may look at it, learners too: marks
/// that are held back from them are not on it.
pub fn bench(ledger: &Ledger, rubrics: &Rubrics, now: Moment) -> Bench {
    let mut drafts: Vec<_> = ledger.drafts().collect();
    drafts.sort_unstable_by(|one, other| other.stamp.cmp(&one.stamp));
    let drafts = drafts.into_iter().filter_map(|marking| {
        let piece = ledger.piece(marking.piece)?;
        Some(draft_row(
            ledger,
            rubrics,
            (piece, marking),
            Called::ByMaker,
            now,
            Whom::Learner,
        ))
    });
    let mut listed: BTreeSet<PieceId> = BTreeSet::new();
    let sealed = ledger.markings().filter(|marking| marking.seal.is_some());
    let pieces = sealed.filter(|marking| listed.insert(marking.piece));
    let latest = pieces.filter_map(|marking| {
        let piece = ledger.piece(marking.piece)?;
        if ledger.standing_for(piece.id, Whom::Learner).is_held() {
            return Some(held_row(ledger, rubrics, piece, Called::ByMaker, now));
        }
        let marking = ledger.standing(piece.id).counts()?;
        let score = rubrics.score(ledger, marking);
        Some(sealed_row(ledger, piece, score, Called::ByMaker, now))
    });
    Bench {
        drafts: drafts.collect(),
        latest: latest.take(LATEST).collect(),
    }
}

/// A draft that was open when the page went away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Interrupted {
    /// Its piece.
    pub piece: PieceId,
    /// The draft itself.
    pub marking: MarkingId,
    /// Whether it is not the piece's only draft.
    pub is_one_of_many: bool,
    /// What was being done: `You were marking … at 10:42. Everything typed is kept.`
    pub text: String,
}

/// What to say about the draft `id` that was open when the page went away; `None`
/// where it is sealed or gone.
pub fn interrupted(ledger: &Ledger, id: MarkingId, now: Moment) -> Option<Interrupted> {
    let marking = ledger
        .marking(id)
        .filter(|marking| marking.seal.is_none())?;
    let piece = ledger.piece(marking.piece)?;
    let own = if marking.role == Role::Own {
        ", own marking"
    } else {
        ""
    };
    Some(Interrupted {
        piece: piece.id,
        marking: marking.id,
        is_one_of_many: ledger.standing(piece.id).drafts().len() > 1,
        text: format!(
            "You were marking {} ({}, {}{own}) at {}. Everything typed is kept.",
            maker_name(ledger, piece),
            rubric_title(ledger, piece),
            occasion(ledger, piece),
            when_clock(last_written(&marking.stamp, now), now),
        ),
    })
}
