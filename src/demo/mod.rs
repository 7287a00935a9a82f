//! An invented farriery school: nine months of twelve learners, three examiners and
//! 170 markings, for whoever wants to look round before there is anything to mark.
//!
//! Nobody in it lives, and nothing in it was measured. Learners have a skill for each
//! making step that grows with practice; each piece is drawn from it, and each
//! examiner's readings and judgements from the piece. The program knows no rubric by
//! name: it walks the entries and slots of whatever it is given. Everything goes
//! through [`apply`](crate::command::apply), seals too, so that only what commands can
//! make comes out.
//!
//! The making of three of them is watched, so that heat logs have something to show; one is tapped
//! from what is typed on its sheet, and changes no marks.
//!
//! On one day all examiners mark the same eight pieces, so that figures of agreement have
//! something to show.
//!
//! *Told apart for ever.* Every stamp of the demo bears one [`device`] that no person's
//! device can have, and every id is a digest of its stamp. So a record of the demo is
//! known by its id, however often it is edited, merged or exported: [`Invented`].
//!
//! *Taken out in one step.* [`remove_demo`] is one command. It takes out what the demo's
//! device made, edited by a person or not, and nothing else. Where a person marked an
//! invented piece, or began a piece for an invented learner or in a sitting of the demo,
//! that work stays, and so does what it names: [`kept_on_removal`] lists it beforehand. A
//! draft of the demo that a person only edited goes. A rubric's text stays where a piece
//! of one's own is made to it.
//!
//! *Invariant.* The same day and seed give the same bytes on every machine: whole
//! numbers only, no clock, no chance from outside. Every stamp lies before the day that
//! the demo is opened on, so it pushes no clock and loses against every later edit.

mod aim;
mod alike;
mod amount;
mod chance;
mod enrolment;
mod handing;
mod heats;
mod learning;
mod look;
mod nominal;
mod people;
mod piece;
mod plan;
mod remarks;
mod school;
mod shape;
mod slots;
mod typed;

pub use chance::Chance;
pub use people::{STALLS, SURGES};

use thiserror::Error;

use crate::command::{Command, CommandError, removal};
use crate::records::{
    Day, Device, ExaminerId, LearnerId, Ledger, MarkingId, MilestoneId, PieceId, Record, RecordKey,
    SittingId,
};
use crate::rubric::shipped;

/// What the school is called.
pub const SCHOOL: &str = "Wexcombe Forge School (invented)";

/// The seed of the demo that the program opens.
const SEED: u64 = 1895;

/// Who writes the demo. The eight bytes are not random, as those of every other device
/// are, and are never changed: they tell invented records apart.
pub fn device() -> Device {
    Device::new("invented school", *b"wexcombe")
}

/// Why there is no demo.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DemoError {
    /// It is here.
    #[error("the invented school is open already; take it out before you open it again")]
    OpenAlready,
    /// No rubric was given.
    #[error("the invented school needs at least one rubric to work to")]
    NoRubric,
    /// A rubric that has errors.
    #[error("a rubric of the invented school cannot be read; check it by itself")]
    Unreadable,
    /// Its months would lie before there were stamps.
    #[error("the demo cannot end before {today}: its months would begin before 1970")]
    TooEarly {
        /// The day that it was asked for.
        today: Day,
    },
    /// A command of its own was refused.
    #[error(transparent)]
    Command(#[from] CommandError),
}

/// The demo's whole ledger: nine months that end a few days before `today`, worked to
/// the first five of `rubrics`, which are texts of rubric files.
///
/// *Errors:* [`DemoError::NoRubric`], [`DemoError::Unreadable`],
/// [`DemoError::TooEarly`]; [`DemoError::Command`] for a fault of the program.
pub fn demo_ledger(rubrics: &[&str], today: Day, seed: u64) -> Result<Ledger, DemoError> {
    school::ledger(rubrics, today, seed)
}

/// The command that opens the demo in `ledger`, worked to the rubrics that ship.
///
/// It adds records and changes none: what is here already stays, the text of a rubric
/// too. *Errors:* as [`demo_ledger`], and [`DemoError::OpenAlready`], because on another
/// day the same people would come out once more.
pub fn open_demo(ledger: &Ledger, today: Day) -> Result<Command, DemoError> {
    if holds_demo(ledger) {
        return Err(DemoError::OpenAlready);
    }
    let rubrics: Vec<&str> = shipped().iter().map(|shipped| shipped.text).collect();
    let demo = demo_ledger(&rubrics, today, SEED)?;
    let records = demo.records().collect();
    Ok(Command::Include { records })
}

/// The command that takes the demo out, as a whole.
pub fn remove_demo() -> Command {
    Command::RemoveMadeBy { device: device() }
}

/// Invented records that [`remove_demo`] leaves, because records of a person name them.
pub fn kept_on_removal(ledger: &Ledger) -> Vec<RecordKey> {
    removal(ledger, &device()).stays
}

/// Whether anything in `ledger` is invented. *Cost:* stops at the first; goes through
/// all of a ledger without the demo, at a digest a record.
pub fn holds_demo(ledger: &Ledger) -> bool {
    ledger.records().any(|record| is_invented(&record))
}

/// Whether the demo made `record`, whoever wrote it since. Of a rubric's text, whether
/// it came with the demo: the text itself is that of the file.
pub fn is_invented(record: &Record) -> bool {
    record.was_made_by(&device())
}

/// What can be told to be invented by itself.
pub trait Invented: Copy {
    /// Whether the demo made it.
    fn is_invented(self) -> bool;
}

macro_rules! invented {
    ($($id:ident $ordinals:expr),*) => {
        $(impl Invented for $id {
            fn is_invented(self) -> bool {
                $ordinals.iter().any(|at| self.was_made_by(&device(), *at))
            }
        })*
    };
}

// The ordinals are those of the commands, as in `Record::was_made_by`.
invented!(LearnerId [0], ExaminerId [1, 6], SittingId [2], PieceId [3], MarkingId [4, 7], MilestoneId [11]);
