//! One learner: what they made, how it was marked, how it goes.

mod asked;
mod class;
mod details;
mod figures;
mod milestones;
mod pieces;
mod portfolio;
mod practice;
mod works;

use super::dates::long_day;
use super::learners::called;
use super::pieces::{Called, PieceRow, draft_row, held_row, sealed_row};
use super::scores::Rubrics;
use crate::progress::{Series, all_series, shown_series};
use crate::records::{Learner, LearnerId, Ledger, Moment, Whom};
use crate::sheet::{
    Charted, CourseFigures, Document, Fact, MilestoneShown, NextShown, OwnShown, PracticeShown,
    Report, SectionShown, Table, Told, criteria_shown, criteria_table, held_words, learner_report,
    marks_over_time, next_shown, own_shown, practice_shown, ready_shown, series_title, span_words,
    step_heats_shown, steps_shown, tallies_shown, with_milestones,
};
pub use asked::{CourseAsked, SpanForm};
pub use class::{Handout, class_title, handout};
pub use details::{DetailsErrors, DetailsForm, OutsideRow, details_words, status_words};
pub use figures::{course_state, course_wanted};
pub use milestones::{
    MilestoneErrors, MilestoneForm, MilestoneRow, MilestonesShown, WHO_READS, undo_milestone,
};
pub use portfolio::{PortfolioChoice, portfolio_choices, portfolio_document};
pub use practice::{PracticePage, practice_page};
pub(super) use works::{Work, works_of};

/// A learner's page.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnerPage {
    /// Name and number, as the page is called.
    pub title: String,
    /// Whether the name stands: more can be made and written only then.
    pub is_named: bool,
    /// How many pieces.
    pub about: String,
    /// Which days are told of: `made from 1 Mar 2026 on`; empty where all are.
    pub span: String,
    /// What happened in these days of the training.
    pub milestones: MilestonesShown,
    /// What to practise next, the costliest first.
    pub practice: Vec<PracticeShown>,
    /// The rubrics of their pieces, the one used last first.
    pub rubrics: Vec<RubricChoice>,
    /// How it goes by the chosen one; `None` before the first sealed piece.
    pub course: Option<Course>,
    /// Own marks against an examiner's, by any rubric.
    pub own: Option<OwnShown>,
    /// How own marks lie off an examiner's; `None` until the worker has it.
    pub own_eye: Option<Told>,
    /// Pieces on the bench, then sealed ones, newest first.
    pub pieces: Vec<PieceRow>,
    /// What is said of pieces whose marks are held back; empty where none are.
    pub held: String,
}

/// A rubric whose course the page can show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RubricChoice {
    /// The rubric's own id, as the address names it.
    pub id: String,
    /// Its title.
    pub title: String,
    /// How many pieces.
    pub about: String,
    /// Whether it is the one that is shown.
    pub is_chosen: bool,
}

/// How a learner's pieces by one rubric go.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Whether the learner is ready.
    pub ready: Told,
    /// Marks over time.
    pub marks: Charted,
    /// Every criterion, by section.
    pub criteria: Vec<SectionShown>,
    /// The same as a table.
    pub criteria_table: Table,
    /// Heats, time and what else is counted.
    pub tallies: Vec<Charted>,
    /// Marks lost by making step.
    pub steps: Option<Charted>,
    /// Heats by making step.
    pub step_heats: Option<Charted>,
    /// What the next piece may come to, by what it is made for.
    pub next: Vec<NextShown>,
    /// Whether marks change; `None` until the worker has it.
    pub change: Option<Told>,
    /// Which pieces stand out; `None` until the worker has it, and of too few.
    pub usual: Option<Charted>,
}

impl Course {
    fn of(
        series: &Series<'_>,
        figures: Option<&CourseFigures>,
        milestones: &[MilestoneShown],
    ) -> Self {
        let flagged = |chart| with_milestones(chart, milestones);
        let (within, curves) = figures.map_or((&[][..], &[][..]), |figures| {
            (&figures.within, &figures.curves)
        });
        Self {
            ready: ready_shown(series),
            marks: flagged(marks_over_time(series, within)),
            criteria: criteria_shown(series),
            criteria_table: criteria_table(series),
            tallies: tallies_shown(series, curves)
                .into_iter()
                .map(flagged)
                .collect(),
            steps: steps_shown(series, None),
            step_heats: step_heats_shown(series),
            next: next_shown(series),
            change: figures.map(|figures| figures.change.clone()),
            usual: figures
                .and_then(|figures| figures.usual.clone())
                .map(flagged),
        }
    }
}

/// The page of one learner, which tells of what is `asked`, with the marks that `whom` may
/// see; `None` where there is no such learner.
pub fn learner_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    asked: &CourseAsked,
    now: Moment,
    whom: Whom,
) -> Option<LearnerPage> {
    let learner = ledger.learner(id)?;
    let figures = asked.figures.as_ref();
    let works = works_of(ledger, id, whom);
    let drafts = works
        .drafts
        .iter()
        .map(|draft| draft_row(ledger, rubrics, *draft, Called::ByRubric, now, whom));
    let sealed = works.sealed.iter().map(|work| {
        let Some(marking) = work.marking else {
            return held_row(ledger, rubrics, work.piece, Called::ByRubric, now);
        };
        let score = rubrics.score(ledger, marking);
        let mut row = sealed_row(ledger, work.piece, score, Called::ByRubric, now);
        if work.is_held {
            row.now.push_str(", not released yet");
        }
        row
    });
    let made = pieces::made(ledger, rubrics, &works, asked.span);
    let all = all_series(&made);
    let shown = shown_series(&all, asked.rubric.as_deref());
    let choice = |series: &Series<'_>| RubricChoice {
        id: series.rubric_id.clone(),
        title: series_title(series),
        about: crate::quantity::counted(series.pieces.len(), "piece", "pieces"),
        is_chosen: shown.is_some_and(|shown| shown.rubric_id == series.rubric_id),
    };
    let milestones = milestones::milestones_shown(ledger, id, asked.span);
    let flags: Vec<MilestoneShown> = milestones
        .rows
        .iter()
        .map(|row| row.shown.clone())
        .collect();
    let own = own_shown(&pieces::pairs(ledger, rubrics, &works, asked.span));
    Some(LearnerPage {
        title: called(learner),
        is_named: learner.erased.is_none(),
        about: works.counted(),
        practice: practice_shown(&made),
        rubrics: all.iter().map(choice).collect(),
        course: shown.map(|shown| Course::of(shown, figures, &flags)),
        milestones,
        own_eye: figures.and_then(|figures| figures.own.clone()),
        span: span_words(asked.span),
        own: own.map(|own| OwnShown {
            chart: with_milestones(own.chart, &flags),
            ..own
        }),
        pieces: drafts.chain(sealed).collect(),
        held: held_words(works.held),
    })
}

/// A learner's record as a page to print; as [`learner_page`] for the learner.
pub fn learner_print(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    asked: &CourseAsked,
    now: Moment,
) -> Option<Document> {
    let learner = ledger.learner(id)?;
    let works = works_of(ledger, id, Whom::Learner);
    let made = pieces::made(ledger, rubrics, &works, asked.span);
    let (milestones, left_out) = milestones::on_paper(ledger, id, asked.span);
    let made_so_far = Fact {
        label: "Made".into(),
        value: works.counted(),
    };
    let span = span_words(asked.span);
    let told_of = (!span.is_empty()).then(|| Fact {
        label: "Told of pieces".into(),
        value: span,
    });
    Some(learner_report(&Report {
        name: learner.name.clone(),
        facts: facts_about(learner, now)
            .into_iter()
            .chain([made_so_far])
            .chain(told_of)
            .collect(),
        day: long_day(now.day()),
        pairs: &pieces::pairs(ledger, rubrics, &works, asked.span),
        pieces: &made,
        milestones: &milestones,
        left_out,
        rubric: asked.rubric.as_deref(),
        held: works.held,
        figures: asked.figures.as_ref(),
    }))
}

/// What is known of a learner besides the name.
fn facts_about(learner: &Learner, now: Moment) -> Vec<Fact> {
    let number = learner.given_number.clone();
    let number = number.map(|value| ("Number".to_owned(), value));
    let known = number.into_iter().chain(details_words(learner, now.day()));
    known
        .map(|(label, value)| Fact {
            label: label.into(),
            value,
        })
        .collect()
}
