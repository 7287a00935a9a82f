//! All readings, drawn and as a table.

use super::Told;
use crate::chart::{DotRow, Drawing, dots};
use crate::records::Place;
use crate::sheet::document::{Block, Cell, Column, Group, Table, figure, number, text};
use crate::sheet::scored::heading;
use crate::study::Suspect;

pub(super) fn blocks(told: &Told<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("The readings")];
    let drawings = drawings(told);
    if !drawings.is_empty() {
        let text = "Each reading less the mean of its part, person by person. Dots close \
                    together are repeats that agree; rows that lie apart are people who differ.";
        blocks.push(Block::Paragraph(text.to_owned()));
        blocks.push(Block::Drawings(drawings));
    }
    blocks.push(Block::Table(table(told)));
    blocks
}

/// A drawing of each part that has readings, all on one scale.
fn drawings(told: &Told<'_>) -> Vec<Drawing> {
    let parts = told.worked.from_part_means().into_iter().enumerate();
    let has_any = |(_, cells): &(usize, Vec<Vec<f64>>)| cells.iter().any(|cell| !cell.is_empty());
    let parts: Vec<(usize, Vec<Vec<f64>>)> = parts.filter(has_any).collect();
    let all = parts.iter().flat_map(|(_, cells)| cells.iter().flatten());
    let reach = all.fold((0.0_f64, 0.0_f64), |(low, high), value| {
        (low.min(*value), high.max(*value))
    });
    let drawn = parts
        .iter()
        .map(|(at, cells)| drawing(told, *at, cells, reach));
    drawn.collect()
}

fn drawing(told: &Told<'_>, part: usize, cells: &[Vec<f64>], reach: (f64, f64)) -> Drawing {
    let rows = cells.iter().enumerate().map(|(person, values)| {
        let suspects = &told.worked.suspects;
        let is_this = |one: &Suspect| (one.part, one.person) == (part, person);
        DotRow {
            name: told.person(person),
            values: values.clone(),
            is_doubtful: suspects.iter().any(is_this),
        }
    });
    let rows: Vec<DotRow> = rows.collect();
    let unit = told.worked.unit.symbol();
    dots(
        format!("{}, {unit} from its mean", told.part(part)),
        "Readings of each person as dots; open squares are to be looked at. The numbers are in \
         the table below."
            .to_owned(),
        &rows,
        reach,
    )
}

/// As typed; nothing is rounded.
fn table(told: &Told<'_>) -> Table {
    let facts = told.facts;
    let trials = (1..=facts.trials).map(|trial| number(format!("Trial {trial}")));
    let columns: Vec<Column> = [text("Person")].into_iter().chain(trials).collect();
    let groups = facts.parts.iter().enumerate().map(|(at, part)| {
        let rows = facts.people.iter().enumerate().map(|(person, who)| {
            let places = (1..=facts.trials).map(|trial| Place {
                part: part.id,
                person: who.id,
                trial,
            });
            let cells = places.map(|place| figure(facts.reading(place).unwrap_or("–")));
            std::iter::once(Cell::text(told.person(person)))
                .chain(cells)
                .collect()
        });
        Group {
            heading: told.part(at),
            rows: rows.collect(),
        }
    });
    Table {
        caption: format!(
            "Readings as typed; a bare number is in {}",
            told.worked.unit.symbol()
        ),
        columns,
        groups: groups.collect(),
        foot: Vec::new(),
    }
}
