use std::collections::{BTreeMap, BTreeSet};

use super::dates::when;
use super::makers::name_known;
use super::pieces::{Called, PieceRow, draft_row, sealed_row};
use super::scores::{Rubrics, Score};
use crate::chart::{Drawing, PassMark, ProgressPoint, progress};
use crate::records::{Day, Learner, LearnerId, Ledger, Marking, Moment, Piece};

/// A learner in a form's list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LearnerChoice {
    /// Who.
    pub id: LearnerId,
    /// Name, with the number where there is one.
    pub name: String,
}

/// Every learner, by name.
pub fn learner_choices(ledger: &Ledger) -> Vec<LearnerChoice> {
    by_name(ledger)
        .into_iter()
        .map(|learner| LearnerChoice {
            id: learner.id,
            name: called(learner),
        })
        .collect()
}

/// A learner in the list of all.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnerRow {
    /// Who.
    pub id: LearnerId,
    /// Name, with the number where there is one.
    pub name: String,
    /// How many pieces.
    pub about: String,
    /// When the latest one was made.
    pub now: String,
    /// Marks of the latest sealed piece, and how many they are of.
    pub marks: Option<(String, String)>,
}

/// Every learner with their latest marks, by name.
pub fn learner_rows(ledger: &Ledger, rubrics: &Rubrics, now: Moment) -> Vec<LearnerRow> {
    by_name(ledger)
        .into_iter()
        .map(|learner| {
            let works = works_of(ledger, learner.id);
            let latest = works.sealed.first();
            LearnerRow {
                id: learner.id,
                name: called(learner),
                about: works.counted(),
                now: latest
                    .and_then(|work| work.day)
                    .map_or_else(String::new, |day| {
                        format!("latest {}", when(day, now.day()))
                    }),
                marks: latest
                    .and_then(|work| rubrics.score(ledger, work.marking))
                    .map(|score| (score.marks, score.out_of)),
            }
        })
        .collect()
}

/// How many learners there are.
pub fn learners_counted(count: usize) -> String {
    match count {
        0 => "nobody on this device yet".to_owned(),
        count => format!("{count} on this device"),
    }
}

/// A learner's page.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnerPage {
    /// The name alone, as a form has it.
    pub name: String,
    /// The number alone, empty where there is none.
    pub given_number: String,
    /// Name and number, as the page is called.
    pub title: String,
    /// How many pieces.
    pub about: String,
    /// Marks over time, one chart for each rubric with a marked piece.
    pub charts: Vec<Chart>,
    /// Pieces on the bench, then sealed ones, newest first.
    pub pieces: Vec<PieceRow>,
}

/// A chart with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it shows.
    pub heading: String,
    /// The drawing.
    pub drawing: Drawing,
    /// What stands below it.
    pub caption: String,
}

/// The page of one learner; `None` where there is no such learner.
pub fn learner_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    now: Moment,
) -> Option<LearnerPage> {
    let learner = ledger.learner(id)?;
    let works = works_of(ledger, id);
    let drafts = works
        .drafts
        .iter()
        .map(|draft| draft_row(ledger, rubrics, *draft, Called::ByRubric, now));
    let sealed = works
        .sealed
        .iter()
        .map(|work| rubrics.score(ledger, work.marking));
    let scores: Vec<_> = sealed.collect();
    let sealed =
        works.sealed.iter().zip(&scores).map(|(work, score)| {
            sealed_row(ledger, work.piece, score.clone(), Called::ByRubric, now)
        });
    Some(LearnerPage {
        name: learner.name.clone(),
        given_number: learner.given_number.clone().unwrap_or_default(),
        title: called(learner),
        about: works.counted(),
        pieces: drafts.chain(sealed).collect(),
        charts: charts(ledger, &works.sealed, &scores),
    })
}

fn by_name(ledger: &Ledger) -> Vec<&Learner> {
    let mut learners: Vec<_> = ledger.learners().collect();
    learners.sort_by_cached_key(|learner| (learner.name.to_lowercase(), learner.id));
    learners
}

fn called(learner: &Learner) -> String {
    match &learner.given_number {
        Some(number) => format!("{} ({number})", learner.name),
        None => learner.name.clone(),
    }
}

/// What a learner has made, as far as pages may say so.
struct Works<'a> {
    drafts: Vec<(&'a Piece, &'a Marking)>,
    sealed: Vec<Work<'a>>,
}

/// A sealed piece.
struct Work<'a> {
    piece: &'a Piece,
    day: Option<Day>,
    marking: &'a Marking,
}

impl Works<'_> {
    fn counted(&self) -> String {
        let on_bench: BTreeSet<_> = self.drafts.iter().map(|(piece, _)| piece.id).collect();
        let sealed = self.sealed.iter().map(|work| work.piece.id);
        let all: BTreeSet<_> = on_bench.iter().copied().chain(sealed).collect();
        let pieces = match all.len() {
            0 => return "no pieces yet".to_owned(),
            1 => "1 piece".to_owned(),
            count => format!("{count} pieces"),
        };
        match on_bench.len() {
            0 => pieces,
            count => format!("{pieces}, {count} on the bench"),
        }
    }
}

fn works_of(ledger: &Ledger, id: LearnerId) -> Works<'_> {
    let mut works = Works {
        drafts: Vec::new(),
        sealed: Vec::new(),
    };
    for piece in ledger
        .pieces_of(id)
        .filter(|piece| name_known(ledger, piece))
    {
        let standing = ledger.standing(piece.id);
        let drafts = standing.drafts().iter().rev();
        works.drafts.extend(drafts.map(|marking| (piece, *marking)));
        works.sealed.extend(standing.counts().map(|marking| Work {
            piece,
            day: ledger.sitting(piece.sitting).map(|sitting| sitting.day),
            marking,
        }));
    }
    works.sealed.sort_by_key(|work| std::cmp::Reverse(work.day));
    works
}

fn charts(ledger: &Ledger, sealed: &[Work<'_>], scores: &[Option<Score>]) -> Vec<Chart> {
    let mut by_rubric: BTreeMap<&str, Vec<(&Work<'_>, Day, &Score)>> = BTreeMap::new();
    // Oldest first, as they stand on the chart.
    for (work, score) in sealed.iter().zip(scores).rev() {
        let rubric = ledger.rubric(&work.piece.rubric);
        if let (Some(rubric), Some(day), Some(score)) = (rubric, work.day, score) {
            let drawn = by_rubric.entry(&rubric.rubric_id).or_default();
            drawn.push((work, day, score));
        }
    }
    let mut charts: Vec<_> = by_rubric
        .into_values()
        .filter_map(|drawn| chart(ledger, &drawn))
        .collect();
    charts.sort_unstable_by(|one, other| one.heading.cmp(&other.heading));
    charts
}

fn chart(ledger: &Ledger, drawn: &[(&Work<'_>, Day, &Score)]) -> Option<Chart> {
    let (newest, _, latest) = drawn.last()?;
    let (_, _, first) = drawn.first()?;
    let title = &ledger.rubric(&newest.piece.rubric)?.title;
    let heading = format!("{title} over time");
    let points: Vec<_> = drawn
        .iter()
        .map(|(_, day, score)| ProgressPoint {
            date: day.date(),
            percent: score.percent,
            stopped: score.stopped,
        })
        .collect();
    let pass = latest.pass_percent.map(|percent| PassMark {
        percent,
        label: format!("pass {}", latest.pass_words),
    });
    let pieces = match drawn.len() {
        1 => format!("One piece, {} of {}", latest.marks, latest.out_of),
        count => format!(
            "{count} pieces, from {} of {} at first to {} of {} at last",
            first.marks, first.out_of, latest.marks, latest.out_of
        ),
    };
    let open = if points.iter().any(|point| point.stopped) {
        "; an open one was stopped"
    } else {
        ""
    };
    Some(Chart {
        drawing: progress(
            heading.clone(),
            format!(
                "{pieces}; the pass mark is {}. The pieces are listed below.",
                latest.pass_words
            ),
            &points,
            pass.as_ref(),
        ),
        heading,
        caption: format!("Each dot is one piece{open}. Marks in per cent of what could be had."),
    })
}
