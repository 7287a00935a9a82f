use super::super::document::{Block, Cell, CellRole, columns, plain_table};
use super::{Planned, heading};
use crate::sheet::words::capital;

/// How the piece compares with old rules of proportion.
pub(super) fn blocks(planned: &Planned<'_>) -> Vec<Block> {
    let rows = planned.plan.proportions.iter().map(|one| {
        vec![
            Cell::text(capital(one.what)),
            Cell::text(&*one.rule),
            Cell::text(&*one.asked),
            Cell::text(capital(one.stands.word())),
            Cell::new(CellRole::Quiet, one.source),
        ]
    });
    let table = plain_table(
        "Information, never marks".to_owned(),
        columns(&[
            ("What", CellRole::Text),
            ("The rule", CellRole::Text),
            ("Asked for", CellRole::Text),
            ("How it stands", CellRole::Text),
            ("Source", CellRole::Quiet),
        ]),
        rows.collect(),
    );
    vec![heading("Beside old rules"), Block::Table(table)]
}
