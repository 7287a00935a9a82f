use super::paper_state::{state_in, state_words};
use super::plan::{Input, Order, Part, Row, RowForm, plan};
use super::{text_in, times_seen};
use crate::command::Edit;
use crate::marking::{Facts, State, StateFact};
use crate::quantity::{Dimension, Unit, read_exact};
use crate::rubric::Rubric;

/// What is written on paper where faults were looked for and none was seen.
const NONE: &str = "-";

/// One field of a sheet on paper, by its number there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaperField {
    /// Its number, from 1.
    pub number: u32,
    /// Id of the document.
    pub dom: String,
    /// What it is about.
    pub name: String,
    /// The row of the mark sheet that it is entered in.
    pub row: Row,
    /// What is written in it.
    pub takes: Takes,
}

/// Fields under one heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaperPart {
    /// The heading.
    pub name: String,
    /// The fields.
    pub fields: Vec<PaperField>,
}

/// What is written in a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Takes {
    /// A reading.
    Reading(Input),
    /// A count or a duration.
    Tally(Dimension),
    /// The number of a level: ids and names in their order.
    Level(Vec<(String, String)>),
    /// One of these numbers.
    Number(Vec<String>),
    /// Letters of faults: ids and names in the order of the letters. `is_list` where the
    /// row is nothing but faults, so that none seen is said too.
    Faults {
        /// Ids and names.
        faults: Vec<(String, String)>,
        /// Whether the row is nothing but faults.
        is_list: bool,
    },
}

/// What typing does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PaperStep {
    /// Writes a reading.
    Reading(Input, String),
    /// Writes a count or a duration.
    Tally(String),
    /// Anything else.
    Edit(Edit),
}

/// The fields of a rubric's sheet on paper, section by section, numbered through. The
/// numbers depend on the rubric alone, so that paper and screen agree.
pub fn paper_parts(rubric: &Rubric) -> Vec<PaperPart> {
    let mut number = 0;
    let mut next = || {
        number += 1;
        number
    };
    let parts = plan(rubric, Order::Rubric).into_iter();
    let parts = parts.map(|Part { name, rows, .. }| PaperPart {
        name,
        fields: rows
            .into_iter()
            .flat_map(takes)
            .map(|(row, name, takes)| {
                let number = next();
                PaperField {
                    number,
                    dom: format!("n-{number}"),
                    name,
                    row,
                    takes,
                }
            })
            .collect(),
    });
    parts.filter(|part| !part.fields.is_empty()).collect()
}

/// What a row asks to be written, one by one.
fn takes(row: Row) -> Vec<(Row, String, Takes)> {
    let mut found = Vec::new();
    let named = |label: &str| match label {
        "" => row.name.clone(),
        label => format!("{}, {label}", row.name),
    };
    match &row.form {
        RowForm::Readings { inputs, .. } => {
            for input in inputs {
                found.push((named(&input.label), Takes::Reading(input.clone())));
            }
        }
        RowForm::Tally { dimension, .. } => found.push((named(""), Takes::Tally(*dimension))),
        RowForm::Levels(levels) => {
            let levels = levels.iter();
            let levels = levels.map(|level| (level.id.clone(), level.name.clone()));
            found.push((named(""), Takes::Level(levels.collect())));
        }
        RowForm::Numbers { allowed, .. } => {
            found.push((named(""), Takes::Number(allowed.clone())));
        }
        RowForm::Faults(_) => {}
    }
    let (tiles, is_list) = match &row.form {
        RowForm::Faults(tiles) => (tiles, true),
        _ => (&row.faults, false),
    };
    if !tiles.is_empty() {
        let faults = tiles
            .iter()
            .map(|tile| (tile.id.clone(), tile.name.clone()));
        let name = if is_list { named("") } else { named("faults") };
        let faults = faults.collect();
        found.push((name, Takes::Faults { faults, is_list }));
    }
    found
        .into_iter()
        .map(|(name, takes)| (row.clone(), name, takes))
        .collect()
}

/// The letter of the fault at this place, from 0: `a` to `z`, then `aa` and so on is not
/// needed, as no rubric names so many; beyond there is none.
fn letter(place: usize) -> Option<char> {
    ('a'..='z').nth(place)
}

/// Of these numbers the one that `text` is, however it is written: `9/2`, `4,5`, `4.50`.
fn same_number<'a>(allowed: &'a [String], text: &str) -> Option<&'a str> {
    let given = read_exact(text).ok()?;
    let is_given = |number: &&String| read_exact(number).ok() == Some(given);
    allowed.iter().find(is_given).map(String::as_str)
}

impl PaperField {
    /// What can be written, as paper says it: `1 clean; 2 rough`, `a cold shut; b burnt`.
    /// Empty for readings and counts.
    pub fn options(&self) -> Vec<String> {
        let mut options: Vec<String> = match &self.takes {
            Takes::Reading(_) | Takes::Tally(_) => Vec::new(),
            Takes::Level(levels) => (1..)
                .zip(levels)
                .map(|(number, (_, name))| format!("{number} {name}"))
                .collect(),
            Takes::Number(allowed) => vec![allowed.join(", ")],
            Takes::Faults { faults, .. } => (0..)
                .zip(faults)
                .filter_map(|(place, (_, name))| Some(format!("{} {name}", letter(place)?)))
                .collect(),
        };
        match self.takes {
            Takes::Faults { is_list: true, .. } => options.push(format!("{NONE} none seen")),
            Takes::Faults { .. } => {}
            _ if self.row.unmarked => {}
            _ if self.row.not_applicable.is_some() => {
                options.push("na not applicable".to_owned());
            }
            _ => {}
        }
        options
    }

    /// The unit that a bare number has; empty where there is none.
    pub fn unit(&self, sheet: Unit) -> &'static str {
        match &self.takes {
            Takes::Reading(input) => sheet.or_usual(input.dimension).symbol(),
            Takes::Tally(Dimension::Duration) => Unit::Minute.symbol(),
            _ => "",
        }
    }

    /// What stands in it, as it would be written on paper.
    pub fn stands(&self, facts: &Facts) -> String {
        let entry = &self.row.id;
        let state = facts.states.get(entry).filter(|_| self.takes_state());
        if let Some(state) = state {
            return state_words(state);
        }
        match &self.takes {
            Takes::Reading(input) => {
                let readings = facts.readings.get(&input.slot);
                text_in(readings.map_or(&[], Vec::as_slice), input)
            }
            Takes::Tally(_) => facts.tallies.get(entry).cloned().unwrap_or_default(),
            Takes::Level(levels) => {
                let given = facts.levels.get(entry);
                let place = given.and_then(|given| levels.iter().position(|(id, _)| id == given));
                place.map_or_else(String::new, |place| (place + 1).to_string())
            }
            Takes::Number(allowed) => {
                let given = facts.levels.get(entry).map_or("", String::as_str);
                same_number(allowed, given).unwrap_or(given).to_owned()
            }
            Takes::Faults { faults, is_list } => {
                let seen = facts.faults.get(entry);
                let letters = (0..).zip(faults).filter_map(|(place, (id, _))| {
                    let times = times_seen(seen.map(Vec::as_slice), id);
                    Some(letter(place)?.to_string().repeat(times))
                });
                let letters: String = letters.collect();
                match seen {
                    Some(seen) if seen.is_empty() && *is_list => NONE.to_owned(),
                    _ => letters,
                }
            }
        }
    }

    /// What typing `text` does, where `facts` stand.
    ///
    /// *Errors:* in words, what can be written; then nothing is to be done.
    pub fn typed(&self, text: &str, facts: &Facts) -> Result<Vec<PaperStep>, String> {
        let written = text.trim().to_lowercase();
        if let Takes::Faults { faults, is_list } = &self.takes {
            let seen = self.faults_of(&written, faults, *is_list)?;
            return Ok(vec![PaperStep::Edit(Edit::SetFaults {
                entry: self.row.id.clone(),
                faults: seen,
            })]);
        }
        let mut steps = Vec::new();
        if self.takes_state() {
            let state = self.state_of(text)?;
            let is_state = state.is_some();
            if is_state || facts.states.contains_key(&self.row.id) {
                steps.push(PaperStep::Edit(Edit::SetState {
                    entry: self.row.id.clone(),
                    state,
                }));
            }
            if is_state {
                return Ok(steps);
            }
        }
        steps.push(match &self.takes {
            Takes::Reading(input) => PaperStep::Reading(input.clone(), text.to_owned()),
            Takes::Tally(_) => PaperStep::Tally(text.to_owned()),
            _ => PaperStep::Edit(Edit::SetLevel {
                entry: self.row.id.clone(),
                level: self.level_of(&written)?,
            }),
        });
        Ok(steps)
    }

    /// Whether a state is written here: not among faults, and not where nothing is marked.
    fn takes_state(&self) -> bool {
        !self.row.unmarked && !matches!(self.takes, Takes::Faults { .. })
    }

    fn state_of(&self, text: &str) -> Result<Option<StateFact>, String> {
        let state = state_in(text);
        let is_not_applicable = |fact: &StateFact| fact.state == State::NotApplicable;
        if self.row.not_applicable.is_none() && state.as_ref().is_some_and(is_not_applicable) {
            return Err("The rubric does not allow not applicable here.".to_owned());
        }
        Ok(state)
    }

    fn level_of(&self, written: &str) -> Result<Option<String>, String> {
        if written.is_empty() {
            return Ok(None);
        }
        let found = match &self.takes {
            Takes::Level(levels) => {
                let number: usize = written.parse().unwrap_or(0);
                let place = number.checked_sub(1);
                place
                    .and_then(|place| levels.get(place))
                    .map(|(id, _)| id.clone())
            }
            Takes::Number(allowed) => same_number(allowed, written).map(str::to_owned),
            _ => None,
        };
        match found {
            Some(level) => Ok(Some(level)),
            None => Err(format!(
                "Write one of these: {}.",
                self.options().join("; ")
            )),
        }
    }

    /// The faults of these letters, one for each time that it is written; `None` where
    /// nothing is.
    fn faults_of(
        &self,
        written: &str,
        faults: &[(String, String)],
        is_list: bool,
    ) -> Result<Option<Vec<String>>, String> {
        if written.is_empty() {
            return Ok(None);
        }
        if written == NONE && is_list {
            return Ok(Some(Vec::new()));
        }
        let letters = written.chars().filter(|sign| !matches!(sign, ' ' | ','));
        let of = |sign: char| {
            let mut places = (0..).zip(faults);
            let found = places.find(|(place, _)| letter(*place) == Some(sign));
            found.map(|(_, (id, _))| id.clone())
        };
        let seen: Option<Vec<String>> = letters.map(of).collect();
        match seen {
            Some(seen) => Ok(Some(seen)),
            None => Err(format!(
                "Write the letters of the faults, each as often as it was seen: {}.",
                self.options().join("; ")
            )),
        }
    }
}
