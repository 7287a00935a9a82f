use std::collections::BTreeMap;

use super::CourseAsked;
use super::pieces::{made, pairs};
use super::works::works_of;
use crate::job::{CourseWanted, Job, Outcome, State, Topic};
use crate::marking::Facts;
use crate::present::paper_files::MIXED_UP;
use crate::present::scores::Rubrics;
use crate::present::sure::{Meanwhile, Sure, stands};
use crate::progress::{Numbers, all_series, shown_series};
use crate::records::{LearnerId, Ledger, Marking, PieceId, Whom, sha256_hex};
use crate::sheet::CourseFigures;

/// What the worker is to do about a learner's pieces, and by what the result is known again;
/// `None` where there is nothing to tell of.
pub fn course_wanted(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    asked: &CourseAsked,
    whom: Whom,
) -> Option<(Topic, Job)> {
    ledger.learner(id)?;
    let works = works_of(ledger, id, whom);
    let pieces = made(ledger, rubrics, &works, asked.span);
    let all = all_series(&pieces);
    let series = shown_series(&all, asked.rubric.as_deref())?;
    let markings = works.sealed.iter();
    let markings = markings.filter_map(|work| Some((work.piece.id, work.marking?)));
    let markings: BTreeMap<PieceId, &Marking> = markings.collect();
    let mut texts: Vec<&str> = Vec::new();
    let weighed = series.pieces.iter().map(|made| {
        let marking = *markings.get(&made.piece)?;
        let text = text_of(ledger, marking)?;
        let at = texts.iter().position(|known| *known == text);
        let at = at.unwrap_or_else(|| {
            texts.push(text);
            texts.len() - 1
        });
        Some((at, marking.facts.clone()))
    });
    let weighed: Vec<Option<(usize, Facts)>> = weighed.collect();
    let wanted = CourseWanted {
        numbers: Numbers::of(series, &pairs(ledger, rubrics, &works, asked.span)),
        rubrics: texts.into_iter().map(str::to_owned).collect(),
        weighed,
    };
    let all_of_it = serde_json::to_vec(&wanted).ok()?;
    let topic = Topic {
        about: "course".to_owned(),
        version: sha256_hex(&all_of_it),
    };
    Some((topic, Job::Course(wanted)))
}

/// The rubric that a marking is weighed by; `None` of one that is not: an agreed one has no
/// readings of its own.
fn text_of<'a>(ledger: &'a Ledger, marking: &Marking) -> Option<&'a str> {
    let version = ledger.rubric(&marking.rubric)?;
    marking.agreement.is_none().then_some(version.text.as_str())
}

/// What the page says of it while the result stands so.
pub fn course_state(state: Option<&State>) -> Sure<CourseFigures> {
    const WORDS: Meanwhile = Meanwhile {
        ready: "Getting ready to work out how it changes.",
        working: "Working out how it changes.",
        stopped: "Stopped before it was worked out how it changes.",
        what: "How it changes",
        stays: "marks stand as they are",
    };
    stands(state, &WORDS, |outcome| match outcome {
        Outcome::Course(figures) => Ok(figures.as_ref().clone()),
        _ => Err(MIXED_UP),
    })
}
