//! The award, what stands against it, and why.

use crate::chart::{Drawing, Total, total};
use crate::conformity::chance_words;
use crate::marking::{Award, Marking, Stop};
use crate::quantity::{Exact, Marks, print_decimal};

use super::document::{Block, Item, Verdict, Weight};
use super::scored::{Scored, heading, notice};
use super::words::{capital, join, marks_words};

/// The award in large letters with the pass mark and how far from it.
pub(super) fn verdict(scored: &Scored<'_>) -> Verdict {
    let outcome = &scored.outcome;
    let (marks, pass) = (outcome.marks, outcome.pass_mark);
    let out_of = if outcome.complete {
        format!("of {}", outcome.out_of)
    } else {
        format!(
            "of {} so far, {} in all",
            outcome.marked_out_of, outcome.out_of
        )
    };
    let away = if outcome.complete {
        let off = marks.minus(pass).unwrap_or(marks);
        match off.0 {
            zero if zero.is_zero() => "exactly reached".to_owned(),
            under if under.is_negative() => {
                format!("{} short", marks_words(Marks(under.size())))
            }
            _ => format!("{} over", marks_words(off)),
        }
    } else {
        format!("{} without marks", outcome.missing.len())
    };
    let grade = outcome.grade.as_ref().map(|grade| format!("grade {grade}"));
    let rest = join(
        [
            format!("{pass} to pass"),
            away,
            percent(outcome.percent),
            grade.unwrap_or_default(),
        ],
        "; ",
    );
    Verdict {
        award: capital(outcome.award.word()),
        marks: marks.to_string(),
        out_of,
        rest,
        ruler: marks_ruler(outcome),
    }
}

/// What the marking comes to, drawn on a ruler with the pass mark cut into it.
pub fn marks_ruler(outcome: &Marking) -> Drawing {
    let Marking {
        marks,
        out_of,
        pass_mark,
        ..
    } = outcome;
    let at_fifth = |fifth: i128| {
        let part = Exact::fraction(fifth, 5).and_then(|part| out_of.times(part));
        part.map_or_else(String::new, |part| part.to_string())
    };
    total(&Total {
        marks: marks.0.to_f64(),
        pass: pass_mark.0.to_f64(),
        out_of: out_of.0.to_f64(),
        labels: [0, 1, 2, 3, 4, 5].map(at_fifth),
        pass_words: format!("pass {pass_mark}"),
        title: format!("{marks} of {out_of}; the pass mark is {pass_mark}"),
    })
}

/// Per cent to 0.1, ties away from zero (ISO 80000-1, annex B, rule B).
pub(super) fn percent(percent: Exact) -> String {
    format!("{} %", print_decimal(percent, 1))
}

/// What must not be overlooked: stops, warnings, what has no marks, what cannot be
/// used.
pub(super) fn notices(scored: &Scored<'_>) -> Vec<Block> {
    let outcome = &scored.outcome;
    let mut blocks = Vec::new();
    let (lifted, standing): (Vec<_>, Vec<_>) =
        outcome.stops.iter().partition(|stop| stop.lifted.is_some());
    let said = |stop: &&Stop| format!("{}: {}", scored.name_of(&stop.entry), stop.why);
    if !standing.is_empty() {
        let items = standing.iter().map(said).collect();
        blocks.push(notice(Weight::Stop, "Stopped by", items));
    }
    if !lifted.is_empty() {
        let items = lifted.iter().map(|stop| {
            let who = stop.lifted.as_ref();
            let who = who.map(|(by, why)| format!("lifted by {by}: {why}"));
            format!("{}; {}", said(stop), who.unwrap_or_default())
        });
        blocks.push(notice(
            Weight::Warn,
            "Stops lifted by the chief examiner",
            items.collect(),
        ));
    }
    if !outcome.warnings.is_empty() {
        let text = format!(
            "{} of {} warnings that stop the award",
            outcome.warnings.len(),
            scored.rubric.award.warnings_to_stop
        );
        let items = outcome.warnings.iter().map(|id| scored.name_of(id));
        blocks.push(notice(Weight::Warn, text, items.collect()));
    }
    if let Some(lack) = scored.lack {
        let text = format!("Incomplete: {}", lack.words());
        blocks.push(notice(Weight::Warn, text, Vec::new()));
    }
    if !outcome.missing.is_empty() {
        let items = outcome.missing.iter().map(|id| scored.name_of(id));
        blocks.push(notice(
            Weight::Warn,
            "Incomplete: these have no marks",
            items.collect(),
        ));
    }
    if !outcome.problems.is_empty() {
        let said = outcome
            .problems
            .iter()
            .map(|problem| join([scored.name_of(&problem.id), problem.message.clone()], ": "));
        blocks.push(notice(Weight::Warn, "Typed and not used", said.collect()));
    }
    if !outcome.doubts.is_empty() {
        let said = outcome
            .doubts
            .iter()
            .map(|doubt| join([scored.name_of(&doubt.id), doubt.message.clone()], ": "));
        let text = "Repeats that disagree; the mean counts";
        blocks.push(notice(Weight::Warn, text, said.collect()));
    }
    blocks
}

pub(super) fn why(scored: &Scored<'_>) -> Vec<Block> {
    let outcome = &scored.outcome;
    let rounding = format!(
        "{} of {} is {}: per cent is rounded to 0.1, halves away from zero; the award \
         compares exact marks",
        outcome.marks,
        outcome.out_of,
        percent(outcome.percent)
    );
    let reasons = outcome.award_reasons.iter().map(|reason| capital(reason));
    let word = match outcome.award {
        Award::Pass => "Why it passes",
        Award::NotYet => "Why not yet",
        Award::Undecided => "Why it is undecided",
        Award::Incomplete => "Why it is incomplete",
    };
    let chance = scored.certainty.and_then(|known| known.award).map(|award| {
        format!(
            "As far as measuring goes, the probability of a pass is {}. How the examiner judges \
             by eye is not in it",
            chance_words(award.pass)
        )
    });
    let items = reasons.chain(chance).chain([rounding]);
    let items = items.map(Item::plain).collect();
    vec![heading(word), Block::Items(items)]
}
