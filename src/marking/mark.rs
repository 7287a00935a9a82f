use std::collections::BTreeSet;

use crate::quantity::{Exact, Marks, Unit};
use crate::rubric::{Entry, Kind, Rubric};

use super::causes::charge_once;
use super::checks::{disagreeing, wrong_instruments};
use super::cut::wrong_cut;
use super::entry::{Judgement, Sheet};
use super::facts::Facts;
use super::found::TOO_LARGE;
use super::heat_log::unknown_in_log;
use super::impression::wrong_impression;
use super::result::{Award, CauseResult, CriterionResult, Marking, Problem};
use super::taken::Slots;
use super::total::{Standing, collect_stops, scaled, total_section};

/// Marks one piece: facts and rubric in, exact marks with their reasons out.
///
/// *Shape:* every entry of the rubric has one result, in order. *Units:* marks
/// are exact; reasons print lengths in the rubric's unit. *Errors:* none;
/// what cannot be used stands in [`Marking::problems`].
pub fn mark(rubric: &Rubric, facts: &Facts) -> Marking {
    mark_in(rubric, facts, rubric.unit)
}

/// As [`mark`], with reasons printed in the sheet's own length unit.
pub fn mark_in(rubric: &Rubric, facts: &Facts, sheet: Unit) -> Marking {
    let slots = Slots::read(rubric, facts);
    let entries = rubric.entries();
    let mut problems = slots.problems.clone();
    problems.extend(unknown_ids(&entries, &slots, facts));
    problems.extend(unknown_in_log(rubric, &entries, facts));
    problems.extend(wrong_instruments(rubric, facts, &slots));
    problems.extend(wrong_impression(rubric, facts));
    problems.extend(wrong_cut(rubric, facts));
    let sheet = Sheet {
        rubric,
        facts,
        slots: &slots,
        unit: sheet,
    };
    add_up(&sheet, &entries, &mut problems).unwrap_or_else(|| too_large(&entries, problems))
}

fn add_up(
    sheet: &Sheet<'_>,
    entries: &[Entry<'_>],
    problems: &mut Vec<Problem>,
) -> Option<Marking> {
    let judged = judge_all(sheet, entries)?;
    Some(Marking {
        doubts: disagreeing(sheet),
        ..total_up(sheet.rubric, sheet.facts, entries, judged, problems)?
    })
}

/// Every entry judged, and the cause groups that gave marks back.
pub(super) struct Judged {
    pub judgements: Vec<Judgement>,
    pub charged_once: Vec<CauseResult>,
}

/// Judges every entry and charges each error once; `None` on overflow.
pub(super) fn judge_all(sheet: &Sheet<'_>, entries: &[Entry<'_>]) -> Option<Judged> {
    charged(sheet.rubric, entries, judge_each(sheet, entries)?)
}

/// Judges every entry by itself; `None` on overflow.
pub(super) fn judge_each(sheet: &Sheet<'_>, entries: &[Entry<'_>]) -> Option<Vec<Judgement>> {
    entries.iter().map(|entry| sheet.judge(entry)).collect()
}

/// Charges each error once; `None` on overflow.
pub(super) fn charged(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    mut judgements: Vec<Judgement>,
) -> Option<Judged> {
    let charged_once = charge_once(rubric, entries, &mut judgements)?;
    Some(Judged {
        judgements,
        charged_once,
    })
}

/// From judged entries to sections, total and award; of `facts` only the lifted stops
/// count here. `None` on overflow.
pub(super) fn total_up(
    rubric: &Rubric,
    facts: &Facts,
    entries: &[Entry<'_>],
    judged: Judged,
    problems: &mut Vec<Problem>,
) -> Option<Marking> {
    let Judged {
        judgements,
        charged_once,
    } = judged;
    for judgement in &judgements {
        problems.extend(judgement.problems.iter().cloned());
    }
    let sections = rubric
        .sections
        .iter()
        .map(|section| total_section(section, entries, &judgements))
        .collect::<Option<Vec<_>>>()?;
    let marks = Marks::sum(sections.iter().map(|section| section.marks))?;
    let out_of = Marks::sum(sections.iter().map(|section| section.out_of))?;
    let full = rubric.out_of()?;
    let pass_mark = scaled(rubric.award.pass, out_of, full)?;
    let stops = collect_stops(rubric, facts, &judgements);
    let missing: Vec<String> = judgements
        .iter()
        .filter(|judgement| judgement.result.marks.is_none())
        .map(|judgement| judgement.result.id.clone())
        .collect();
    let standing = Standing {
        rubric,
        complete: missing.is_empty(),
        marks,
        out_of,
        full,
        pass_mark,
        sections: &sections,
        stops: &stops.stops,
    };
    let (award, award_reasons) = standing.decide();
    let grade = standing.grade();
    let standing_stops = stops.stops.iter().filter(|stop| stop.lifted.is_none());
    let mut stopped_by: Vec<String> = Vec::new();
    for stop in standing_stops {
        if !stopped_by.contains(&stop.entry) {
            stopped_by.push(stop.entry.clone());
        }
    }
    Some(Marking {
        complete: missing.is_empty(),
        missing,
        problems: std::mem::take(problems),
        doubts: Vec::new(),
        marks,
        marked_out_of: Marks::sum(sections.iter().map(|section| section.marked_out_of))?,
        out_of,
        percent: marks.percent_of(out_of).unwrap_or(Exact::ZERO),
        pass_mark,
        award,
        award_reasons,
        stopped_by,
        stops: stops.stops,
        warnings: stops.warnings,
        grade,
        sections,
        criteria: judgements
            .into_iter()
            .map(|judgement| judgement.result)
            .collect(),
        charged_once,
    })
}

/// Ids in the facts that the rubric does not have.
fn unknown_ids(entries: &[Entry<'_>], slots: &Slots<'_>, facts: &Facts) -> Vec<Problem> {
    let of_kind = |wanted: fn(&Kind) -> bool| -> BTreeSet<&str> {
        let entries = entries.iter().filter(|entry| wanted(&entry.criterion.kind));
        entries.map(|entry| entry.id.as_str()).collect()
    };
    let all = of_kind(|_| true);
    let judged = of_kind(|kind| matches!(kind, Kind::Judged(_)));
    let tallies = of_kind(|kind| matches!(kind, Kind::Tally(_)));
    let mut problems = Vec::new();
    let mut refuse = |what: &str, id: &str, known: bool| {
        if !known {
            let message = format!(
                "the rubric has no {what} `{id}`; use an id of the rubric, with the shoe before \
                 it where the piece has several"
            );
            problems.push(Problem {
                id: id.to_owned(),
                message,
            });
        }
    };
    facts
        .readings
        .keys()
        .for_each(|id| refuse("reading", id, slots.has(id)));
    facts
        .levels
        .keys()
        .for_each(|id| refuse("judged criterion", id, judged.contains(id.as_str())));
    facts
        .tallies
        .keys()
        .for_each(|id| refuse("tally", id, tallies.contains(id.as_str())));
    let criteria = facts.faults.keys().chain(facts.states.keys());
    let criteria = criteria.chain(facts.lifts.iter().map(|lift| &lift.entry));
    criteria.for_each(|id| refuse("criterion", id, all.contains(id.as_str())));
    problems
}

/// What is left when exact numbers overflow: nothing is claimed.
pub(super) fn too_large(entries: &[Entry<'_>], mut problems: Vec<Problem>) -> Marking {
    let message = TOO_LARGE.to_owned();
    problems.push(Problem {
        id: String::new(),
        message: message.clone(),
    });
    let criteria: Vec<CriterionResult> = entries
        .iter()
        .map(|entry| CriterionResult::without_marks(&entry.id, &message))
        .collect();
    Marking {
        complete: false,
        missing: criteria.iter().map(|result| result.id.clone()).collect(),
        problems,
        doubts: Vec::new(),
        marks: Marks::ZERO,
        marked_out_of: Marks::ZERO,
        out_of: Marks::ZERO,
        percent: Exact::ZERO,
        pass_mark: Marks::ZERO,
        award: Award::Incomplete,
        award_reasons: vec![message],
        stopped_by: Vec::new(),
        stops: Vec::new(),
        warnings: Vec::new(),
        grade: None,
        sections: Vec::new(),
        criteria,
        charged_once: Vec::new(),
    }
}
