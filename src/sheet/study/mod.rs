//! What an instrument study comes to, as a document.

mod anova;
mod known;
mod readings;
mod short;

use serde::{Deserialize, Serialize};

use super::document::{Block, Document, Fact, Item, Weight};
use super::scored::{heading, notice};
use crate::quantity::{counted, print_figure, two_digit_places};
use crate::records::{Place, StudyFacts};
use crate::study::{Worked, worked};

/// What the page of a study shows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudySheet {
    /// All of it in words.
    pub document: Document,
    /// The repeatability as the instrument may take it over, with its unit; nothing where
    /// there is none.
    pub repeatability: Option<String>,
}

/// A study with what it comes to, and how its figures are printed.
struct Told<'a> {
    facts: &'a StudyFacts,
    worked: &'a Worked,
    instrument: &'a str,
    places: usize,
}

impl Told<'_> {
    /// A figure with its unit.
    fn amount(&self, value: f64) -> String {
        format!("{} {}", self.bare(value), self.worked.unit.symbol())
    }

    /// A figure without one.
    fn bare(&self, value: f64) -> String {
        print_figure(value, self.places)
    }

    fn part(&self, at: usize) -> String {
        part_name(self.facts, at)
    }

    fn person(&self, at: usize) -> String {
        person_name(self.facts, at)
    }
}

/// What a part is called, counted from 0.
pub fn part_name(facts: &StudyFacts, at: usize) -> String {
    match facts.parts.get(at).map(|part| part.name.as_str()) {
        None | Some("") => format!("Part {}", at + 1),
        Some(name) => name.to_owned(),
    }
}

/// What a person is called, counted from 0.
pub fn person_name(facts: &StudyFacts, at: usize) -> String {
    match facts.people.get(at).map(|person| person.name.as_str()) {
        None | Some("") => format!("Person {}", at + 1),
        Some(name) => name.to_owned(),
    }
}

/// What a cell of the grid is called: `Part 1, A, trial 2`.
pub fn place_name(facts: &StudyFacts, place: Place) -> String {
    let part = facts.parts.iter().position(|part| part.id == place.part);
    let mut people = facts.people.iter();
    let person = people.position(|person| person.id == place.person);
    format!(
        "{}, {}, trial {}",
        part_name(facts, part.unwrap_or_default()),
        person_name(facts, person.unwrap_or_default()),
        place.trial
    )
}

/// A study of the instrument of this name, worked out.
pub fn study_sheet(facts: &StudyFacts, instrument: &str) -> StudySheet {
    let worked = worked(facts);
    let told = Told {
        facts,
        places: places(&worked),
        worked: &worked,
        instrument,
    };
    let mut blocks = vec![Block::Facts(head(&told))];
    blocks.extend(missing(&told));
    blocks.extend(suspects(&told));
    blocks.extend(short::blocks(&told));
    blocks.extend(known::blocks(&told));
    blocks.extend(anova::blocks(&told));
    blocks.extend(readings::blocks(&told));
    if !facts.note.is_empty() {
        blocks.push(heading("Note"));
        blocks.push(Block::Paragraph(facts.note.clone()));
    }
    blocks.push(heading("How this is worked out"));
    blocks.push(Block::Items(how()));
    let title = match facts.name.as_str() {
        "" => instrument.to_owned(),
        name => name.to_owned(),
    };
    StudySheet {
        document: Document {
            title,
            about: format!("Instrument study of {instrument}, {}", facts.day),
            language: "en-GB".into(),
            most_pages: None,
            blocks,
        },
        repeatability: worked.repeatability_text(),
    }
}

/// So many places show two digits of the repeatability.
fn places(worked: &Worked) -> usize {
    let deviation = worked.repeatability.as_ref().map(|found| found.deviation);
    let deviation = deviation.ok().filter(|deviation| *deviation > 0.0);
    deviation.map_or(2, |deviation| two_digit_places(deviation).clamp(1, 6))
}

fn head(told: &Told<'_>) -> Vec<Fact> {
    let facts = told.facts;
    let fact = |label: &'static str, value: String| Fact {
        label: label.into(),
        value,
    };
    let all = facts.places().count();
    let there: usize = told.worked.grid.cells.iter().flatten().map(Vec::len).sum();
    let people = (0..facts.people.len()).map(|at| told.person(at));
    vec![
        fact("Instrument", told.instrument.to_owned()),
        fact("Measured", facts.day.to_string()),
        fact("Parts", facts.parts.len().to_string()),
        fact("People", people.collect::<Vec<_>>().join(", ")),
        fact("Trials of each part", facts.trials.to_string()),
        fact("Readings", format!("{there} of {all}")),
    ]
}

/// What is not typed, or cannot be read.
fn missing(told: &Told<'_>) -> Vec<Block> {
    let grid = &told.worked.grid;
    let mut blocks = Vec::new();
    if !grid.unreadable.is_empty() {
        let wrong = grid.unreadable.iter();
        let wrong = wrong.map(|one| format!("{}: {}", place_name(told.facts, one.place), one.why));
        let text = "These readings cannot be read and are left out:";
        blocks.push(notice(Weight::Warn, text, wrong.collect()));
    }
    let left_out = told.facts.parts.len() - grid.whole.len();
    if !grid.empty.is_empty() {
        let cells = counted(grid.empty.len(), "reading is", "readings are");
        blocks.push(notice(
            Weight::Info,
            format!("{cells} not there yet."),
            Vec::new(),
        ));
    }
    if left_out > 0 && !grid.whole.is_empty() {
        let gone = (0..told.facts.parts.len()).filter(|at| !grid.whole.contains(at));
        let gone: Vec<String> = gone.map(|at| told.part(at)).collect();
        let text = format!(
            "What is said of people takes whole parts only. Left out there: {}.",
            gone.join("; ")
        );
        blocks.push(notice(Weight::Info, text, Vec::new()));
    }
    if !grid.below.is_empty() {
        let below = grid.below.iter();
        let below = below.map(|place| place_name(told.facts, *place));
        let text = "These readings are nothing or less. They count; look whether the instrument \
                    was set to zero.";
        blocks.push(notice(Weight::Info, text, below.collect()));
    }
    blocks
}

fn suspects(told: &Told<'_>) -> Option<Block> {
    let suspects = &told.worked.suspects;
    if suspects.is_empty() {
        return None;
    }
    let unit = told.worked.unit;
    let items = suspects.iter().map(|one| {
        // So that two that differ look so.
        let decimals = u32::try_from(told.places + 1).unwrap_or_default();
        format!(
            "{}, {}: the readings lie {} apart; {} is the most to be expected",
            told.part(one.part),
            told.person(one.person),
            one.disagreement.range.print_to(unit, decimals),
            one.disagreement.critical.print_to(unit, decimals),
        )
    });
    let text = "Look at these first: was one mistyped, or did the instrument slip? Mend what was \
                typed wrong; a reading that was right stays, however far it lies. By chance alone \
                about 1 in 20 of such sets of trials lies so far apart.";
    Some(notice(Weight::Warn, text, items.collect()))
}

fn how() -> Vec<Item> {
    vec![
        Item::about(
            "One person’s repeats",
            "repeatability is the standard deviation of readings about the mean of their part and \
             person, of all parts and people together (ISO 5725-2:2019, 7.4). Its interval is by \
             chi-squared. Two readings differ by more than 1.96 times the root of 2 times that \
             in 1 of 20 cases (ISO 5725-6:1994, 4.1). A part and person whose readings lie \
             further apart than the critical range is asked about (ISO 5725-6:1994, table 1).",
        ),
        Item::about(
            "People and parts",
            "analysis of variance of parts by people by trials, parts and people drawn at random \
             (AIAG, Measurement Systems Analysis, 4th edition 2010, appendix A). What people do \
             differently from part to part counts with repeatability where chance alone gives as \
             much in more than one of four studies (pooling at 0.25: Bancroft 1964), else with \
             people. A variance below nothing counts as nothing. Beside it stands the older \
             method by averages and ranges.",
        ),
        Item::about(
            "One reading, whoever takes it",
            "the variances of repeatability and of people are added; the factor for 19 times of \
             20 is that of the t distribution with the degrees of freedom of Welch and \
             Satterthwaite (JCGM 100:2008, G.4.1). With two or three people these are few, so the \
             factor is large: that is honest, as two people say little of all people.",
        ),
        Item::about(
            "Steps",
            "1.41 times the standard deviation of parts over that of readings of one part, its \
             fraction dropped (AIAG, chapter III; Wheeler and Lyday 1989).",
        ),
        Item::about(
            "Known sizes",
            "the bias is the mean of all readings less the known size. Its uncertainty puts that \
             of the mean and that of the known size together, as the root of the sum of squares \
             (JCGM 100:2008, 5.1.2); readings count as independent, although those of one person \
             hang together. The line over sizes takes the known sizes as exact (AIAG, \
             chapter III-B).",
        ),
    ]
}
