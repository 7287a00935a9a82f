//! A cohort as a document, as rows for files, and as what a page links to.

mod compare;
mod files;
mod rates;
mod spread;
mod standing;
mod steps;
mod test;

use serde::{Deserialize, Serialize};

use super::document::{Block, Document, Item, Weight};
use super::scored::{heading, notice};
use super::words::{join, span_words};
use crate::cohort::{Cohort, IN_ONE_ONLY, LEAST_LEARNERS, Standing, weakest_steps};
use crate::figures::Lacking;
use crate::quantity::counted;
use crate::records::{LearnerId, PieceId};

pub(in crate::sheet) use standing::{HOW as HOW_STANDING, reason as standing_reason};

pub use files::{cohort_rows, cohort_workbook};

/// What the page of a cohort shows beside its matrix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CohortSheet {
    /// How each learner stands, in the order of the cohort.
    pub people: Vec<PersonShown>,
    /// The weakest making steps with pieces to look at; none of a small group.
    pub steps: Vec<StepShown>,
    /// All figures in words.
    pub document: Document,
    /// The matrix, for paper.
    pub matrix: Vec<Block>,
}

/// How a learner stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PersonShown {
    /// Who.
    pub id: LearnerId,
    /// How.
    pub standing: Standing,
    /// How many whole pieces.
    pub pieces: usize,
    /// Why, in a sentence.
    pub reason: String,
}

/// A making step at which marks are lost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StepShown {
    /// Its name.
    pub name: String,
    /// What it costs.
    pub words: String,
    /// Pieces to look at, and what each is called.
    pub examples: Vec<(PieceId, String)>,
}

/// All that is said of a cohort.
pub fn cohort_sheet(cohort: &Cohort) -> CohortSheet {
    let people = standing::people(cohort);
    let weak = weakest_steps(cohort);
    let steps = weak.as_deref().map(|weak| steps::shown(cohort, weak));
    let steps = steps.unwrap_or_default();
    let mut blocks = Vec::new();
    if cohort.people.len() < LEAST_LEARNERS {
        blocks.push(notice(
            Weight::Info,
            small_words(cohort.people.len()),
            Vec::new(),
        ));
    }
    blocks.extend(standing::blocks(cohort, &people));
    blocks.extend(rates::blocks(cohort));
    blocks.extend(spread::blocks(cohort));
    blocks.extend(steps::blocks(cohort, &weak, &steps));
    blocks.extend(test::blocks(cohort));
    blocks.extend(compare::blocks(cohort));
    blocks.push(heading("How this is worked out"));
    blocks.push(Block::Items(how(cohort)));
    CohortSheet {
        document: Document {
            title: format!("{}: {}", cohort.rubric, cohort.group),
            about: about(cohort),
            language: "en-GB".into(),
            most_pages: None,
            blocks,
        },
        matrix: spread::matrix(cohort),
        people,
        steps,
    }
}

/// When, of what time, and how many pieces stand for a learner.
fn about(cohort: &Cohort) -> String {
    let latest = pieces(cohort.latest);
    let latest = format!(
        "A cohort on {}, latest {latest} of each learner",
        cohort.day
    );
    join([latest, span_words(cohort.span)], ", ")
}

/// That a group is too small for figures.
fn small_words(learners: usize) -> String {
    format!(
        "{} here. Figures of a group are shown from {LEAST_LEARNERS} learners on: of fewer they \
         would tell of single people.",
        counted(learners, "learner is", "learners are")
    )
}

/// Why there is no figure, as a sentence for a farrier.
fn lacking_words(lacking: &Lacking) -> String {
    match lacking {
        Lacking::TooFew {
            what: "learners",
            has,
            needs,
        } => format!("Not shown: {has} of the {needs} learners that it takes."),
        Lacking::TooFew {
            what: IN_ONE_ONLY,
            has,
            needs,
        } => format!(
            "Not shown: only {} in one of the groups and not in both. It takes {needs}, as the \
             marks of fewer could be worked out.",
            counted(*has, "learner is", "learners are")
        ),
        lacking => format!("There is no such figure here: {lacking}."),
    }
}

fn how(cohort: &Cohort) -> Vec<Item> {
    let latest = pieces(cohort.latest);
    let which = format!(
        "Sealed pieces that were marked as a whole by somebody else than their maker. Of each \
         learner the latest {latest} by the day of the sitting stand in the matrix, the spread \
         and the steps; all of them in standing and pass rates. What is held back from learners \
         is left out, unless somebody asked on the page to see it."
    );
    let stands = standing::HOW;
    let compared = cohort.other.as_ref();
    let compared = compared.map(|_| Item::about("Two groups", compare::HOW));
    let mut items = vec![
        Item::about("Which pieces", &which),
        Item::about("Who is ready, has stalled or has too few", stands),
        Item::about("Pass rates", rates::HOW),
        Item::about("Spread", spread::HOW),
        Item::about("Making steps", steps::HOW),
        Item::about("The rubric as a test", test::HOW),
    ];
    items.extend(compared);
    items
}

/// `1 piece`, `4 pieces`.
fn pieces(count: usize) -> String {
    counted(count, "piece", "pieces")
}

/// A share to a whole per cent: `67 %`.
fn share_words(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}
