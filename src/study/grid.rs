use crate::quantity::{Dimension, Exact, read_quantity};
use crate::records::{Place, StudyFacts};

/// A reading that is typed and cannot be read as a length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// Where it stands.
    pub place: Place,
    /// Why, and what to write instead.
    pub why: String,
}

/// The readings of a study as lengths.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    /// By part, then operator: the readings that can be read, in nanometres.
    pub cells: Vec<Vec<Vec<Exact>>>,
    /// What cannot be read.
    pub unreadable: Vec<Unreadable>,
    /// Places where nothing is typed.
    pub empty: Vec<Place>,
    /// Parts, from 0, of which every reading is there.
    pub whole: Vec<usize>,
}

impl Grid {
    /// Reads each cell; a bare number takes the study's unit. What goes beyond the limits that
    /// [`StudyFacts::check`] tells of is left out.
    #[must_use]
    pub fn of(facts: &StudyFacts) -> Self {
        let mut grid = Self {
            cells: Vec::new(),
            unreadable: Vec::new(),
            empty: Vec::new(),
            whole: Vec::new(),
        };
        let trials = facts.trials.min(StudyFacts::MOST_TRIALS);
        for part in 0..facts.parts.len().min(StudyFacts::MOST_PARTS) {
            let operators = 0..facts.operators.len().min(StudyFacts::MOST_OPERATORS);
            let row: Vec<Vec<Exact>> = operators
                .map(|operator| grid.cell(facts, part, operator))
                .collect();
            if row.iter().all(|cell| cell.len() == trials) {
                grid.whole.push(part);
            }
            grid.cells.push(row);
        }
        grid
    }

    fn cell(&mut self, facts: &StudyFacts, part: usize, operator: usize) -> Vec<Exact> {
        let unit = facts.unit.or_usual(Dimension::Length);
        let trials = facts.trials.min(StudyFacts::MOST_TRIALS);
        let places = (0..trials).map(|trial| Place {
            part,
            operator,
            trial,
        });
        let mut values = Vec::new();
        for place in places {
            match facts.reading(place) {
                None => self.empty.push(place),
                Some(text) => match read_quantity(text, Dimension::Length, unit) {
                    Ok(length) => values.push(length.base),
                    Err(why) => self.unreadable.push(Unreadable {
                        place,
                        why: why.to_string(),
                    }),
                },
            }
        }
        values
    }
}
