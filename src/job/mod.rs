//! Work that takes long, between the page and its worker: what they say to each other,
//! and whose turn it is.
//!
//! Messages are JSON text. [`Queue`] is the page's side as a pure machine: it is told what
//! happens and answers with the [`Step`]s that the page has to take. *Invariant.* Nothing
//! here knows how a job is done, or what a worker is in a browser. A text that is no
//! message is an error, never a panic.

mod agreement;
mod cohort;
mod course;
mod message;
mod papers;
mod photo;
mod queue;
mod study;
mod tables;

pub use agreement::Agreed;
pub use cohort::{CohortForm, CohortWanted};
pub use course::CourseWanted;
pub use message::{Answer, Job, Outcome, Request, Said, Unreadable};
pub use papers::{Binding, Content, Form, Made, PaperKind, PaperSize, Papers, Titled};
pub use photo::{NotMeasured, PhotoFound, PhotoWanted};
pub use queue::{Fault, Queue, State, Step, Topic};
pub use study::StudyWanted;
pub use tables::{MadeTable, TableFormat, Tables};
