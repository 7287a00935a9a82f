use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::agreement::Agreed;
use super::cohort::CohortWanted;
use super::course::CourseWanted;
use super::papers::{Made, Papers};
use super::photo::{PhotoFound, PhotoWanted};
use super::study::StudyWanted;
use super::tables::{MadeTable, Tables};
use crate::conformity::Certainty;
use crate::marking::Facts;
use crate::sheet::{CohortSheet, CourseFigures, Document, StudySheet};

/// A job with the number by which its answers are told.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Request {
    /// No other request of this page has it.
    pub id: u64,
    /// What is to be done.
    pub job: Job,
}

/// What a worker can do.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Job {
    /// How sure a marking is.
    Certainty {
        /// The rubric file's text.
        rubric: String,
        /// What was seen and measured.
        facts: Box<Facts>,
    },
    /// Documents as a file.
    Papers(Papers),
    /// Marks as a table.
    Tables(Tables),
    /// How well examiners agree.
    Agreement(Agreed),
    /// What the pieces of a cohort come to; as a file it is answered as a table.
    Cohort(CohortWanted),
    /// What takes long about the pieces of one learner.
    Course(CourseWanted),
    /// What an instrument study comes to.
    Study(StudyWanted),
    /// What can be measured in a photo.
    Photo(PhotoWanted),
}

/// What a job comes to; each has the name of its job, but for a cohort as a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Outcome {
    /// How sure a marking is.
    Certainty(Certainty),
    /// The file.
    Papers(Made),
    /// The table.
    Tables(MadeTable),
    /// How well examiners agree.
    Agreement(Document),
    /// What the page of a cohort shows.
    Cohort(CohortSheet),
    /// What takes long about the pieces of one learner.
    Course(Box<CourseFigures>),
    /// What an instrument study comes to.
    Study(StudySheet),
    /// What was measured in a photo.
    Photo(Box<PhotoFound>),
}

/// What a worker says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Said {
    /// It listens; what was posted before is lost.
    Ready,
    /// Something about the request with this number.
    About {
        /// The request's number.
        id: u64,
        /// What about it.
        answer: Answer,
    },
}

/// How a request stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Answer {
    /// It has begun, and this share of it is done, from 0 to 1.
    Progress(f64),
    /// It is done.
    Done(Outcome),
    /// It cannot be done: why, in words for people.
    Failed(String),
}

/// A text that is no message.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("page and worker do not understand each other; reload the page ({0})")]
pub struct Unreadable(String);

impl Request {
    /// Reads what [`Request::write`] wrote.
    ///
    /// *Errors:* [`Unreadable`].
    pub fn read(text: &str) -> Result<Self, Unreadable> {
        read(text)
    }

    /// As JSON text.
    ///
    /// *Errors:* [`Unreadable`]; nothing that is made of records gives one.
    pub fn write(&self) -> Result<String, Unreadable> {
        write(self)
    }
}

impl Said {
    /// Reads what [`Said::write`] wrote.
    ///
    /// *Errors:* [`Unreadable`].
    pub fn read(text: &str) -> Result<Self, Unreadable> {
        read(text)
    }

    /// As JSON text.
    ///
    /// *Errors:* [`Unreadable`], as for [`Request::write`].
    pub fn write(&self) -> Result<String, Unreadable> {
        write(self)
    }
}

fn read<T: DeserializeOwned>(text: &str) -> Result<T, Unreadable> {
    serde_json::from_str(text).map_err(|fault| Unreadable(fault.to_string()))
}

fn write<T: Serialize>(message: &T) -> Result<String, Unreadable> {
    serde_json::to_string(message).map_err(|fault| Unreadable(fault.to_string()))
}
