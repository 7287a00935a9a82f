use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::records::{Learner, Ledger};

/// Which learners are looked at together. Records hold no class: what they do hold is when
/// the training began, and whether it goes on.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Group {
    /// Who has neither completed nor left.
    #[default]
    InTraining,
    /// Everybody.
    All,
    /// Whose training began in this year.
    Began(i32),
    /// Of whom no start is written.
    NoStart,
}

impl Group {
    /// The group in a word, for addresses and forms: `2024`.
    pub fn word(self) -> String {
        match self {
            Self::InTraining => "in-training".to_owned(),
            Self::All => "all".to_owned(),
            Self::Began(year) => year.to_string(),
            Self::NoStart => "no-start".to_owned(),
        }
    }

    /// The group of this word; the usual one where it is no word of one.
    pub fn from_word(word: &str) -> Self {
        match word {
            "all" => Self::All,
            "no-start" => Self::NoStart,
            word => word.parse().map_or(Self::InTraining, Self::Began),
        }
    }

    /// What people call it.
    pub fn title(self) -> String {
        match self {
            Self::InTraining => "Everybody in training".to_owned(),
            Self::All => "Everybody".to_owned(),
            Self::Began(year) => format!("Began in {year}"),
            Self::NoStart => "No start written".to_owned(),
        }
    }

    /// Whether `learner` is in it; nobody is whose name was erased.
    pub fn holds(self, learner: &Learner) -> bool {
        let is_in = match self {
            Self::InTraining => !learner.status.is_over(),
            Self::All => true,
            Self::Began(year) => learner.started.is_some_and(|day| day.year() == year),
            Self::NoStart => learner.started.is_none(),
        };
        is_in && learner.erased.is_none()
    }
}

/// Every group to choose from: everybody in training, everybody, and by the year in which
/// the training began, the latest first.
pub fn groups(ledger: &Ledger) -> Vec<Group> {
    let known = ledger
        .learners()
        .filter(|learner| Group::All.holds(learner));
    let years: BTreeSet<Option<i32>> = known
        .map(|learner| learner.started.map(|day| day.year()))
        .collect();
    let began = years.iter().rev().flatten();
    let began = began.map(|year| Group::Began(*year));
    let rest = (years.len() > 1 && years.contains(&None)).then_some(Group::NoStart);
    [Group::InTraining, Group::All]
        .into_iter()
        .chain(began)
        .chain(rest)
        .collect()
}

/// Who is in a group, by name whatever its case.
pub fn members(ledger: &Ledger, group: Group) -> Vec<&Learner> {
    let all = ledger.learners();
    let mut members: Vec<&Learner> = all.filter(|learner| group.holds(learner)).collect();
    members.sort_by_cached_key(|learner| (learner.name.to_lowercase(), learner.id));
    members
}
