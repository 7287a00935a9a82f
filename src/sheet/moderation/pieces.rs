//! Which pieces several examiners marked, and what each gave.

use super::naming::Naming;
use super::words::about;
use crate::moderation::{By, Gathered, Seen};
use crate::quantity::Exact;
use crate::sheet::document::{Block, Cell, figure, number, plain_table, text};
use crate::sheet::percent_words;
use crate::sheet::scored::heading;

pub(super) fn blocks(gathered: &Gathered<'_>, naming: &Naming) -> Vec<Block> {
    let mut columns = vec![text("Piece"), text("Made")];
    let names = gathered.examiners.iter();
    columns.extend(names.map(|one| number(naming.examiner(*one))));
    columns.push(number("Apart"));
    columns.push(text("Awards"));
    let rows = gathered
        .twice
        .iter()
        .map(|seen| row(gathered, seen, naming));
    let caption = "Pieces marked by two examiners or more: totals in per cent of the marks, and \
                   how far two examiners lie apart on the mean";
    let table = plain_table(caption.to_owned(), columns, rows.collect());
    vec![heading("Marked by several examiners"), Block::Table(table)]
}

fn row(gathered: &Gathered<'_>, seen: &Seen<'_>, naming: &Naming) -> Vec<Cell> {
    let percent = |by: &By<'_>| by.share()?.times(Exact::HUNDRED);
    let given = gathered.examiners.iter().map(|one| match seen.by(*one) {
        None => figure("–"),
        Some(by) => figure(percent(by).map_or_else(|| "not whole".to_owned(), percent_words)),
    });
    let apart = seen.mean_apart(percent).map(about).unwrap_or_default();
    let mut awards: Vec<&str> = seen.by.iter().map(|by| by.outcome.award.word()).collect();
    awards.sort_unstable();
    awards.dedup();
    let awards = match awards.as_slice() {
        [one] => format!("all {one}"),
        several => several.join(" and "),
    };
    let first = [
        Cell::text(naming.piece(seen.piece.id)),
        Cell::text(seen.day.to_string()),
    ];
    let last = [figure(apart), Cell::text(awards)];
    first.into_iter().chain(given).chain(last).collect()
}
