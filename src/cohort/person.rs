use serde::{Deserialize, Serialize};

use super::latest::{Asked, Read, stood};
use super::matrix::{Column, columns};
use crate::marking::Award;
use crate::progress::{Made, lost_by_step};
use crate::quantity::Marks;
use crate::records::{Day, LearnerId, Ledger, PieceId, SittingKind, Span};
use crate::rubric::Rubric;

/// The numbers that the figures of a cohort are made from, without a record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cohort {
    /// The rubric's title.
    pub rubric: String,
    /// What the group is called.
    pub group: String,
    /// The day on which it was looked at.
    pub day: Day,
    /// The days whose pieces count.
    pub span: Span,
    /// How many of the latest pieces stand for a learner.
    pub latest: usize,
    /// What the numbers are about.
    pub plan: Plan,
    /// The learners of the group, by name.
    pub people: Vec<Person>,
    /// Another group to compare it with, by the same plan.
    pub other: Option<Other>,
}

/// Another group to compare with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Other {
    /// What it is called.
    pub group: String,
    /// Its learners, by name.
    pub people: Vec<Person>,
}

/// What the numbers of a piece are about.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// The criteria.
    pub columns: Vec<Column>,
    /// The making steps: id and name, in the order of the making.
    pub steps: Vec<(String, String)>,
}

/// One learner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// Who.
    pub id: LearnerId,
    /// What pages call them.
    pub name: String,
    /// Their pieces, oldest first.
    pub pieces: Vec<Worked>,
}

/// What one piece came to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Worked {
    /// Which.
    pub piece: PieceId,
    /// When it was made.
    pub day: Day,
    /// What it was made for.
    pub sitting: SittingKind,
    /// Whether its time was taken.
    pub is_timed: bool,
    /// The version of the rubric that it was marked by.
    pub version: String,
    /// Whether all of it was marked.
    pub is_whole: bool,
    /// The award.
    pub award: Award,
    /// Marks given.
    pub marks: Marks,
    /// Marks that could be had.
    pub out_of: Marks,
    /// Marks that pass.
    pub pass_mark: Marks,
    /// Its parts, of the latest whole pieces alone.
    pub detail: Option<Detail>,
}

/// The parts of a piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Detail {
    /// For each column the marks given and those that could be had; `None` where the piece
    /// has none for it.
    pub criteria: Vec<Option<(Marks, Marks)>>,
    /// For each step the marks of the total that were lost there.
    pub lost: Vec<Marks>,
}

impl Plan {
    /// What the numbers of pieces by `rubric` are about.
    pub fn of(rubric: &Rubric) -> Self {
        let steps = rubric.steps.iter();
        Self {
            columns: columns(rubric),
            steps: steps
                .map(|step| (step.id.clone(), step.name.clone()))
                .collect(),
        }
    }
}

/// The numbers of all pieces of one learner, oldest first.
///
/// *Cost:* every piece is marked, and the award of one that is guarded is decided, so a page
/// does this learner by learner.
pub fn person(
    ledger: &Ledger,
    read: Read<'_>,
    asked: &Asked,
    plan: &Plan,
    learner: LearnerId,
) -> Vec<Worked> {
    let mut whole = 0;
    let mut pieces: Vec<Worked> = Vec::new();
    for found in stood(ledger, read, asked, learner) {
        let Some(made) = Made::of(ledger, found.piece, found.marking, found.rubric) else {
            continue;
        };
        whole += usize::from(made.is_whole());
        let has_detail = made.is_whole() && whole <= asked.latest.max(1);
        pieces.push(Worked {
            detail: has_detail.then(|| detail(&made, plan)),
            ..Worked::of(&made)
        });
    }
    pieces.reverse();
    pieces
}

fn detail(made: &Made<'_>, plan: &Plan) -> Detail {
    let criteria = plan.columns.iter().map(|column| {
        let result = made.outcome.criterion(&column.id)?;
        // What does not apply is no zero.
        result.share()?;
        Some((result.marks?, result.out_of))
    });
    let lost = lost_by_step(made);
    let steps = plan.steps.iter();
    let lost = steps.map(|(id, _)| lost.get(&Some(id.clone())).copied());
    Detail {
        criteria: criteria.collect(),
        lost: lost.map(|lost| lost.unwrap_or(Marks::ZERO)).collect(),
    }
}

impl Cohort {
    /// All learners whose pieces are to be filled in, those of the other group last.
    pub fn all_mut(&mut self) -> impl Iterator<Item = &mut Person> {
        let other = self.other.iter_mut().flat_map(|other| &mut other.people);
        self.people.iter_mut().chain(other)
    }

    /// How many those are.
    pub fn count(&self) -> usize {
        let other = self.other.as_ref().map_or(0, |other| other.people.len());
        self.people.len() + other
    }
}

impl Worked {
    /// What a piece came to, without its parts.
    pub fn of(made: &Made<'_>) -> Self {
        Self {
            piece: made.piece,
            day: made.day,
            sitting: made.sitting,
            is_timed: made.is_timed(),
            version: made.rubric.version.clone(),
            is_whole: made.is_whole(),
            award: made.outcome.award,
            marks: made.outcome.marks,
            out_of: made.outcome.out_of,
            pass_mark: made.outcome.pass_mark,
            detail: None,
        }
    }
}

impl Person {
    /// The pieces that stand for the learner, oldest first.
    pub(super) fn latest(&self) -> impl DoubleEndedIterator<Item = (&Worked, &Detail)> {
        let pieces = self.pieces.iter();
        pieces.filter_map(|piece| Some((piece, piece.detail.as_ref()?)))
    }
}
