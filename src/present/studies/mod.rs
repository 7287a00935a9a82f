//! Instrument studies: the list, the form and grid of one, and taking its result over.

mod edit;
mod grid;
mod taking;

use super::sure::{Meanwhile, Sure, stamp_words, stands};
use crate::command::Command;
use crate::job::{Job, Outcome, State, StudyWanted, Topic};
use crate::quantity::counted;
use crate::records::{Day, Ledger, Study, StudyFacts, StudyId, StudyPart, StudyPerson, Unit};
use crate::sheet::StudySheet;

pub use edit::{StudyEdit, StudyStep, StudyText};
pub use grid::{StudyCell, StudyGrid, StudyShape, moved, study_cell, study_grid, study_shape};
pub use taking::{StudyTaking, study_taking};

/// What a study asks of people.
pub const WHAT_STUDIES_ASK: [&str; 2] = [
    "Two or three people measure the same five to ten parts, or places of a shoe, two or three \
     times each. Nobody sees what was read before. Take the parts in another order each time.",
    "A letter or number is enough for a person. Names are erased with a learner of that name.",
];

/// A study in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyRow {
    /// Which one.
    pub id: StudyId,
    /// What it is called.
    pub title: String,
    /// Of what and when.
    pub about: String,
    /// Not wanted any more.
    pub set_aside: bool,
}

/// The list, the latest begun first, those set aside last.
pub fn study_rows(ledger: &Ledger) -> Vec<StudyRow> {
    let mut rows: Vec<StudyRow> = ledger.studies().map(|study| row(ledger, study)).collect();
    rows.sort_by_key(|row| row.set_aside);
    rows
}

fn row(ledger: &Ledger, study: &Study) -> StudyRow {
    StudyRow {
        id: study.id,
        title: title(ledger, &study.facts),
        about: format!(
            "{}, {}{}",
            study.facts.day,
            typed(&study.facts),
            if study.set_aside { ", set aside" } else { "" }
        ),
        set_aside: study.set_aside,
    }
}

fn typed(facts: &StudyFacts) -> String {
    let places = facts.places().count();
    let there = facts
        .places()
        .filter(|place| facts.reading(*place).is_some());
    format!(
        "{} of {}",
        there.count(),
        counted(places, "reading", "readings")
    )
}

fn title(ledger: &Ledger, facts: &StudyFacts) -> String {
    match facts.name.as_str() {
        "" => format!("Study of {}", instrument_name(ledger, &facts.instrument)),
        name => name.to_owned(),
    }
}

/// What an instrument is called, or its short name where it is not here.
fn instrument_name(ledger: &Ledger, id: &str) -> String {
    let own = ledger.instrument(id);
    own.map_or_else(|| id.to_owned(), |own| own.fact.name.clone())
}

/// Begins a study of an instrument: five parts, three people, three trials, all of which can
/// be changed.
pub fn begin_study(instrument: &str, day: Day) -> Command {
    let person = |name: &str| StudyPerson {
        id: 0,
        name: name.to_owned(),
    };
    Command::BeginStudy {
        facts: Box::new(StudyFacts {
            name: String::new(),
            instrument: instrument.to_owned(),
            day,
            unit: Unit::Millimetre,
            parts: vec![StudyPart::default(); 5],
            people: ["A", "B", "C"].map(person).to_vec(),
            trials: 3,
            readings: Default::default(),
            note: String::new(),
        }),
    }
}

/// The head of the page of a study.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyHead {
    /// What it is called.
    pub title: String,
    /// Of what and when, and how much of it is typed.
    pub about: String,
    /// Not wanted any more.
    pub set_aside: bool,
    /// Whether there is something to work out.
    pub has_readings: bool,
}

/// The head of the page of `study`; `None` where it is not here.
pub fn study_head(ledger: &Ledger, study: StudyId) -> Option<StudyHead> {
    let study = ledger.study(study)?;
    let facts = &study.facts;
    Some(StudyHead {
        title: title(ledger, facts),
        about: format!(
            "Instrument study of {}, {}, {}",
            instrument_name(ledger, &facts.instrument),
            facts.day,
            typed(facts)
        ),
        set_aside: study.set_aside,
        has_readings: facts.places().any(|place| facts.reading(place).is_some()),
    })
}

/// What the worker needs, and by what its result is known again; `None` where the study is
/// not here.
pub fn study_job(ledger: &Ledger, study: StudyId) -> Option<(Topic, Job)> {
    let study = ledger.study(study)?;
    let instrument = instrument_name(ledger, &study.facts.instrument);
    let topic = Topic {
        about: study.id.to_string(),
        version: format!("{} {instrument}", stamp_words(&study.stamp)),
    };
    let wanted = StudyWanted {
        facts: study.facts.clone(),
        instrument,
    };
    Some((topic, Job::Study(wanted)))
}

/// What the page says while the result stands so.
pub fn study_shown(state: Option<&State>) -> Sure<StudySheet> {
    const WORDS: Meanwhile = Meanwhile {
        ready: "Getting ready to work the study out.",
        working: "Working the study out.",
        stopped: "Stopped before it was worked out. The readings stand as they are.",
        what: "What the study comes to",
        stays: "the readings stand as they are",
    };
    stands(state, &WORDS, |outcome| match outcome {
        Outcome::Study(sheet) => Ok(sheet.clone()),
        _ => Err("The worker answered something else; reload the page."),
    })
}
