use crate::command::Command;
use crate::quantity::{Dimension, counted};
use crate::records::{Day, Ledger, Place, StudyFacts, StudyId, StudyPart, StudyPerson, Unit};

/// A text of a study that is typed into a field of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StudyText {
    /// What the study is called.
    Name,
    /// When it was measured.
    Day,
    /// What a bare number is read in.
    Unit,
    /// How often each measures each part.
    Trials,
    /// Anything else.
    Note,
    /// What a part is called, by its id.
    Part(u32),
    /// Its known size.
    Size(u32),
    /// The standard uncertainty of that.
    Uncertainty(u32),
    /// What a person is called, by id.
    Person(u32),
    /// A reading.
    Reading(Place),
}

/// The units that lengths are read in: the word kept by the form, and what it shows.
pub(super) const UNITS: [(Unit, &str); 3] = [
    (Unit::Millimetre, "mm"),
    (Unit::Centimetre, "cm"),
    (Unit::Inch64, "in"),
];

impl StudyText {
    /// What stands in the field; empty where nothing does.
    pub fn of(self, facts: &StudyFacts) -> String {
        let part = |id: u32| facts.parts.iter().find(|part| part.id == id);
        match self {
            Self::Name => facts.name.clone(),
            Self::Day => facts.day.iso(),
            Self::Unit => facts.unit.or_usual(Dimension::Length).symbol().to_owned(),
            Self::Trials => facts.trials.to_string(),
            Self::Note => facts.note.clone(),
            Self::Part(id) => part(id).map(|part| part.name.clone()).unwrap_or_default(),
            Self::Size(id) => part(id)
                .and_then(|part| part.reference.clone())
                .unwrap_or_default(),
            Self::Uncertainty(id) => part(id)
                .and_then(|part| part.uncertainty.clone())
                .unwrap_or_default(),
            Self::Person(id) => {
                let person = facts.people.iter().find(|person| person.id == id);
                person.map(|person| person.name.clone()).unwrap_or_default()
            }
            Self::Reading(place) => facts.readings.get(&place).cloned().unwrap_or_default(),
        }
    }

    /// Writes what is typed into the field.
    ///
    /// *Errors:* in words, for people; then nothing is written.
    fn write(self, facts: &mut StudyFacts, text: String) -> Result<(), String> {
        let mut parts = facts.parts.iter_mut();
        let mut part = |id: u32| parts.find(|part| part.id == id);
        match self {
            Self::Name => facts.name = text,
            Self::Day => {
                facts.day = text.parse::<Day>().map_err(|_| {
                    format!("`{text}` is no day; write it as in 2026-11-27, or choose one")
                })?;
            }
            Self::Unit => {
                let unit = UNITS.into_iter().find(|(_, word)| *word == text);
                facts.unit = unit.map_or(Unit::Millimetre, |(unit, _)| unit);
            }
            Self::Trials => {
                facts.trials = text.trim().parse().map_err(|_| {
                    let most = StudyFacts::MOST_TRIALS;
                    format!("`{text}` is no number of trials; write 2 to {most}")
                })?;
                facts.drop_strays();
            }
            Self::Note => facts.note = text,
            Self::Part(id) => {
                if let Some(part) = part(id) {
                    part.name = text;
                }
            }
            Self::Size(id) => {
                if let Some(part) = part(id) {
                    part.reference = Some(text);
                }
            }
            Self::Uncertainty(id) => {
                if let Some(part) = part(id) {
                    part.uncertainty = Some(text);
                }
            }
            Self::Person(id) => {
                let person = facts.people.iter_mut().find(|person| person.id == id);
                if let Some(person) = person {
                    person.name = text;
                }
            }
            Self::Reading(place) => {
                facts.readings.insert(place, text);
            }
        }
        Ok(())
    }
}

/// One act on a study.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StudyEdit {
    /// Types something.
    Type(StudyText, String),
    /// Adds a part at the end.
    AddPart,
    /// Takes a part out, by its id, with its readings.
    RemovePart(u32),
    /// Adds a person at the end.
    AddPerson,
    /// Takes a person out, by id, with their readings.
    RemovePerson(u32),
}

impl StudyEdit {
    /// The command that does it; `None` where the study is not here.
    ///
    /// *Errors:* in words, for people: what was typed cannot be read.
    pub fn command(self, ledger: &Ledger, study: StudyId) -> Option<Result<Command, String>> {
        let before = ledger.study(study)?.facts.clone();
        let mut after = before.clone();
        match self {
            Self::Type(text, typed) => {
                if let Err(why) = text.write(&mut after, typed) {
                    return Some(Err(why));
                }
            }
            Self::AddPart => after.parts.push(StudyPart::default()),
            Self::RemovePart(id) => after.parts.retain(|part| part.id != id),
            Self::AddPerson => after.people.push(StudyPerson::default()),
            Self::RemovePerson(id) => after.people.retain(|person| person.id != id),
        }
        // So that what goes along is undone with it.
        after.drop_strays();
        Some(Ok(set(study, before, after)))
    }
}

/// A step that was taken on a study, to be undone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyStep {
    study: StudyId,
    before: StudyFacts,
    after: StudyFacts,
}

impl StudyStep {
    /// The step from one ledger to another; `None` where it changed nothing of the study.
    pub fn between(before: &Ledger, after: &Ledger, study: StudyId) -> Option<Self> {
        let step = Self {
            study,
            before: before.study(study)?.facts.clone(),
            after: after.study(study)?.facts.clone(),
        };
        (step.before != step.after).then_some(step)
    }

    /// What is said of readings that went along with a part, a person or a trial; `None`
    /// where none did.
    pub fn lost(&self) -> Option<String> {
        let gone = self.before.readings.keys();
        let gone = gone.filter(|place| !self.after.has(**place)).count();
        (gone > 0).then(|| {
            let readings = counted(gone, "reading", "readings");
            format!("{readings} went along. Undo gives them back.")
        })
    }

    /// The command that undoes it; what was written elsewhere since stays.
    pub fn undo(self) -> Command {
        set(self.study, self.after, self.before)
    }
}

fn set(study: StudyId, before: StudyFacts, after: StudyFacts) -> Command {
    Command::SetStudy {
        study,
        before: Box::new(before),
        after: Box::new(after),
    }
}
