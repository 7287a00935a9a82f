//! One learner over time: charts with the numbers behind them, what to practise, and all
//! of it as a page to print.

mod card;
mod change;
mod course;
mod criteria;
mod figures;
mod milestones;
mod next;
mod own;
mod portfolio;
mod practice;
mod ready;
mod report;
mod step_heats;
mod steps;
mod tallies;

use serde::{Deserialize, Serialize};

use crate::chart::Drawing;
use crate::progress::{Made, Series};
use crate::quantity::{Exact, Marks, counted, print_decimal};

use super::document::{Cell, Table, figure, number, plain_table, text};
use super::words::percent_words;

pub use card::practice_card;
pub use course::marks_over_time;
pub use criteria::{CriterionShown, SectionShown, criteria_shown, criteria_table};
pub use figures::{CourseFigures, CurveShown, course_figures};
pub use milestones::{MilestoneShown, with_milestones};
use milestones::{milestones_facts, with_flags};
pub(super) use next::roughly;
pub use next::{HOW_NEXT, NextShown, next_shown};
pub use own::{OwnShown, own_shown};
pub use portfolio::{Portfolio, PortfolioPiece, portfolio};
pub use practice::{PracticeShown, practice_shown};
pub use ready::ready_shown;
pub use report::{Report, learner_report};
pub use step_heats::step_heats_shown;
pub use steps::steps_shown;
pub use tallies::tallies_shown;

/// A chart with its words, and with its numbers as a table for whoever does not see it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Charted {
    /// What it shows.
    pub heading: String,
    /// The drawing.
    pub drawing: Drawing,
    /// What stands below it.
    pub caption: String,
    /// Its numbers.
    pub table: Table,
    /// How what is drawn beside the plain numbers is worked out; empty where nothing is.
    pub how: String,
}

/// What is said of one thing, and how it is worked out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Told {
    /// What it is about.
    pub heading: String,
    /// What is said, a paragraph each.
    pub words: Vec<String>,
    /// The formula in words, with its source.
    pub how: String,
}

/// The title of a series' rubric.
pub fn series_title(series: &Series<'_>) -> String {
    let title = series.rubric().map(|rubric| rubric.title.clone());
    title.unwrap_or_else(|| series.rubric_id.clone())
}

/// Marks to one place where they are not whole: for means, which nobody argues about.
fn about(marks: Marks) -> String {
    mean_words(marks.0)
}

/// A mean to one place where it is not whole.
fn mean_words(mean: Exact) -> String {
    let places = u32::from(mean.denominator() != 1);
    print_decimal(mean, places)
}

/// `74 of 100`.
fn marks_of(made: &Made<'_>) -> String {
    format!("{} of {}", made.outcome.marks, made.outcome.out_of)
}

/// What a piece was made for, its marks, in per cent too, and its award.
fn outcome_cells(made: &Made<'_>) -> [Cell; 4] {
    let sitting = if made.is_own() {
        "by the maker"
    } else {
        made.sitting.word()
    };
    let award = if made.is_stopped() {
        "stopped"
    } else {
        made.outcome.award.word()
    };
    [
        Cell::text(sitting),
        figure(marks_of(made)),
        figure(percent_words(made.outcome.percent)),
        Cell::text(award),
    ]
}

/// What is said of pieces whose marks are held back; nothing of none.
pub fn held_words(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => "1 piece is held: it is marked, and its marks are not released yet".to_owned(),
        count => format!(
            "{count} pieces are held: they are marked, and their marks are not released yet"
        ),
    }
}

/// `1 piece`, `4 pieces`.
fn pieces(count: usize) -> String {
    counted(count, "piece", "pieces")
}
