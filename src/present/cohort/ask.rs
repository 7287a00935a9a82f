use std::collections::BTreeMap;
use std::sync::Arc;

use super::{CohortQuery, cohort_query};
use crate::cohort::{
    Asked, Cohort, Group, Other, Person, Plan, Standing, Worked, made_last, members, person,
};
use crate::job::{CohortForm, CohortWanted, Job, Outcome, State, Topic};
use crate::output::file_base;
use crate::present::learners::called;
use crate::present::paper_files::Choice;
use crate::present::scores::Rubrics;
use crate::present::sure::{fault_words, stamp_words};
use crate::records::{Day, Learner, LearnerId, Ledger, RubricVersion, Whom};
use crate::sheet::CohortSheet;

/// The cohort that is asked about, its people without their pieces; `None` where no piece of
/// it counts. The page fills them in one by one, as marking all takes long.
pub fn cohort_start(ledger: &Ledger, rubrics: &Rubrics, asked: &Asked, day: Day) -> Option<Cohort> {
    let rubric = made_last(ledger, &|version| rubrics.get(version), asked)?;
    Some(Cohort {
        rubric: rubric.title.clone(),
        group: asked.group.title(),
        day,
        span: asked.span,
        latest: asked.latest,
        plan: Plan::of(&rubric),
        people: people(ledger, asked.group),
        other: asked.other.map(|group| Other {
            group: group.title(),
            people: people(ledger, group),
        }),
    })
}

/// The people of a group without their pieces.
fn people(ledger: &Ledger, group: Group) -> Vec<Person> {
    let people = members(ledger, group).into_iter();
    let person = |learner: &Learner| Person {
        id: learner.id,
        name: called(learner),
        pieces: Vec::new(),
    };
    people.map(person).collect()
}

/// The pieces of one of its people.
pub fn cohort_pieces(
    ledger: &Ledger,
    rubrics: &Rubrics,
    asked: &Asked,
    plan: &Plan,
    learner: LearnerId,
) -> Vec<Worked> {
    let read = |version: &RubricVersion| rubrics.get(version);
    person(ledger, &read, asked, plan, learner)
}

/// By what the result is known again, and what the worker is to do.
pub fn cohort_job(
    ledger: &Ledger,
    asked: &Asked,
    cohort: Cohort,
    form: CohortForm,
) -> (Topic, Job) {
    let whom = match asked.whom {
        Whom::Learner => "released",
        Whom::Examiner => "all",
    };
    let latest = ledger.latest().map(stamp_words).unwrap_or_default();
    let CohortQuery {
        rubric,
        group,
        latest: count,
        from,
        to,
        other,
    } = cohort_query(asked);
    let asked = [rubric, group, count, from, to, other].join(" ");
    let topic = Topic {
        about: format!("cohort {}", form.word()),
        version: format!("{asked} {whom} {latest} {}", cohort.day.iso()),
    };
    (topic, Job::Cohort(CohortWanted { cohort, form }))
}

/// What a file of it is called, without an ending.
pub fn cohort_base(cohort: &Cohort) -> String {
    file_base(cohort.day, &cohort.group, &cohort.rubric)
}

/// The files to choose from.
pub fn file_choices() -> Vec<Choice> {
    let choice = |form: CohortForm| match form {
        CohortForm::Csv => (
            form.word(),
            "CSV",
            "A row for each learner, a column for each criterion",
        ),
        CohortForm::Sheet | CohortForm::Xlsx => (
            form.word(),
            "Workbook",
            "XLSX: learners, pass rates and spread on sheets of their own",
        ),
    };
    CohortForm::FILES.map(choice).to_vec()
}

/// How the figures of a cohort stand.
#[derive(Debug, Clone, PartialEq)]
pub enum CohortState {
    /// They are being worked out.
    Busy {
        /// How that stands.
        text: String,
        /// How much is done, from 0 to 1, where that is known.
        share: Option<f64>,
    },
    /// Here they are.
    Known(Arc<Outcome>),
    /// There are none: why, and what to do.
    None(String),
}

impl CohortState {
    /// The matrix comes first.
    pub fn waiting() -> Self {
        Self::Busy {
            text: "Marking the latest pieces of each learner.".to_owned(),
            share: None,
        }
    }

    /// The learner of `done` of `of` is being marked.
    pub fn marking(done: usize, of: usize) -> Self {
        let count = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
        Self::Busy {
            text: format!("Marking all pieces: {done} of {of} learners."),
            share: Some(count(done) / count(of).max(1.0)),
        }
    }

    /// What is shown, once it is here.
    pub fn sheet(&self) -> Option<&CohortSheet> {
        match self {
            Self::Known(outcome) => match outcome.as_ref() {
                Outcome::Cohort(sheet) => Some(sheet),
                _ => None,
            },
            _ => None,
        }
    }
}

/// What to say while the worker's result stands so.
pub fn cohort_state(state: Option<&State>) -> CohortState {
    match state {
        None | Some(State::Waiting | State::Working(_)) => CohortState::Busy {
            text: "Working out the figures of the group.".to_owned(),
            share: None,
        },
        Some(State::Done(outcome)) => CohortState::Known(Arc::clone(outcome)),
        Some(State::Stopped) => CohortState::None(
            "Stopped before the figures were worked out. The matrix stands as it is.".to_owned(),
        ),
        Some(State::Failed(fault)) => {
            let what = "How the group stands";
            CohortState::None(fault_words(fault, what, "the matrix stands as it is"))
        }
    }
}

/// How each learner stands, once that is here.
pub fn standings(state: &CohortState) -> BTreeMap<LearnerId, Standing> {
    let people = state.sheet().map_or(&[][..], |sheet| &sheet.people);
    people.iter().map(|one| (one.id, one.standing)).collect()
}
