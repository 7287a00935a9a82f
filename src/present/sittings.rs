//! Sittings: what was made on which occasion, how far it is marked, and whether learners
//! may see it.

use std::collections::BTreeMap;

use super::dates::long_day;
use super::handing::{Feedback, Handing};
use super::makers::maker_name;
use super::pieces::{PieceRow, sitting_row};
use super::scores::Rubrics;
use crate::quantity::counted;
use crate::records::{Ledger, Piece, PieceId, Role, Sitting, SittingId};
use crate::sheet::{Released, capital};

/// The list of sittings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SittingsPage {
    /// How many there are, and how many of them wait.
    pub about: String,
    /// Those whose marks wait for a release, newest first.
    pub waiting: Vec<SittingRow>,
    /// Those whose marks are released by sealing, newest first.
    pub others: Vec<SittingRow>,
}

/// A sitting in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SittingRow {
    /// Which.
    pub id: SittingId,
    /// Kind, name and day.
    pub title: String,
    /// How many pieces, and how far they are.
    pub about: String,
    /// Whether its marks are released, when and by whom.
    pub now: String,
    /// The way to release them or to hold them back, where there is something to show.
    pub handing: Option<Handing>,
}

/// One sitting with its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct SittingPage {
    /// The sitting.
    pub row: SittingRow,
    /// Whether its marks are held back from learners.
    pub is_held: bool,
    /// Its pieces, by ticket and name.
    pub pieces: Vec<SittingPiece>,
}

/// A piece of a sitting.
#[derive(Debug, Clone, PartialEq)]
pub struct SittingPiece {
    /// Whose it is, how it stands, and its marks where they were asked for.
    pub row: PieceRow,
    /// Whether its learner was told what to make of them.
    pub feedback: Feedback,
}

/// What is said where marks of such a sitting are shown.
pub const EXAMINERS_ONLY: &str = "Marks shown here are for examiners only until they are released.";

/// What is said of a sitting whose marks wait.
pub const HELD_SITTING: &str = "What examiners gave here is held: learners’ own pages show it \
    once somebody releases it.";

/// Every sitting of `ledger`.
pub fn sittings_page(ledger: &Ledger, rubrics: &Rubrics) -> SittingsPage {
    let mut pieces: BTreeMap<SittingId, Vec<&Piece>> = BTreeMap::new();
    for piece in ledger.pieces() {
        pieces.entry(piece.sitting).or_default().push(piece);
    }
    let mut sittings: Vec<&Sitting> = ledger.sittings().collect();
    sittings.sort_by_key(|sitting| std::cmp::Reverse((sitting.day, sitting.id)));
    let (waiting, others): (Vec<_>, Vec<_>) =
        sittings.iter().partition(|sitting| sitting.kind.waits());
    let rows = |sittings: Vec<&Sitting>| {
        let rows = sittings.into_iter().map(|sitting| {
            let pieces = pieces.get(&sitting.id).map_or(&[][..], Vec::as_slice);
            row(ledger, rubrics, sitting, pieces)
        });
        rows.collect()
    };
    SittingsPage {
        about: match sittings.len() {
            0 => "none on this device yet; the first piece makes one".to_owned(),
            count => counted(count, "sitting", "sittings"),
        },
        waiting: rows(waiting),
        others: rows(others),
    }
}

/// The sitting `id` with its pieces; with their marks where they are released, or `shows`
/// says that an examiner asks for them. `None` where there is no such sitting.
pub fn sitting_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: SittingId,
    shows: bool,
) -> Option<SittingPage> {
    let sitting = ledger.sitting(id)?;
    let pieces = pieces_in_order(ledger, id);
    let shows = shows || !sitting.is_held();
    let of = |piece: &&Piece| SittingPiece {
        row: sitting_row(ledger, rubrics, piece, shows),
        feedback: Feedback::of(ledger, piece.id),
    };
    Some(SittingPage {
        row: row(ledger, rubrics, sitting, &pieces),
        is_held: sitting.is_held(),
        pieces: pieces.iter().map(of).collect(),
    })
}

/// The pieces of a sitting by ticket, 2 before 12, and those without one after them by name.
pub(super) fn pieces_in_order(ledger: &Ledger, id: SittingId) -> Vec<&Piece> {
    let mut pieces: Vec<&Piece> = ledger.pieces().filter(|one| one.sitting == id).collect();
    pieces.sort_by_cached_key(|piece| {
        let ticket = piece.ticket.clone().unwrap_or_default();
        (
            piece.ticket.is_none(),
            ticket.parse::<u64>().unwrap_or(u64::MAX),
            ticket,
            maker_name(ledger, piece).to_lowercase(),
            piece.id,
        )
    });
    pieces
}

/// Kind, name and day of a sitting: `Exam, Spring, Wednesday 25 Nov 2026`.
pub(super) fn title(sitting: &Sitting) -> String {
    let parts = [
        capital(sitting.kind.word()),
        sitting.name.clone(),
        long_day(sitting.day),
    ];
    let parts = parts.into_iter().filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join(", ")
}

fn row(ledger: &Ledger, rubrics: &Rubrics, sitting: &Sitting, pieces: &[&Piece]) -> SittingRow {
    let released = Released::of(ledger, sitting);
    let far = Far::of(ledger, rubrics, pieces);
    let handing = if released.is_held {
        (far.by_examiners > 0).then_some(Handing::Release(sitting.id))
    } else {
        sitting.release().map(|_| Handing::HoldBack(sitting.id))
    };
    SittingRow {
        id: sitting.id,
        title: title(sitting),
        about: far.words(),
        now: released.words(),
        handing,
    }
}

/// How far the pieces of a sitting are.
#[derive(Default)]
struct Far {
    pieces: usize,
    /// Those that stand for something.
    sealed: usize,
    /// Those of which an examiner has sealed a marking, to be seen or not.
    by_examiners: usize,
    /// Those that stand for what examiners agreed on.
    agreed: usize,
    /// Those that are sealed and have no result yet.
    incomplete: usize,
    /// Markings that are not sealed.
    open: usize,
}

impl Far {
    fn of(ledger: &Ledger, rubrics: &Rubrics, pieces: &[&Piece]) -> Self {
        let mut far = Self {
            pieces: pieces.len(),
            ..Self::default()
        };
        for piece in pieces {
            far.add(ledger, rubrics, piece.id);
        }
        far
    }

    fn add(&mut self, ledger: &Ledger, rubrics: &Rubrics, piece: PieceId) {
        let standing = ledger.standing(piece);
        self.open += standing.drafts().len();
        let mut markings = ledger.markings_of(piece);
        let by_examiner = markings.any(|one| one.seal.is_some() && one.role != Role::Own);
        self.by_examiners += usize::from(by_examiner);
        let Some(marking) = standing.counts() else {
            return;
        };
        self.sealed += 1;
        self.agreed += usize::from(marking.agreement.is_some());
        let rubric = ledger.rubric(&marking.rubric);
        let rubric = rubric.and_then(|version| rubrics.get(version));
        let lacks = rubric.is_some_and(|rubric| ledger.lack(marking, &rubric).is_some());
        self.incomplete += usize::from(lacks);
    }

    /// `3 pieces, 2 sealed, 1 agreed, 1 without a result, 1 marking open`.
    fn words(&self) -> String {
        let parts = [
            (self.sealed, format!("{} sealed", self.sealed)),
            (self.agreed, format!("{} agreed", self.agreed)),
            (
                self.incomplete,
                format!("{} without a result", self.incomplete),
            ),
            (
                self.open,
                format!("{} open", counted(self.open, "marking", "markings")),
            ),
        ];
        let parts = parts.into_iter().filter(|(count, _)| *count > 0);
        let pieces = counted(self.pieces, "piece", "pieces");
        parts.fold(pieces, |all, (_, words)| format!("{all}, {words}"))
    }
}
