use crate::chart::{Drawing, PlanPart, Side, shoe_plan};
use crate::marking::Marking as Result;
use crate::piece::{MadeShoe, Place};
use crate::quantity::Marks;
use crate::rubric::{Entry, Rubric, Shoe};

use super::plan::Part;

/// The shoes of a piece that can be drawn, each with its id.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnShoe {
    id: String,
    name: String,
    shape: MadeShoe,
}

/// Every shoe of the rubric that can be drawn.
pub fn drawn_shoes(rubric: &Rubric) -> Vec<DrawnShoe> {
    let drawn = |shoe: &Shoe| {
        let shape = MadeShoe::of(&rubric.piece, shoe.drawn_foot()).ok()?;
        Some(DrawnShoe {
            id: shoe.id.clone(),
            name: shoe.name.clone(),
            shape,
        })
    };
    rubric.shoes.iter().filter_map(drawn).collect()
}

impl DrawnShoe {
    /// The shoe as the way into its rows: each part leads to its first row, and is shaded
    /// by the marks won there once all of it is marked.
    pub fn drawing(&self, rubric: &Rubric, rows: &[Part], result: &Result, side: Side) -> Drawing {
        let entries = rubric.entries();
        let own = |entry: &&Entry<'_>| entry.shoe.is_none_or(|shoe| shoe.id == self.id);
        let parts = Place::WORDS.iter().filter_map(|(_, place)| {
            let here: Vec<&Entry<'_>> = entries
                .iter()
                .filter(|entry| entry.criterion.place == Some(*place))
                .filter(own)
                .collect();
            plan_part(*place, &here, rows, result)
        });
        let title = format!("{}, {}, toe up", self.name, side.word());
        shoe_plan(&self.shape, side, &parts.collect::<Vec<_>>(), &title)
    }
}

fn plan_part(
    place: Place,
    here: &[&Entry<'_>],
    rows: &[Part],
    result: &Result,
) -> Option<PlanPart> {
    // The first of them as the rows stand now.
    let mut all = rows.iter().flat_map(|part| &part.rows);
    let row = all.find(|row| here.iter().any(|entry| entry.id == row.id))?;
    let found: Vec<_> = here
        .iter()
        .filter_map(|entry| result.criterion(&entry.id))
        .collect();
    let won: Option<Vec<Marks>> = found.iter().map(|found| found.marks).collect();
    let out_of = Marks::sum(found.iter().map(|found| found.out_of))?;
    let won = won.and_then(Marks::sum);
    let missing = found.iter().filter(|found| found.marks.is_none()).count();
    let stands = match won {
        Some(won) => format!("{won} of {out_of}"),
        None => format!("{missing} missing"),
    };
    let mut name = place.word().to_owned();
    if let Some(first) = name.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    Some(PlanPart {
        place,
        href: Some(format!("#{}", row.dom)),
        label: format!("{name}: {stands}"),
        rank: won.map(|won| won.rank(out_of)),
    })
}
