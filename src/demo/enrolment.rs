//! What the invented school knows of its learners beside their names.

use crate::command::LearnerDetails;
use crate::records::{Day, LearnerStatus, OutsideNumber};

/// Who gave the outside numbers; the word stands in the name, so that every page says it.
const BODY: &str = "Wexcombe Guild of Shoeing (invented)";

/// One learner's place and time. Years count back from the one in which the school's
/// months begin.
struct Enrolment {
    employer: Option<&'static str>,
    years_before: i32,
    /// Month and day of the start; the planned end lies so many years later.
    start: (u32, u32),
    years: i32,
    /// Registered with the body.
    registered: bool,
    /// Where it stands at the end of the months.
    status: LearnerStatus,
}

const fn at(
    employer: &'static str,
    years_before: i32,
    start: (u32, u32),
    years: i32,
    registered: bool,
) -> Enrolment {
    Enrolment {
        employer: Some(employer),
        years_before,
        start,
        years,
        registered,
        status: LearnerStatus::Learning,
    }
}

/// In the order of the learners.
const ENROLMENTS: [Enrolment; 12] = [
    at("Ashgrove & Daughter, Farriers", 2, (9, 1), 4, true),
    at("Kuiperdal Hoefsmederij", 1, (9, 1), 4, true),
    at("Coldharbour Forge", 2, (9, 1), 4, true),
    at("Gefail Prydwen", 1, (9, 15), 4, true),
    at("Three Anvils, Wexcombe", 2, (1, 8), 4, true),
    Enrolment {
        status: LearnerStatus::Left,
        ..at("Lindqvar Hovslageri", 1, (9, 1), 4, true)
    },
    at("Coldharbour Forge", 2, (9, 1), 4, true),
    Enrolment {
        employer: None,
        ..at("", 1, (9, 1), 4, false)
    },
    Enrolment {
        status: LearnerStatus::Paused,
        ..at("Three Anvils, Wexcombe", 1, (9, 1), 4, true)
    },
    at("Strathvane Smiddy", 1, (10, 1), 4, false),
    at("Brannockly Bros", 2, (9, 1), 4, true),
    Enrolment {
        employer: None,
        ..at("", 2, (9, 1), 4, true)
    },
];

/// What happened in the training: whose, how many days after the school's first, what.
pub(super) const HAPPENED: [(usize, i64, &str); 4] = [
    (0, 121, "Began at the new yard"),
    (1, 74, "Out six weeks, wrist"),
    (1, 203, "Back at the fire every day of the week"),
    (7, 158, "First weld that held"),
];

/// `details` with what is known when the learner is enrolled; `first` is the first day of
/// the school's months.
pub(super) fn enrolled(number: usize, first: Day, details: &LearnerDetails) -> LearnerDetails {
    let Some(enrolment) = ENROLMENTS.get(number) else {
        return details.clone();
    };
    let (month, day) = enrolment.start;
    let year = first.year() - enrolment.years_before;
    let registered = enrolment.registered.then(|| OutsideNumber {
        by: BODY.to_owned(),
        number: format!("WG {year}/{:03}", 17 + 23 * number),
    });
    LearnerDetails {
        outside_numbers: registered.into_iter().collect(),
        employer: enrolment.employer.map(str::to_owned),
        started: Day::new(year, month, day),
        planned_end: Day::new(year + enrolment.years, month, day),
        ..details.clone()
    }
}

/// Where a learner stands at the end of the months.
pub(super) fn status_at_end(number: usize) -> LearnerStatus {
    let enrolment = ENROLMENTS.get(number);
    enrolment.map_or(LearnerStatus::Learning, |enrolment| enrolment.status)
}
