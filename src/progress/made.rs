use std::collections::BTreeMap;
use std::sync::Arc;

use crate::marking::{self, Facts};
use crate::quantity::Dimension;
use crate::records::{Day, Ledger, Marking, Piece, PieceId, Role, SittingKind};
use crate::rubric::{Kind, Rubric};

/// One piece, and what one marking of it comes to.
#[derive(Debug, Clone)]
pub struct Made<'a> {
    /// Which.
    pub piece: PieceId,
    /// When it was made.
    pub day: Day,
    /// Why it was made.
    pub sitting: SittingKind,
    /// What the marking counts as.
    pub role: Role,
    /// The rubric that it is marked by.
    pub rubric: Arc<Rubric>,
    /// What was seen and measured; of an agreed marking what the first of its examiners
    /// noted, whose times and counts stand for the piece.
    pub facts: &'a Facts,
    /// What the facts come to.
    pub outcome: marking::Marking,
}

impl<'a> Made<'a> {
    /// `piece` as `marking` has it, marked by `rubric`, which is that of the marking;
    /// `None` where its sitting is not in the ledger.
    pub fn of(
        ledger: &'a Ledger,
        piece: &Piece,
        marking: &'a Marking,
        rubric: Arc<Rubric>,
    ) -> Option<Self> {
        let sources = ledger.sources(marking).unwrap_or_default();
        let noted = sources.first().copied().unwrap_or(marking);
        let sitting = ledger.sitting(piece.sitting)?;
        Some(Self {
            piece: piece.id,
            day: sitting.day,
            sitting: sitting.kind,
            role: marking.role,
            facts: &noted.facts,
            outcome: ledger.outcome(marking, &rubric),
            rubric,
        })
    }

    /// Whether the award was stopped.
    pub fn is_stopped(&self) -> bool {
        !self.outcome.stopped_by.is_empty()
    }

    /// Whether its marks tell how well it was made: all of it was marked.
    pub fn is_whole(&self) -> bool {
        self.outcome.complete
    }

    /// Whether its maker marked it.
    pub fn is_own(&self) -> bool {
        self.role == Role::Own
    }

    /// Whether the time of its making was written.
    pub fn is_timed(&self) -> bool {
        let entries = self.rubric.entries();
        entries.iter().any(|entry| match &entry.criterion.kind {
            Kind::Tally(tally) if tally.dimension == Dimension::Duration => {
                self.facts.tally(tally, &entry.id).is_some()
            }
            _ => false,
        })
    }
}

/// Every piece that is marked by one rubric, in any of its versions, oldest first;
/// never empty.
#[derive(Debug, Clone)]
pub struct Series<'a> {
    /// The rubric's own id.
    pub rubric_id: String,
    /// The pieces.
    pub pieces: Vec<&'a Made<'a>>,
}

impl<'a> Series<'a> {
    /// The rubric as the latest piece was marked by it.
    pub fn rubric(&self) -> Option<&'a Rubric> {
        self.pieces.last().map(|made| &*made.rubric)
    }
}

/// The pieces by rubric, the one that was used last first.
///
/// *Shape:* `pieces` oldest first.
pub fn all_series<'a>(pieces: &'a [Made<'a>]) -> Vec<Series<'a>> {
    let mut by_rubric: BTreeMap<&str, (usize, Vec<&Made<'_>>)> = BTreeMap::new();
    for (at, made) in pieces.iter().enumerate() {
        let (last, all) = by_rubric.entry(&made.rubric.id).or_default();
        *last = at;
        all.push(made);
    }
    let mut series: Vec<_> = by_rubric.into_iter().collect();
    series.sort_by_key(|(_, (last, _))| std::cmp::Reverse(*last));
    series
        .into_iter()
        .map(|(id, (_, pieces))| Series {
            rubric_id: id.to_owned(),
            pieces,
        })
        .collect()
}

/// The series of the rubric with the id `asked`, or else that with most pieces, of two
/// the one that was used last.
///
/// *Shape:* `all` as [`all_series`] gives them.
pub fn shown_series<'s, 'a>(all: &'s [Series<'a>], asked: Option<&str>) -> Option<&'s Series<'a>> {
    let is_asked = |series: &&Series<'_>| Some(series.rubric_id.as_str()) == asked;
    let most = || all.iter().rev().max_by_key(|series| series.pieces.len());
    all.iter().find(is_asked).or_else(most)
}
