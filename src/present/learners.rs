use super::dates::when;
use super::learner::{Work, works_of};
use super::makers::set_apart;
use super::scores::Rubrics;
use crate::records::{Learner, LearnerId, LearnerStatus, Ledger, Moment, Whom};

/// A learner in a form's list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LearnerChoice {
    /// Who.
    pub id: LearnerId,
    /// Name, with the number where there is one.
    pub name: String,
}

/// Learners who may begin a piece, by name: none who have completed or left, but for the
/// one whose id is `asked`, as an address names it.
pub fn learner_choices(ledger: &Ledger, asked: &str) -> Vec<LearnerChoice> {
    let asked = asked.parse::<LearnerId>().ok();
    let offers = |learner: &&Learner| {
        learner.erased.is_none() && (!learner.status.is_over() || asked == Some(learner.id))
    };
    by_name(ledger)
        .into_iter()
        .filter(offers)
        .map(|learner| LearnerChoice {
            id: learner.id,
            name: called(learner),
        })
        .collect()
}

/// A learner in the list of all.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnerRow {
    /// Who.
    pub id: LearnerId,
    /// Name, with the number where there is one.
    pub name: String,
    /// The status where it is not the usual one, and how many pieces.
    pub about: String,
    /// Whether the learner has completed or left.
    pub is_over: bool,
    /// When the latest one was made.
    pub now: String,
    /// Marks of the latest sealed piece, and how many they are of.
    pub marks: Option<(String, String)>,
}

/// Every learner with their latest marks, by name.
pub fn learner_rows(ledger: &Ledger, rubrics: &Rubrics, now: Moment) -> Vec<LearnerRow> {
    by_name(ledger)
        .into_iter()
        .map(|learner| {
            let works = works_of(ledger, learner.id, Whom::Learner);
            let latest = works.sealed.first();
            LearnerRow {
                id: learner.id,
                name: called(learner),
                about: match learner.status {
                    LearnerStatus::Learning => works.counted(),
                    status => format!("{}, {}", status.word(), works.counted()),
                },
                is_over: learner.status.is_over(),
                now: latest.map_or_else(String::new, |work| latest_words(work, now)),
                marks: latest
                    .and_then(|work| rubrics.score(ledger, work.marking?))
                    .map(|score| (score.marks, score.out_of)),
            }
        })
        .collect()
}

/// When a piece was made, and that it is held where its marks are not for the learner.
fn latest_words(work: &Work<'_>, now: Moment) -> String {
    let day = work.day.map(|day| when(day, now.day()));
    match (day, work.is_held) {
        (None, _) => String::new(),
        (Some(day), false) => format!("latest {day}"),
        (Some(day), true) => format!("latest {day}, not released yet"),
    }
}

/// How many learners there are.
pub fn learners_counted(count: usize) -> String {
    match count {
        0 => "nobody on this device yet".to_owned(),
        count => format!("{count} on this device"),
    }
}

fn by_name(ledger: &Ledger) -> Vec<&Learner> {
    let mut learners: Vec<_> = ledger.learners().collect();
    learners.sort_by_cached_key(|learner| (learner.name.to_lowercase(), learner.id));
    learners
}

pub(super) fn called(learner: &Learner) -> String {
    match &learner.given_number {
        Some(number) => format!("{} ({})", set_apart(&learner.name), set_apart(number)),
        None => set_apart(&learner.name),
    }
}
