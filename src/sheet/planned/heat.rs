use super::super::document::{Block, Cell, CellRole, columns, figure, plain_table};
use super::{Planned, heading};
use crate::plan::heat::{COLOURS, cold, fahrenheit, hot};
use crate::quantity::Length;
use crate::sheet::words::capital;

/// How hot steel is looked at here, in °C: black, and the colours of shaping and levelling.
const HEATS: [f64; 6] = [400.0, 600.0, 700.0, 900.0, 1_000.0, 1_100.0];

/// How much larger the piece measures while it is hot.
pub(super) fn blocks(planned: &Planned<'_>) -> Vec<Block> {
    let finished = &planned.rubric.piece.finished;
    let measures = |size: Length, celsius| {
        hot(size, celsius).map_or_else(
            |fault| fault.words(planned.unit()),
            |size| planned.say(size),
        )
    };
    let rows = HEATS.map(|celsius| {
        let [chapman, stirling] = COLOURS.map(|table| table.at(celsius).unwrap_or("black"));
        vec![
            Cell::text(format!("{celsius:.0} °C, {:.0} °F", fahrenheit(celsius))),
            Cell::text(capital(chapman)),
            Cell::text(capital(stirling)),
            figure(measures(finished.width, celsius)),
            figure(measures(finished.length, celsius)),
        ]
    });
    let table = plain_table(
        "What the finished size measures hot".to_owned(),
        columns(&[
            ("Heat", CellRole::Text),
            ("Colour by Chapman", CellRole::Text),
            ("Colour by Stirling", CellRole::Text),
            ("Width", CellRole::Number),
            ("Length", CellRole::Number),
        ]),
        rows.to_vec(),
    );
    let mut blocks = vec![heading("Measured hot")];
    if let Some((size, celsius)) = planned.hot {
        blocks.push(Block::Paragraph(match cold(size, celsius) {
            Ok(cold) => format!(
                "{} at {celsius:.0} °C comes to {} cold.",
                planned.say(size),
                planned.say(cold)
            ),
            Err(fault) => capital(&format!("{}.", fault.words(planned.unit()))),
        }));
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Paragraph(
        "Growth of carbon steel by EN 1993-1-2:2005, 3.4.1.1. Names of colours differ between \
         tables (W. A. J. Chapman, 1972; Stirling Boiler Co., 1905), and with the light; tinted \
         glasses mislead. A size taken hot is for the work, never for marks. Black heat still burns."
            .to_owned(),
    ));
    blocks
}
