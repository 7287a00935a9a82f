//! A day on which examiners come together: which pieces, and who marks which.

use super::naming::{Naming, letters};
use super::words::about;
use super::{DayAsked, how};
use crate::moderation::{Agreement, Candidate, DayPlan, Gathered, candidates, plan_day};
use crate::quantity::{Exact, counted};
use crate::sheet::document::{Block, Cell, Column, Weight, figure, number, plain_table, text};
use crate::sheet::percent_words;
use crate::sheet::scored::heading;
use crate::sheet::scored::notice;

const HOW: &str = "pieces that were marked as a whole are put in the order of their totals and \
    cut into as many equal runs as pieces are wanted. Of each run that one is taken on which \
    examiners lay furthest apart, then on which more of the five most troubled criteria were \
    marked differently, then with more photos, then the latest. So the day covers poor work and \
    good. Pieces are given out one by one to those with the least to do, and first to those who \
    are not tied together yet, so that all loads are alike and everybody can be compared with \
    everybody over pieces that two marked. Each begins at another piece. The rules are our own.";

pub(super) fn blocks(
    gathered: &Gathered<'_>,
    agreement: &Agreement,
    naming: &Naming,
    asked: DayAsked,
) -> Vec<Block> {
    let mut blocks = vec![heading("A standardisation day")];
    let chosen = candidates(gathered, &agreement.criteria, asked.pieces);
    if chosen.is_empty() {
        let text = "No piece by this rubric is marked as a whole in these days, so none can be \
                    proposed. The plan below stands for any pieces.";
        blocks.push(Block::Paragraph(text.to_owned()));
    } else {
        blocks.push(Block::Paragraph(chosen_words(&chosen, asked)));
        blocks.push(Block::Table(chosen_table(&chosen, naming)));
    }
    match plan_day(asked.examiners, asked.pieces, asked.each) {
        Ok(plan) => {
            let names = place_names(&chosen, asked.pieces, naming);
            blocks.push(Block::Paragraph(plan_words(&plan, asked)));
            blocks.push(Block::Table(plan_table(&plan, &names)));
            blocks.push(Block::Table(order_table(&plan, &names)));
        }
        Err(fault) => blocks.push(notice(
            Weight::Warn,
            format!("There is no such plan: {fault}."),
            Vec::new(),
        )),
    }
    blocks.push(how(HOW));
    blocks
}

fn chosen_words(chosen: &[Candidate], asked: DayAsked) -> String {
    let proposed = counted(chosen.len(), "piece is", "pieces are");
    if chosen.len() < asked.pieces {
        format!(
            "{} were asked for; {proposed} here that were marked as a whole. Bring more, or plan \
             with fewer.",
            counted(asked.pieces, "piece", "pieces")
        )
    } else {
        format!("These {proposed} proposed, as they would tell most.")
    }
}

fn chosen_table(chosen: &[Candidate], naming: &Naming) -> crate::sheet::document::Table {
    let rows = chosen.iter().map(|one| {
        let percent = |share: Exact| share.times(Exact::HUNDRED);
        let apart = one.apart.and_then(percent).map(about);
        vec![
            Cell::text(naming.piece(one.piece)),
            figure(percent(one.share).map(percent_words).unwrap_or_default()),
            figure(apart.unwrap_or_else(|| "one examiner".to_owned())),
            figure(one.troubled.to_string()),
            figure(one.photos.to_string()),
        ]
    });
    plain_table(
        "Proposed pieces, from the poorest to the best: total in per cent of the marks, how far \
         examiners lay apart, how many of the most troubled criteria were marked differently, \
         photos"
            .to_owned(),
        vec![
            text("Piece"),
            number("Total"),
            number("Apart"),
            number("Troubled criteria"),
            number("Photos"),
        ],
        rows.collect(),
    )
}

/// What the pieces of the plan are called: those proposed, then any others.
fn place_names(chosen: &[Candidate], wanted: usize, naming: &Naming) -> Vec<String> {
    let proposed = chosen.iter().map(|one| naming.piece(one.piece));
    let others = (1..).map(|number| format!("another piece ({number})"));
    proposed.chain(others).take(wanted).collect()
}

fn plan_words(plan: &DayPlan, asked: DayAsked) -> String {
    let most = plan.orders.iter().map(Vec::len).max().unwrap_or(0);
    let least = plan.orders.iter().map(Vec::len).min().unwrap_or(0);
    let load = if most == least {
        counted(most, "piece", "pieces")
    } else {
        format!("{least} or {most} pieces")
    };
    format!(
        "{} mark {} so that each piece has {} of them and each of them {load}. The letters of \
         this plan are drawn on the day and stand for nobody above.",
        counted(asked.examiners, "examiner", "examiners"),
        counted(asked.pieces, "piece", "pieces"),
        asked.each
    )
}

fn plan_table(plan: &DayPlan, names: &[String]) -> crate::sheet::document::Table {
    let letter = |at: usize| text(letters(at + 1));
    let columns = (0..plan.orders.len()).map(letter);
    let columns: Vec<Column> = std::iter::once(text("Piece")).chain(columns).collect();
    let rows = plan.pieces.iter().zip(names).map(|(by, name)| {
        let marks = (0..plan.orders.len())
            .map(|one| Cell::text(if by.contains(&one) { "marks" } else { "–" }));
        std::iter::once(Cell::text(name.clone()))
            .chain(marks)
            .collect()
    });
    plain_table("Who marks which piece".to_owned(), columns, rows.collect())
}

fn order_table(plan: &DayPlan, names: &[String]) -> crate::sheet::document::Table {
    let rows = plan.orders.iter().enumerate().map(|(at, order)| {
        let named = order.iter().filter_map(|piece| names.get(*piece).cloned());
        vec![
            Cell::text(letters(at + 1)),
            figure(order.len().to_string()),
            Cell::text(named.collect::<Vec<_>>().join("; ")),
        ]
    });
    plain_table(
        "In which order each marks".to_owned(),
        vec![text("Examiner"), number("Pieces"), text("In this order")],
        rows.collect(),
    )
}
