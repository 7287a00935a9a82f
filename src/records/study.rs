//! An instrument study: what is typed of it, and the record that keeps it.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use thiserror::Error;

use super::ids::StudyId;
use super::people::NAME_ERASED;
use super::stamp::Stamp;
use crate::quantity::{Day, Moment, Unit};

/// One cell of the grid. Parts and people are named by their ids, so that nothing moves when
/// one of them is taken out.
///
/// *Print and parse:* `2.1.3` is part 2, person 1, trial 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Which part, by its id.
    pub part: u32,
    /// Who measures, by id.
    pub person: u32,
    /// Which trial, from 1.
    pub trial: u32,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}.{}", self.part, self.person, self.trial)
    }
}

impl FromStr for Place {
    type Err = StudyFault;

    fn from_str(text: &str) -> Result<Self, StudyFault> {
        let mut numbers = text.split('.').map(|number| number.parse().ok());
        let mut next = || numbers.next().flatten();
        let place = (|| {
            Some(Self {
                part: next()?,
                person: next()?,
                trial: next()?,
            })
        })();
        // Another spelling of the same place would be a second reading of it.
        place
            .filter(|place| place.to_string() == text)
            .ok_or_else(|| StudyFault::Key(text.chars().take(40).collect()))
    }
}

impl Serialize for Place {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Place {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        text.parse().map_err(de::Error::custom)
    }
}

/// Something that is measured again and again.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyPart {
    /// Tells it from the other parts of its study for good; 0 until it is kept.
    pub id: u32,
    /// What it is called; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Its known size, as typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Standard uncertainty of the known size, as typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<String>,
}

/// Somebody who measures.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyPerson {
    /// Tells them from the other people of the study for good; 0 until they are kept.
    pub id: u32,
    /// What they are called; a letter or number is enough, and it may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

/// Parts measured by people in trials with one instrument, all as typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudyFacts {
    /// What the study is called; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The short name of the ledger's instrument.
    pub instrument: String,
    /// When it was measured.
    pub day: Day,
    /// What a bare number is read in.
    pub unit: Unit,
    /// What is measured, in order.
    pub parts: Vec<StudyPart>,
    /// Who measures, in order.
    pub people: Vec<StudyPerson>,
    /// How often each measures each part.
    pub trials: u32,
    /// Readings as typed.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub readings: BTreeMap<Place, String>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Why a study cannot be kept as it is.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StudyFault {
    /// Too many or no parts.
    #[error("parts: there are {0}; give 1 to {most}", most = StudyFacts::MOST_PARTS)]
    Parts(usize),
    /// Too many or no people.
    #[error("people: there are {0}; give 1 to {most}", most = StudyFacts::MOST_PEOPLE)]
    People(usize),
    /// A number of trials that says nothing, or too many.
    #[error("trials: {0} of each; give 2 to {most}", most = StudyFacts::MOST_TRIALS)]
    Trials(u32),
    /// Two parts or two people under one id, or one without.
    #[error("{0}: each needs an id of its own above 0; save the file anew where it comes from")]
    Ids(&'static str),
    /// A key that names no cell of any grid.
    #[error("`{0}` is no place of a reading; places look like 2.1.3: part, person, trial")]
    Key(String),
    /// A reading of a part, a person or a trial that the study does not have.
    #[error(
        "a reading stands at {0}, whose part, person or trial is not in the study; look at the grid again"
    )]
    Place(Place),
    /// A text that is longer than anybody means.
    #[error("{what}: more than {most} letters; write it shorter")]
    Long {
        /// Which text.
        what: &'static str,
        /// How many letters it may have.
        most: usize,
    },
}

impl StudyFacts {
    /// How many parts a study has at most.
    pub const MOST_PARTS: usize = 20;
    /// How many people a study has at most.
    pub const MOST_PEOPLE: usize = 8;
    /// How many trials a study has at most.
    pub const MOST_TRIALS: u32 = 10;
    /// How many letters a name or reading has at most.
    pub const MOST_LETTERS: usize = 100;
    /// How many letters a note has at most.
    pub const MOST_NOTE: usize = 4_000;

    /// Whether the grid is one that can be filled in, and each reading stands in it.
    ///
    /// # Errors
    ///
    /// [`StudyFault`]: what there is too much or too little of.
    pub fn check(&self) -> Result<(), StudyFault> {
        let (parts, people) = (self.parts.len(), self.people.len());
        if !(1..=Self::MOST_PARTS).contains(&parts) {
            return Err(StudyFault::Parts(parts));
        }
        if !(1..=Self::MOST_PEOPLE).contains(&people) {
            return Err(StudyFault::People(people));
        }
        if !(2..=Self::MOST_TRIALS).contains(&self.trials) {
            return Err(StudyFault::Trials(self.trials));
        }
        if !are_own(self.parts.iter().map(|part| part.id)) {
            return Err(StudyFault::Ids("parts"));
        }
        if !are_own(self.people.iter().map(|person| person.id)) {
            return Err(StudyFault::Ids("people"));
        }
        if let Some(place) = self.readings.keys().find(|place| !self.has(**place)) {
            return Err(StudyFault::Place(*place));
        }
        self.check_texts()
    }

    fn check_texts(&self) -> Result<(), StudyFault> {
        let short = |what: &'static str, text: &str, most: usize| {
            if text.chars().count() > most {
                return Err(StudyFault::Long { what, most });
            }
            Ok(())
        };
        short("name", &self.name, Self::MOST_LETTERS)?;
        short("instrument", &self.instrument, Self::MOST_LETTERS)?;
        short("note", &self.note, Self::MOST_NOTE)?;
        for person in &self.people {
            short("name of a person", &person.name, Self::MOST_LETTERS)?;
        }
        for part in &self.parts {
            short("name of a part", &part.name, Self::MOST_LETTERS)?;
            for text in [&part.reference, &part.uncertainty].into_iter().flatten() {
                short("known size of a part", text, Self::MOST_LETTERS)?;
            }
        }
        let mut readings = self.readings.values();
        readings.try_for_each(|text| short("reading", text, Self::MOST_LETTERS))
    }

    /// Whether the grid has this place.
    #[must_use]
    pub fn has(&self, place: Place) -> bool {
        self.parts.iter().any(|part| part.id == place.part)
            && self.people.iter().any(|person| person.id == place.person)
            && (1..=self.trials).contains(&place.trial)
    }

    /// Every place: part by part, within it person by person, within them trial by trial.
    pub fn places(&self) -> impl Iterator<Item = Place> {
        self.parts.iter().flat_map(|part| {
            self.people.iter().flat_map(|person| {
                (1..=self.trials).map(|trial| Place {
                    part: part.id,
                    person: person.id,
                    trial,
                })
            })
        })
    }

    /// What is typed at a place; nothing where that is only spaces.
    #[must_use]
    pub fn reading(&self, place: Place) -> Option<&str> {
        let text = self.readings.get(&place)?.trim();
        (!text.is_empty()).then_some(text)
    }

    /// Lets go of readings that stand nowhere in the grid.
    pub fn drop_strays(&mut self) {
        let mut readings = std::mem::take(&mut self.readings);
        readings.retain(|place, _| self.has(*place));
        self.readings = readings;
    }
}

/// Whether ids are above 0 and no two alike.
fn are_own(ids: impl Iterator<Item = u32>) -> bool {
    let mut seen = BTreeSet::new();
    { ids }.all(|id| id > 0 && seen.insert(id))
}

/// A study of how well something can be measured with an instrument of this ledger.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Study {
    /// Its id.
    pub id: StudyId,
    /// Last written.
    pub stamp: Stamp,
    /// All that is typed.
    #[serde(deserialize_with = "checked")]
    pub facts: StudyFacts,
    /// Not wanted any more; it stays and can be brought back.
    pub set_aside: bool,
    /// When the name of somebody in it was erased.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub erased: Option<Moment>,
}

impl Study {
    /// The same study in which nobody is called so whom `is_called` knows by name; `None`
    /// where nobody is.
    pub(crate) fn without_name(
        &self,
        is_called: impl Fn(&str) -> bool,
        stamp: Stamp,
        at: Moment,
    ) -> Option<Self> {
        let mut new = self.clone();
        let people = new.facts.people.iter_mut();
        let named: Vec<_> = people.filter(|person| is_called(&person.name)).collect();
        if named.is_empty() {
            return None;
        }
        for person in named {
            NAME_ERASED.clone_into(&mut person.name);
        }
        (new.stamp, new.erased) = (stamp, Some(at));
        Some(new)
    }
}

fn checked<'de, D: Deserializer<'de>>(from: D) -> Result<StudyFacts, D::Error> {
    let facts = StudyFacts::deserialize(from)?;
    facts.check().map_err(de::Error::custom)?;
    Ok(facts)
}
