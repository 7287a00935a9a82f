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
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Grid {
    /// By part, then person, in their order: the readings that can be read, in nanometres.
    pub cells: Vec<Vec<Vec<Exact>>>,
    /// What cannot be read.
    pub unreadable: Vec<Unreadable>,
    /// Readings of nothing or less. They count, as an instrument that is set wrong may show
    /// less than nothing near zero.
    pub below: Vec<Place>,
    /// Places where nothing is typed.
    pub empty: Vec<Place>,
    /// Parts of which every reading is there, from 0 in their order.
    pub whole: Vec<usize>,
}

impl Grid {
    /// Reads each cell; a bare number takes the study's unit.
    #[must_use]
    pub fn of(facts: &StudyFacts) -> Self {
        let mut grid = Self::default();
        for (at, part) in facts.parts.iter().enumerate() {
            let mut row = Vec::new();
            let mut is_whole = true;
            for person in &facts.people {
                let places = (1..=facts.trials).map(|trial| Place {
                    part: part.id,
                    person: person.id,
                    trial,
                });
                let values: Vec<Option<Exact>> =
                    places.map(|place| grid.read(facts, place)).collect();
                is_whole &= values.iter().all(Option::is_some);
                row.push(values.into_iter().flatten().collect());
            }
            grid.cells.push(row);
            grid.whole.extend(is_whole.then_some(at));
        }
        grid
    }

    fn read(&mut self, facts: &StudyFacts, place: Place) -> Option<Exact> {
        let Some(text) = facts.reading(place) else {
            self.empty.push(place);
            return None;
        };
        let unit = facts.unit.or_usual(Dimension::Length);
        match read_quantity(text, Dimension::Length, unit) {
            Ok(length) => {
                if length.base <= Exact::ZERO {
                    self.below.push(place);
                }
                Some(length.base)
            }
            Err(why) => {
                let why = why.to_string();
                self.unreadable.push(Unreadable { place, why });
                None
            }
        }
    }
}
