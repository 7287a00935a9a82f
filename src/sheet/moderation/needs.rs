//! How many examiners and pieces a mark needs.

use super::how;
use super::words::lacking;
use crate::figures::Lacking;
use crate::figures::general::{Coefficient, Decision, least};
use crate::moderation::{MOST_EXAMINERS, MOST_PIECES, Needs, OnePiece, SeveralPieces};
use crate::quantity::{counted, print_figure};
use crate::sheet::document::{Block, Cell, Column, figure, number, plain_table, text};
use crate::sheet::scored::heading;

/// The dependability that is looked for: common practice where something hangs on a mark;
/// no source.
const WANTED: f64 = 0.8;
const HOW: &str = "generalizability (Brennan 2001): the variance of marks is taken apart into \
    pieces, examiners and what is left, with pieces that not everybody marked (Henderson 1953, \
    method 1), and each part is divided by how many will be averaged over. Dependability is the \
    share of true differences in what then differs; whoever uses a mark against a pass mark \
    wants 0.80 at least (common practice, no source). For learners, their pieces in order are \
    taken apart in the same way; what all learners gain over time is left out, and what one \
    examiner adds is taken off by the figures above. Parts below nothing count as nothing.";

pub(super) fn blocks(needs: &Needs) -> Vec<Block> {
    let mut blocks = vec![heading("How many examiners and pieces")];
    match &needs.one_piece {
        Ok(rows) => blocks.extend(one_piece(rows)),
        Err(why) => blocks.push(Block::Paragraph(lacking(why))),
    }
    match &needs.pieces {
        Ok(found) => blocks.extend(several(found)),
        // The same is said above.
        Err(why) if needs.one_piece.as_ref().err() == Some(why) => {}
        Err(why @ Lacking::TooFew { .. }) => blocks.push(Block::Paragraph(format!(
            "How many pieces tell what a learner can do is not said here. {}",
            lacking(why)
        ))),
        Err(why) => blocks.push(Block::Paragraph(lacking(why))),
    }
    blocks.push(how(HOW));
    blocks
}

fn one_piece(rows: &[OnePiece]) -> Vec<Block> {
    let enough = rows.iter().find(|row| row.phi >= WANTED);
    let says = match enough {
        Some(row) => format!(
            "For the mark of one piece to be dependable, {} will do, where pieces differ as much \
             as these.",
            counted(row.examiners, "examiner", "examiners")
        ),
        None => format!(
            "Not even {MOST_EXAMINERS} examiners make the mark of one piece dependable: bring \
             examiners closer together first."
        ),
    };
    let cells = rows.iter().map(|row| {
        vec![
            figure(row.examiners.to_string()),
            figure(print_figure(row.phi, 2)),
            figure(format!("±{}", print_figure(1.96 * row.error, 1))),
        ]
    });
    let table = plain_table(
        "The mark of one piece: dependability, and within how many per cent of the marks 19 of \
         20 lie about what all examiners would give on the mean"
            .to_owned(),
        vec![
            number("Examiners"),
            number("Dependability"),
            number("Within"),
        ],
        cells.collect(),
    );
    vec![Block::Paragraph(says), Block::Table(table)]
}

fn levels(row: &Decision, letter: char) -> usize {
    let mut plan = row.plan.iter();
    plan.find(|one| one.letter == letter)
        .map_or(0, |one| one.levels)
}

fn several(found: &SeveralPieces) -> Vec<Block> {
    let says = match least(&found.table, WANTED, Coefficient::Absolute) {
        Ok(rows) => {
            let ways = rows.iter().map(|row| {
                format!(
                    "{} with {} each",
                    counted(levels(row, 't'), "piece", "pieces"),
                    counted(levels(row, 'r'), "examiner", "examiners")
                )
            });
            format!(
                "To tell what a learner can do, from {} learners: {}.",
                found.learners,
                ways.collect::<Vec<_>>().join(", or ")
            )
        }
        Err(_) => format!(
            "Up to {MOST_PIECES} pieces with {MOST_EXAMINERS} examiners each do not tell \
             dependably what a learner can do: in these {} learners’ marks the pieces of one \
             differ too much, or learners too little.",
            found.learners
        ),
    };
    let columns = (1..=MOST_EXAMINERS).map(|count| number(counted(count, "examiner", "examiners")));
    let columns: Vec<Column> = std::iter::once(text("Pieces")).chain(columns).collect();
    let row = |pieces: usize| {
        let own = found.table.iter().filter(|row| levels(row, 't') == pieces);
        let own = own.map(|row| figure(print_figure(row.phi, 2)));
        std::iter::once(Cell::text(pieces.to_string()))
            .chain(own)
            .collect()
    };
    let table = plain_table(
        "The mean mark of a learner: dependability by pieces, and examiners of each piece"
            .to_owned(),
        columns,
        (1..=MOST_PIECES).map(row).collect(),
    );
    vec![Block::Paragraph(says), Block::Table(table)]
}
