//! How severe each examiner is beside the others.

use std::collections::{BTreeMap, BTreeSet};

use super::blind::{By, Gathered};
use super::{LEAST, LEVEL};
use crate::figures::severity::{Design, Facet, Rating, severity};
use crate::figures::{Interval, Lacking};
use crate::marking::ResultState;
use crate::quantity::Exact;
use crate::records::{ExaminerId, PieceId};
use crate::rubric::{Entry, Kind};

/// The standard normal quantile of [`LEVEL`], both sides.
const REACH: f64 = 1.96;

/// How severe examiners are, and what that rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Strictness {
    /// Each one, the most severe first.
    pub examiners: Vec<ExaminerStrictness>,
    /// Names of the criteria that it rests on.
    pub criteria: Vec<String>,
    /// How many pieces it rests on.
    pub pieces: usize,
}

/// How severe one examiner is.
#[derive(Debug, Clone, PartialEq)]
pub struct ExaminerStrictness {
    /// Who.
    pub examiner: ExaminerId,
    /// In logits above the mean of all: above 0 is more severe.
    pub place: f64,
    /// Standard error of that.
    pub error: f64,
    /// The place give or take its standard errors.
    pub interval: Interval,
    /// The weighted mean square of what their levels are off; near 1 where they go as
    /// others' do.
    pub infit: f64,
    /// How many levels it rests on.
    pub ratings: usize,
}

impl ExaminerStrictness {
    /// Whether another is told from this one: their places differ by more than 1.96 times
    /// the standard error of a difference, as if both were measured apart.
    pub fn differs_from(&self, other: &Self) -> bool {
        let error = self.error.hypot(other.error);
        (self.place - other.place).abs() > REACH * error
    }
}

/// Why nothing is said of how severe examiners are.
#[derive(Debug, Clone, PartialEq)]
pub enum StrictnessLack {
    /// Too few pieces: so many.
    Pieces(usize),
    /// These groups of examiners have no piece in common, even over others.
    Apart(Vec<BTreeSet<ExaminerId>>),
    /// There is no such fit.
    Lacking(Lacking),
}

/// How far an examiner's totals lie above those of others on the same pieces, on the mean,
/// and on how many pieces; in per cent of the marks.
pub(super) fn against_others(
    gathered: &Gathered<'_>,
) -> BTreeMap<ExaminerId, (Option<Exact>, usize)> {
    let of = |examiner: ExaminerId| {
        let off = gathered.twice.iter().filter_map(|seen| {
            let own = seen.by(examiner)?.percent()?;
            let others = seen.by.iter().filter(|by| by.examiner != examiner);
            let others: Vec<Exact> = others.filter_map(By::percent).collect();
            own.minus(Exact::mean(&others)?)
        });
        let off: Vec<Exact> = off.collect();
        (Exact::mean(&off), off.len())
    };
    let examiners = gathered.examiners.iter();
    examiners.map(|one| (*one, of(*one))).collect()
}

/// One level that was given.
#[derive(Clone, Copy)]
struct Given {
    piece: PieceId,
    criterion: usize,
    examiner: ExaminerId,
    level: usize,
}

/// Where examiners stand by the many-facet rating-scale model, with pieces in the place of
/// learners.
///
/// *Levels:* the model takes one scale for all criteria. Only what is seen by eye enters,
/// criteria with levels and lists of faults, as readings tell of instruments; and of each
/// the rank of its marks that sheets show, [`Marks::rank`](crate::quantity::Marks::rank).
/// Ranks that nobody gave are closed up. Criteria and pieces that got the highest rank each
/// time, or the lowest, tell nothing of examiners and are left out. Such rules are common
/// practice; no source.
pub(super) fn strictness(gathered: &Gathered<'_>) -> Result<Strictness, StrictnessLack> {
    if gathered.twice.len() < LEAST {
        return Err(StrictnessLack::Pieces(gathered.twice.len()));
    }
    let entries = gathered.rubric.entries();
    let by_eye =
        |entry: &&Entry<'_>| matches!(entry.criterion.kind, Kind::Judged(_) | Kind::Faults(_));
    let seen: Vec<&Entry<'_>> = entries.iter().filter(by_eye).collect();
    let mut given = given(gathered, &seen);
    while leave_out_extremes(&mut given) {}
    close_up(&mut given);
    let pieces: BTreeSet<PieceId> = given.iter().map(|one| one.piece).collect();
    if pieces.len() < LEAST {
        return Err(StrictnessLack::Pieces(pieces.len()));
    }
    let criteria: BTreeSet<usize> = given.iter().map(|one| one.criterion).collect();
    let examiners: BTreeSet<ExaminerId> = given.iter().map(|one| one.examiner).collect();
    let design = design(&given).map_err(StrictnessLack::Lacking)?;
    let apart = parts(&design, &examiners);
    if apart.len() > 1 {
        return Err(StrictnessLack::Apart(apart));
    }
    let fit = severity(&design).map_err(StrictnessLack::Lacking)?;
    let both = examiners.into_iter().zip(fit.examiners);
    let mut found: Vec<ExaminerStrictness> = both
        .map(|(examiner, one)| ExaminerStrictness {
            examiner,
            place: one.place,
            error: one.error,
            interval: Interval {
                low: one.place - REACH * one.error,
                high: one.place + REACH * one.error,
                level: LEVEL,
            },
            infit: one.infit,
            ratings: one.ratings,
        })
        .collect();
    found.sort_by(|a, b| {
        b.place
            .total_cmp(&a.place)
            .then(a.examiner.cmp(&b.examiner))
    });
    let named = criteria.iter().filter_map(|at| seen.get(*at));
    Ok(Strictness {
        examiners: found,
        criteria: named.map(|entry| entry.name()).collect(),
        pieces: pieces.len(),
    })
}

fn given(gathered: &Gathered<'_>, entries: &[&Entry<'_>]) -> Vec<Given> {
    let mut given = Vec::new();
    for seen in &gathered.twice {
        for by in &seen.by {
            for (criterion, entry) in entries.iter().enumerate() {
                given.extend(rank(by, entry).map(|level| Given {
                    piece: seen.piece.id,
                    criterion,
                    examiner: by.examiner,
                    level,
                }));
            }
        }
    }
    given
}

/// The rank of the marks given; nothing where the criterion was not looked at as usual.
fn rank(by: &By<'_>, entry: &Entry<'_>) -> Option<usize> {
    let result = by.outcome.criterion(&entry.id)?;
    let is_usual = result.state == ResultState::Valued;
    let marks = result.marks.filter(|_| is_usual)?;
    Some(usize::from(marks.rank(result.out_of)))
}

/// Leaves out pieces and criteria that got the highest level each time, or the lowest; gives
/// whether there were any.
fn leave_out_extremes(given: &mut Vec<Given>) -> bool {
    let before = given.len();
    let ends = given.iter().map(|one| one.level).max();
    let ends = [given.iter().map(|one| one.level).min(), ends];
    let told = |extreme: &dyn Fn(&Given, &Given) -> bool, one: &Given, all: &[Given]| {
        let mut alike = all.iter().filter(|other| extreme(one, other));
        let is_end = ends.contains(&Some(one.level));
        !is_end || alike.any(|other| other.level != one.level)
    };
    let all = given.clone();
    given.retain(|one| {
        told(&|a, b| a.piece == b.piece, one, &all)
            && told(&|a, b| a.criterion == b.criterion, one, &all)
    });
    given.len() < before
}

/// Numbers the levels that were given from 0 without gaps.
fn close_up(given: &mut [Given]) {
    let levels: BTreeSet<usize> = given.iter().map(|one| one.level).collect();
    for one in given {
        one.level = levels.range(..one.level).count();
    }
}

fn design(given: &[Given]) -> Result<Design, Lacking> {
    fn number<T: Ord>(all: &BTreeSet<T>, one: &T) -> usize {
        all.range(..one).count()
    }
    let pieces: BTreeSet<PieceId> = given.iter().map(|one| one.piece).collect();
    let criteria: BTreeSet<usize> = given.iter().map(|one| one.criterion).collect();
    let examiners: BTreeSet<ExaminerId> = given.iter().map(|one| one.examiner).collect();
    let ratings = given.iter().map(|one| Rating {
        learner: number(&pieces, &one.piece),
        criterion: number(&criteria, &one.criterion),
        examiner: number(&examiners, &one.examiner),
        level: one.level,
    });
    let highest = given.iter().map(|one| one.level).max().unwrap_or(0);
    Design::of(ratings.collect(), highest)
}

/// The examiners by the parts into which pieces and examiners fall.
fn parts(design: &Design, examiners: &BTreeSet<ExaminerId>) -> Vec<BTreeSet<ExaminerId>> {
    let all: Vec<ExaminerId> = examiners.iter().copied().collect();
    let subsets = design.subsets().into_iter();
    let of_both = subsets.filter(|one| one.facets == [Facet::Learner, Facet::Examiner]);
    let parts = of_both.map(|subset| {
        let own = subset.second.iter().filter_map(|at| all.get(*at).copied());
        own.collect()
    });
    parts.collect()
}
