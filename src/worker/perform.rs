use super::agreement::agreed;
use super::cohort::cohort;
use super::course::course;
use super::papers::papers;
use super::photo::photo;
use super::tables::tables;
use crate::conformity::weigh;
use crate::job::{Answer, Job, Outcome, Request, Said};
use crate::rubric::{Rubric, read_rubric};
use crate::sheet::study_sheet;

/// Takes one message from the page, does what it asks for and says how that goes.
pub fn take(text: &str, say: &mut dyn FnMut(Said)) {
    let (id, outcome) = match Request::read(text) {
        Ok(Request { id, job }) => {
            let answer = Answer::Progress(0.0);
            say(Said::About { id, answer });
            let mut tell = |share: f64| {
                let answer = Answer::Progress(share);
                say(Said::About { id, answer });
            };
            (id, perform(&job, &mut tell))
        }
        // Whose it was cannot be read. Requests are counted from 1.
        Err(fault) => (0, Err(fault.to_string())),
    };
    let answer = outcome.map_or_else(Answer::Failed, Answer::Done);
    say(Said::About { id, answer });
}

/// Does a job; `tell` hears how much of it is done, from 0 to 1, where that is known.
///
/// *Errors:* in words, for people.
pub fn perform(job: &Job, tell: &mut dyn FnMut(f64)) -> Result<Outcome, String> {
    match job {
        Job::Certainty { rubric, facts } => {
            let rubric = read(rubric)?;
            let certainty = weigh(&rubric, facts).map_err(|fault| fault.to_string())?;
            Ok(Outcome::Certainty(certainty))
        }
        Job::Papers(wanted) => papers(wanted, tell).map(Outcome::Papers),
        Job::Cohort(wanted) => cohort(wanted),
        Job::Course(wanted) => course(wanted, tell).map(|found| Outcome::Course(Box::new(found))),
        Job::Tables(wanted) => tables(wanted, tell).map(Outcome::Tables),
        Job::Study(wanted) => {
            let facts = &wanted.facts;
            facts.check().map_err(|fault| fault.to_string())?;
            Ok(Outcome::Study(study_sheet(facts, &wanted.instrument)))
        }
        Job::Photo(wanted) => photo(wanted, tell).map(|found| Outcome::Photo(Box::new(found))),
        Job::Agreement(wanted) => agreed(wanted, tell).map(Outcome::Agreement),
    }
}

/// Reads the rubric of a marking.
///
/// *Errors:* in words, for people: the first thing that stands against it, with its place.
pub(super) fn read(rubric: &str) -> Result<Rubric, String> {
    let checked = read_rubric(rubric);
    let fault = checked.errors().next().map(ToString::to_string);
    checked.rubric.ok_or_else(|| {
        format!(
            "the rubric of this marking cannot be read: {}",
            fault.unwrap_or_default()
        )
    })
}
