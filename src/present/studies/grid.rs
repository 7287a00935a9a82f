use std::collections::BTreeMap;

use super::edit::UNITS;
use crate::present::start::sentence;
use crate::records::{Ledger, Place, StudyFacts, StudyId};
use crate::sheet::{part_name, person_name, place_name};
use crate::study::Grid;

/// What fields a study has: changes where a part, a person or a trial comes or goes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StudyShape {
    /// The parts, by id, with what they are called where nobody has said.
    pub parts: Vec<(u32, String)>,
    /// The people likewise.
    pub people: Vec<(u32, String)>,
    /// Whether another part can be added.
    pub takes_part: bool,
    /// Whether another person can.
    pub takes_person: bool,
    /// Choices of units: value and name.
    pub units: Vec<(String, String)>,
}

/// The fields of `study`; `None` where it is not here.
pub fn study_shape(ledger: &Ledger, study: StudyId) -> Option<StudyShape> {
    let facts = &ledger.study(study)?.facts;
    let parts = facts.parts.iter().zip(1..);
    let people = facts.people.iter().zip(1..);
    let unit = |(_, word): (_, &str)| (word.to_owned(), word.to_owned());
    Some(StudyShape {
        parts: parts
            .map(|(part, number)| (part.id, format!("Part {number}")))
            .collect(),
        people: people
            .map(|(person, number)| (person.id, format!("Person {number}")))
            .collect(),
        takes_part: facts.parts.len() < StudyFacts::MOST_PARTS,
        takes_person: facts.people.len() < StudyFacts::MOST_PEOPLE,
        units: UNITS.map(unit).to_vec(),
    })
}

/// The grid of readings, as a table.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StudyGrid {
    /// Heads of the columns of readings.
    pub columns: Vec<String>,
    /// The parts with the rows of each.
    pub parts: Vec<(String, Vec<StudyLine>)>,
}

/// A row: the readings of one part by one person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyLine {
    /// Who.
    pub person: String,
    /// The readings, trial by trial: where, and what the field is called.
    pub cells: Vec<(Place, String)>,
}

/// The grid of `study`; `None` where it is not here.
pub fn study_grid(ledger: &Ledger, study: StudyId) -> Option<StudyGrid> {
    let facts = &ledger.study(study)?.facts;
    let line = |part: u32, at: usize, person: u32| {
        let places = (1..=facts.trials).map(|trial| Place {
            part,
            person,
            trial,
        });
        StudyLine {
            person: person_name(facts, at),
            cells: places
                .map(|place| (place, place_name(facts, place)))
                .collect(),
        }
    };
    let parts = facts.parts.iter().enumerate().map(|(at, part)| {
        let people = facts.people.iter().enumerate();
        let lines = people.map(|(person, who)| line(part.id, person, who.id));
        (part_name(facts, at), lines.collect())
    });
    Some(StudyGrid {
        columns: (1..=facts.trials)
            .map(|trial| format!("Trial {trial}"))
            .collect(),
        parts: parts.collect(),
    })
}

/// What is said of the readings of `study`, by place: why one cannot be read, or that one is
/// nothing or less.
pub fn study_cell(ledger: &Ledger, study: StudyId) -> BTreeMap<Place, StudyCell> {
    let Some(study) = ledger.study(study) else {
        return BTreeMap::new();
    };
    let grid = Grid::of(&study.facts);
    let wrong = grid.unreadable.into_iter().map(|one| {
        let says = sentence(&one.why);
        let is_wrong = true;
        (one.place, StudyCell { says, is_wrong })
    });
    let below = grid.below.into_iter().map(|place| {
        let says = "Nothing or less: is the instrument set to zero?".to_owned();
        let is_wrong = false;
        (place, StudyCell { says, is_wrong })
    });
    wrong.chain(below).collect()
}

/// What stands under a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyCell {
    /// What it says.
    pub says: String,
    /// Whether the reading is left out until that is mended.
    pub is_wrong: bool,
}

/// The place that a key leads to from another in `grid`: Enter and the arrow down go to the
/// next row, at the foot to the head of the next column; with Shift, and the arrow up, back.
/// `None` where the key does something else, or there is no such place.
pub fn moved(grid: &StudyGrid, from: Place, key: &str, shift: bool) -> Option<Place> {
    let is_back = match (key, shift) {
        ("Enter" | "ArrowDown", false) => false,
        ("Enter", true) | ("ArrowUp", false) => true,
        _ => return None,
    };
    let lines: Vec<&StudyLine> = grid.parts.iter().flat_map(|(_, lines)| lines).collect();
    let columns = 0..grid.columns.len();
    let mut order = columns.flat_map(|column| {
        let cells = lines.iter().filter_map(move |line| line.cells.get(column));
        cells.map(|(place, _)| *place)
    });
    if is_back {
        let mut last = None;
        for place in order {
            if place == from {
                return last;
            }
            last = Some(place);
        }
        return None;
    }
    order.find(|place| *place == from)?;
    order.next()
}
