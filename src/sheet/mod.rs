//! Sheets without a format: what a printed page says, as headings, facts, tables and
//! lists, for the page, a PDF or any other writer to set.
//!
//! [`Scored`] puts the records of one marking and what they come to side by side;
//! [`scored_sheet`] makes the [`Document`] of it, [`long_rows`] and [`wide_rows`] the rows
//! that files hold, one a criterion or one a marking; [`beside`] sets a maker's own marking
//! beside the examiner's. All read the same words, so they cannot differ.
//! [`sure_document`] says how sure a marking is, as `conformity` has worked it out.
//! [`rubric_document`] is a rubric as people read it, [`learner_report`] a learner over
//! time; the charts and tables in that are those of the learner's page;
//! [`cohort_sheet`] is many learners by one rubric, [`study_sheet`] what an instrument study
//! comes to; [`bench_card`] and [`lay_on_gauge`] are what goes to the anvil.
//!
//! *Invariant.* Pure, and without a formula of its own: marks and reasons are those of
//! `marking`. A learner whose name waits for the seal is not named before it. What a
//! person typed goes through unchanged, as text.

mod agreed;
mod aim;
mod award;
mod bench_card;
mod beside;
mod blank;
mod cohort;
mod compared;
mod criteria;
mod document;
mod drift;
mod examiners;
mod expression;
mod gauge;
mod handed;
mod impression;
mod kin;
mod learner;
mod making;
mod moderation;
mod notes;
mod photos;
mod planned;
mod readings;
mod rows;
mod rubric;
mod rubric_criterion;
mod scale;
mod scored;
mod seal;
mod specification;
mod stated;
mod study;
mod sure;
mod sure_criteria;
mod tickets;
mod tolerance;
mod verified;
mod words;
mod workbook;

pub use crate::conformity::chance_words;
pub use award::marks_ruler;
pub use bench_card::{ANVIL_CAUTION, BenchCard, bar_drawing, bench_card, chosen_words};
pub use beside::beside;
pub use blank::{BlankField, BlankPart, BlankSheet, blank_sheet};
pub use cohort::{CohortSheet, PersonShown, StepShown, cohort_rows, cohort_sheet, cohort_workbook};
pub use compared::{compared, tried};
pub use document::{
    Block, Cell, CellRole, Column, Document, Fact, Group, Item, Notice, Oversize, Pictured, Table,
    Verdict, Weight, with_above,
};
pub use drift::InOrder;
pub use examiners::{Between, between, examiners_document, marker};
pub use gauge::{
    GaugeTolerance, LayOnGauge, ToleranceFrom, gauge_drawing, gauge_tolerance, lay_on_gauge,
};
pub use handed::{Handed, Released, deed_words};
pub use impression::impression_words;
pub use kin::Kin;
pub use learner::{
    Charted, CourseFigures, CriterionShown, CurveShown, HOW_NEXT, MilestoneShown, NextShown,
    OwnShown, Portfolio, PortfolioPiece, PracticeShown, Report, SectionShown, Told, course_figures,
    criteria_shown, criteria_table, held_words, learner_report, marks_over_time, next_shown,
    own_shown, portfolio, practice_card, practice_shown, ready_shown, series_title,
    step_heats_shown, steps_shown, tallies_shown, with_milestones,
};
pub use making::{
    counted_words, made_table, made_totals, making_is_told, shared_words, spoken, step_name,
};
pub use moderation::{DayAsked, Moderated, agreement_document};
pub use photos::pictured;
pub use planned::{PLAN_BEHIND, Planned, plan_sheet};
pub use rows::{Field, Rows, SameName, in_columns, long_rows, wide_rows};
pub use rubric::rubric_document;
pub use rubric_criterion::level_photo;
pub use scale::drawn_scale;
pub use scored::{Scored, scored_sheet};
pub use stated::StatedReadings;
pub use study::{StudySheet, part_name, person_name, place_name, study_sheet};
pub use sure::sure_document;
pub use sure_criteria::{amount_words, remeasure_words, two_digits};
pub use tickets::ticket_sheet;
pub use verified::{text_lines, verified};
pub use words::{
    FIRST_CAUTION, capital, figures_words, off_words, percent_words, span_words, whole_percent,
};
pub use workbook::{Workbook, WorkbookSheet, workbook};
