//! What pages show, worked out and put into words: rows, forms as they are read,
//! messages. Pages render it and send commands back; they hold no formula and no
//! formatting of their own.
//!
//! *Invariant.* Pure: a ledger and the moment go in, texts and numbers come out. No
//! type of the browser is known here, so every line is tested natively.

mod again;
mod agree;
mod bench;
pub mod board;
pub mod cohort;
pub mod columns;
mod correct;
mod dates;
mod demo;
pub mod drawing_files;
mod examiners;
mod handing;
pub mod heat_log;
mod instruments;
mod learner;
mod learners;
mod ledger;
mod makers;
pub mod mark_sheet;
mod moderation;
mod offers;
pub mod over;
pub mod paper_files;
pub mod photo;
pub mod pictures;
mod pieces;
pub mod plan;
pub mod rubrics;
mod saving;
mod scored;
mod scores;
mod seal;
mod signing;
mod sittings;
mod start;
mod studies;
mod sure;
pub mod table_files;
mod tickets;
mod troubles;
pub mod verify;
mod ways;

pub use crate::sheet::FIRST_CAUTION;
pub use again::{AgainErrors, AgainForm, AgainPage, again_page, role_choice};
pub use agree::{
    AgreeChoice, AgreePage, AgreePoint, AgreeStage, OpenAgreement, agree_command, agree_page,
    settle_command,
};
pub use bench::{Bench, Interrupted, bench, interrupted};
pub use correct::{
    AfterSeal, CORRECTING_DOES, CorrectErrors, CorrectForm, CorrectPage, ERASING_A_LEARNER_DOES,
    ERASING_DOES, correct_page,
};
pub use dates::{long_day, when, when_clock};
pub use demo::{InventedSign, invented_sign, open_invented, remove_invented};
pub use examiners::{ExaminersPage, examiners_page};
pub use handing::{Feedback, Handing, HandingChoices};
pub use instruments::{
    InstrumentErrors, InstrumentForm, InstrumentRow, InstrumentsPage, MEASURED, RepeatsSaid,
    SHAPES, UNCERTAINTIES, WHAT_FIGURES_MEAN, instruments_page, repeats_said, retire_command,
    usual_commands, usual_instruments,
};
pub use learner::{
    Course, CourseAsked, DetailsErrors, DetailsForm, Handout, LearnerPage, MilestoneErrors,
    MilestoneForm, MilestoneRow, MilestonesShown, OutsideRow, PortfolioChoice, PracticePage,
    RubricChoice, SpanForm, WHO_READS, class_title, course_state, course_wanted, details_words,
    handout, learner_page, learner_print, portfolio_choices, portfolio_document, practice_page,
    status_words, undo_milestone,
};
pub use learners::{LearnerChoice, LearnerRow, learner_choices, learner_rows, learners_counted};
pub use ledger::{
    LedgerFile, LedgerPage, MOST_BYTES, MergeRow, TakeOver, ledger_file, ledger_page,
    not_handed_over, read_ledger_file, too_large,
};
pub use makers::{maker_name, piece_words, set_apart};
pub use moderation::{
    AgreementAsked, AgreementErrors, AgreementForm, HOW_TWICE, NOTHING_TWICE, agreement_choices,
    agreement_job, agreement_shown,
};
pub use offers::{Offer, offers};
pub use pieces::{Leads, NextStep, PieceRow, ended_sentence};
pub use saving::Saving;
pub use scored::{
    HELD_SIDE, NoSheet, SheetPage, SidePage, own_sheet, sheet_json, sheet_page, side_page,
};
pub use scores::{Rubrics, Score, Scorer};
pub use seal::{
    EndedChoice, SEALED_INCOMPLETE, SEALING_DOES, SealView, ended_choices, seal_commands, seal_view,
};
pub use signing::{
    KEY_DOES, KeyShown, PROVES, digest_to_sign, signed_digest, unsigned_words, with_signature,
};
pub use sittings::{
    EXAMINERS_ONLY, HELD_SITTING, SittingPage, SittingPiece, SittingRow, SittingsPage,
    sitting_page, sittings_page,
};
pub use start::{
    MarkedBy, StartErrors, StartForm, WhoForm, examiner_names, own_rubrics, sentence, sitting_words,
};
pub use studies::{
    StudyCell, StudyEdit, StudyGrid, StudyHead, StudyRow, StudyShape, StudyStep, StudyTaking,
    StudyText, WHAT_STUDIES_ASK, begin_study, moved, study_cell, study_grid, study_head, study_job,
    study_rows, study_shape, study_shown, study_taking,
};
pub use sure::{
    Sure, SurePage, certainty_job, certainty_topic, done, sure, sure_page, weighed_sheet,
};
pub use tickets::{TicketErrors, TicketForm, TicketLink, ticket_document, ticket_links};
pub use troubles::{refused_words, unreadable_words};
pub use ways::{MarkWay, OpenMarkings, PieceWay, marker_words, open_markings, piece_way};
