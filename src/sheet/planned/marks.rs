use super::super::document::{Block, Cell, CellRole, columns, figure, plain_table};
use super::{Planned, heading};
use crate::piece::Branch;
use crate::plan::{Layout, LayoutMark};
use crate::sheet::words::capital;

/// Where the bar is marked.
pub(super) fn blocks(planned: &Planned<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Marks on the bar")];
    match &planned.plan.layout {
        Ok(layout) => blocks.extend(laid_out(planned, layout)),
        Err(fault) => blocks.push(Block::Paragraph(format!("No marks: {fault}."))),
    }
    blocks
}

fn laid_out(planned: &Planned<'_>, layout: &Layout) -> Vec<Block> {
    let table = plain_table(
        format!(
            "From the left end, ground side up, toe away: it becomes the {} branch",
            branch_word(layout.left)
        ),
        columns(&[
            ("Mark", CellRole::Text),
            ("Branch", CellRole::Text),
            ("From the left end", CellRole::Number),
            ("From the middle", CellRole::Number),
        ]),
        layout.marks.iter().map(|mark| row(planned, mark)).collect(),
    );
    let mut blocks = vec![Block::Table(table)];
    if let Some(thick) = layout.bumped {
        blocks.push(Block::Paragraph(format!(
            "Bumping makes the toe {} thick on the mean, before it is drawn again.",
            planned.say(thick)
        )));
    }
    blocks.extend(
        layout
            .left_out
            .iter()
            .map(|what| Block::Paragraph(capital(what))),
    );
    blocks
}

fn row(planned: &Planned<'_>, mark: &LayoutMark) -> Vec<Cell> {
    let branch = mark.branch.map_or("", branch_word);
    vec![
        Cell::text(capital(&mark.kind.to_string())),
        Cell::text(branch),
        figure(planned.say(mark.from_left)),
        figure(planned.say(mark.from_middle)),
    ]
}

fn branch_word(branch: Branch) -> &'static str {
    match branch {
        Branch::Outer => "outer",
        Branch::Inner => "inner",
    }
}
