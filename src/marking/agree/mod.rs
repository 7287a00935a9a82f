//! One marking made from those of two or three examiners.

mod between;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::quantity::Unit;
use crate::rubric::{Entry, Rubric};

use super::causes::charge_once;
use super::entry::{Judgement, Sheet};
use super::facts::Facts;
use super::mark::{Judged, judge_all, mark_in, too_large, total_up};
use super::result::{Marking, Problem};
use super::taken::Slots;
use between::{Between, Limits};

/// One examiner's marking as an agreed one is made from it; `S` tells it from the others.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a, S> {
    /// Which.
    pub id: S,
    /// Who marked.
    pub who: &'a str,
    /// What was seen and measured.
    pub facts: &'a Facts,
    /// What a bare number meant on the sheet.
    pub unit: Unit,
}

/// What people settled one entry on. In files `{"from": …}`, `"mean"` or
/// `{"marks": "7.5"}`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Settlement<S> {
    /// As this marking has it, its stops and warnings too.
    From(S),
    /// The mean of all.
    Mean,
    /// So many marks, weight counted, as typed.
    Marks(String),
}

/// How people settled one entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settled<S> {
    /// On what.
    pub by: Settlement<S>,
    /// Why; may be empty where the rubric asks for none.
    #[serde(default = "String::new", skip_serializing_if = "String::is_empty")]
    pub reason: String,
}

/// How one entry stands between the examiners.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PointState {
    /// All gave the same marks, or none has any.
    Alike,
    /// They differ, and the rubric's rule settles it.
    Ruled,
    /// People have settled it.
    Settled,
    /// People have to settle it.
    Open,
}

/// One entry between the examiners.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Point {
    /// The entry.
    pub entry: String,
    /// How it stands.
    pub state: PointState,
    /// Whether settling it asks for a reason.
    pub needs_reason: bool,
}

/// What examiners' markings come to together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Agreed {
    /// The marks and the award; entries that are open have no marks.
    pub outcome: Marking,
    /// What each source comes to by itself, in order.
    pub sources: Vec<Marking>,
    /// Every entry of the rubric, in order.
    pub points: Vec<Point>,
}

impl Agreed {
    /// Entries that people have to settle still.
    pub fn open(&self) -> impl Iterator<Item = &Point> {
        let points = self.points.iter();
        points.filter(|point| point.state == PointState::Open)
    }
}

/// Makes one marking from those of several examiners.
///
/// Each source is marked as a whole; then the marks of each entry are combined: those
/// that all gave alike stand, what people `settled` comes before the rubric's rule
/// ([`Moderation`](crate::rubric::Moderation)), and what is open has no marks. *Exact:* a mean is a rational. Errors
/// are charged once over the combined marks too; sections, caps and award follow as for
/// any marking. *Stops:* that of any source stands, unless people settled the entry:
/// then those of the marking that they took, or those that all sources have. `own` holds
/// stops that were lifted since; those lifted in a source stay lifted.
pub fn agree<S: PartialEq>(
    rubric: &Rubric,
    sources: &[Source<'_, S>],
    settled: &BTreeMap<String, Settled<S>>,
    own: &Facts,
) -> Agreed {
    let marked: Vec<Marking> = sources
        .iter()
        .map(|source| mark_in(rubric, source.facts, source.unit))
        .collect();
    let entries = rubric.entries();
    let combined = combine_all(rubric, &entries, sources, settled, &marked, own);
    let (outcome, points) = combined.unwrap_or_else(|| {
        let points = entries.iter().map(|entry| Point {
            entry: entry.id.clone(),
            state: PointState::Open,
            needs_reason: true,
        });
        (too_large(&entries, Vec::new()), points.collect())
    });
    Agreed {
        outcome,
        sources: marked,
        points,
    }
}

fn combine_all<S: PartialEq>(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    sources: &[Source<'_, S>],
    settled: &BTreeMap<String, Settled<S>>,
    marked: &[Marking],
    own: &Facts,
) -> Option<(Marking, Vec<Point>)> {
    let mut problems: Vec<Problem> = Vec::new();
    let judged = sources.iter().map(|source| {
        let slots = Slots::read(rubric, source.facts);
        let sheet = Sheet {
            rubric,
            facts: source.facts,
            slots: &slots,
            unit: source.unit,
        };
        Some(judge_all(&sheet, entries)?.judgements)
    });
    let judged = judged.collect::<Option<Vec<Vec<Judgement>>>>()?;
    let limits = Limits::of(&rubric.moderation, marked)?;
    let mut judgements = Vec::new();
    let mut points = Vec::new();
    for (at, entry) in entries.iter().enumerate() {
        let of_all = judged.iter().filter_map(|all| all.get(at)).collect();
        let between = Between {
            entry,
            sources,
            judged: of_all,
            limits: &limits,
        };
        let (judgement, point) = between.combine(settled.get(&entry.id))?;
        judgements.push(judgement);
        points.push(point);
    }
    let unknown = settled
        .keys()
        .filter(|id| entries.iter().all(|entry| &entry.id != *id));
    problems.extend(unknown.map(|id| Problem {
        id: id.clone(),
        message: format!("the rubric has no criterion `{id}` to settle; use an id of the rubric"),
    }));
    let charged_once = charge_once(rubric, entries, &mut judgements)?;
    let mut lifted = own.clone();
    let lifts = sources.iter().flat_map(|source| &source.facts.lifts);
    lifted.lifts.extend(lifts.cloned());
    let judged = Judged {
        judgements,
        charged_once,
    };
    let outcome = total_up(rubric, &lifted, entries, judged, &mut problems)?;
    Some((outcome, points))
}
