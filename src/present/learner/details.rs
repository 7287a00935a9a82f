use super::super::dates::day_in_full;
use super::super::start::sentence;
use crate::command::{CommandError, LearnerDetails};
use crate::quantity::counted;
use crate::records::{Day, Learner, LearnerStatus, OutsideNumber};

/// Other years are taken for a slip of the pen.
const FIRST_YEAR: i32 = 1950;
const LAST_YEAR: i32 = 2199;

/// An outside number in the form.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OutsideRow {
    /// Who gave it.
    pub by: String,
    /// The number.
    pub number: String,
}

/// The form for what is known of a learner, every field as text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct DetailsForm {
    /// The name.
    pub name: String,
    /// The number that tells people of one name apart.
    pub number: String,
    /// Outside numbers, in order.
    pub outside: Vec<OutsideRow>,
    /// Who employs the learner.
    pub employer: String,
    /// The date as date fields hold it.
    pub started: String,
    /// The same.
    pub planned_end: String,
    /// A [`LearnerStatus`] word.
    pub status: String,
}

/// What is wrong, by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct DetailsErrors {
    /// About the name, or name and number.
    pub name: Option<String>,
    /// About each row of outside numbers; empty where nothing is wrong with any.
    pub outside: Vec<Option<String>>,
    /// About the start.
    pub started: Option<String>,
    /// About the planned end.
    pub planned_end: Option<String>,
    /// About the status.
    pub status: Option<String>,
    /// About something else.
    pub other: Option<String>,
}

impl DetailsForm {
    /// The form as it opens.
    pub fn of(learner: &Learner) -> Self {
        let outside = learner.outside_numbers.iter().map(|one| OutsideRow {
            by: one.by.clone(),
            number: one.number.clone(),
        });
        let date = |day: Option<Day>| day.map_or_else(String::new, Day::iso);
        Self {
            name: learner.name.clone(),
            number: learner.given_number.clone().unwrap_or_default(),
            outside: outside.collect(),
            employer: learner.employer.clone().unwrap_or_default(),
            started: date(learner.started),
            planned_end: date(learner.planned_end),
            status: learner.status.word().to_owned(),
        }
    }

    /// The details that the form says, or all that is wrong with it.
    pub fn read(&self) -> Result<LearnerDetails, Box<DetailsErrors>> {
        let mut errors = DetailsErrors::default();
        if self.name.trim().is_empty() {
            errors.name = Some("Give the learner’s name.".to_owned());
        }
        let outside_numbers = self.read_outside(&mut errors);
        let started = read_day(&self.started, "the training began", &mut errors.started);
        let ends = "it is to end";
        let planned_end = read_day(&self.planned_end, ends, &mut errors.planned_end);
        if let (Some(started), Some(planned_end)) = (started, planned_end)
            && planned_end < started
        {
            let error = CommandError::EndBeforeStart {
                started,
                planned_end,
            };
            errors.planned_end = Some(sentence(&error.to_string()));
        }
        let mut all = LearnerStatus::ALL.into_iter();
        let status = all.find(|status| status.word() == self.status);
        if status.is_none() {
            errors.status = Some("Say how far the learner is.".to_owned());
        }
        if errors != DetailsErrors::default() {
            return Err(Box::new(errors));
        }
        Ok(LearnerDetails {
            name: self.name.clone(),
            given_number: Some(self.number.clone()),
            outside_numbers,
            employer: Some(self.employer.clone()),
            started,
            planned_end,
            status: status.unwrap_or_default(),
        })
    }

    /// A row with nothing in it is none; one that only says who gave it is not done.
    fn read_outside(&self, errors: &mut DetailsErrors) -> Vec<OutsideNumber> {
        let wrong = self.outside.iter().map(|row| {
            let half = row.number.trim().is_empty() && !row.by.trim().is_empty();
            half.then(|| "Write the number, or remove this row.".to_owned())
        });
        let wrong: Vec<_> = wrong.collect();
        if wrong.iter().any(Option::is_some) {
            errors.outside = wrong;
        }
        let numbers = self.outside.iter().map(|row| OutsideNumber {
            by: row.by.clone(),
            number: row.number.clone(),
        });
        numbers.collect()
    }
}

/// `None` for an empty field, and for one that is wrong, which `error` then says.
fn read_day(text: &str, what: &str, error: &mut Option<String>) -> Option<Day> {
    if text.trim().is_empty() {
        return None;
    }
    let Ok(day) = text.parse::<Day>() else {
        *error = Some(format!(
            "Give the day on which {what}, or leave the field empty."
        ));
        return None;
    };
    if !(FIRST_YEAR..=LAST_YEAR).contains(&day.year()) {
        *error = Some(format!(
            "{day} is not between {FIRST_YEAR} and {LAST_YEAR}; look at the year."
        ));
        return None;
    }
    Some(day)
}

impl DetailsErrors {
    /// What a refused command says, beside the field that it is about.
    pub fn refused(error: &CommandError) -> Self {
        let mut errors = Self::default();
        let field = match error {
            CommandError::NoName { .. } | CommandError::NameTaken { .. } => &mut errors.name,
            CommandError::EndBeforeStart { .. } => &mut errors.planned_end,
            _ => &mut errors.other,
        };
        *field = Some(sentence(&error.to_string()));
        errors
    }

    /// The id of the first field with an error, from the top of the form.
    pub fn first_field(&self) -> Option<String> {
        let row = self.outside.iter().position(Option::is_some);
        let named = |id: &str, error: &Option<String>| error.as_ref().map(|_| id.to_owned());
        named("name", &self.name)
            .or_else(|| row.map(|at| format!("outside-number-{at}")))
            .or_else(|| named("started", &self.started))
            .or_else(|| named("planned-end", &self.planned_end))
            .or_else(|| named("status", &self.status))
    }
}

/// Title and note of a status.
pub fn status_words(status: LearnerStatus) -> (&'static str, &'static str) {
    match status {
        LearnerStatus::Learning => ("Learning", "in training now"),
        LearnerStatus::Paused => ("Paused", "will go on later"),
        LearnerStatus::Completed => ("Completed", "has done all of it"),
        LearnerStatus::Left => ("Left", "went before the end"),
    }
}

/// What is known of a learner beside name and number: what it is called, and what it is.
/// Only what there is; the status where it is not the usual one.
pub fn details_words(learner: &Learner, today: Day) -> Vec<(String, String)> {
    let fact = |label: &str, value: String| (label.to_owned(), value);
    if let Some(erased) = learner.erased {
        return vec![fact("Name and details erased", day_in_full(erased.day()))];
    }
    let is_usual = learner.status == LearnerStatus::Learning;
    let status = (!is_usual).then(|| fact("Status", learner.status.word().to_owned()));
    let employer = learner.employer.clone();
    let started = learner.started.map(day_in_full);
    let ends = learner.planned_end.map(|ends| {
        let day = day_in_full(ends);
        match learner.status.is_over() {
            true => day,
            false => format!("{day}, {}", left_until(ends, today)),
        }
    });
    let outside = learner.outside_numbers.iter().map(|one| {
        let by = match one.by.as_str() {
            "" => "Outside number",
            by => by,
        };
        fact(by, one.number.clone())
    });
    let known = [
        status,
        employer.map(|employer| fact("Employer", employer)),
        started.map(|started| fact("Started", started)),
        ends.map(|ends| fact("Planned end", ends)),
    ];
    known.into_iter().flatten().chain(outside).collect()
}

fn left_until(ends: Day, today: Day) -> String {
    if ends < today {
        return "passed".to_owned();
    }
    match ends.months_since(today) {
        0 => "less than a month left".to_owned(),
        months => {
            let months = counted(usize::try_from(months).unwrap_or(0), "month", "months");
            // They stay on one line.
            format!("{months} left").replace(' ', "\u{a0}")
        }
    }
}
