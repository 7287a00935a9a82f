//! How sure each measured criterion is, and what would settle a close call.

use crate::conformity::{Certainty, CriterionCertainty, Settle, chance_words};
use crate::quantity::{Dimension, Unit, two_digit_places};
use crate::rubric::Entry;

use super::criteria::reading;
use super::document::columns;
use super::document::{Block, Cell, CellRole, Group, Item, Table};
use super::scored::{Scored, heading};
use super::words::marks_words;

/// Close calls, those that decide first, each with what would settle it.
pub(super) fn calls(scored: &Scored<'_>, certainty: &Certainty) -> Vec<Block> {
    let close = certainty.criteria.iter().filter(|one| one.is_close);
    let mut close: Vec<_> = close.collect();
    // The sort keeps the order of the rubric among equals.
    close.sort_by_key(|one| !one.is_decisive);
    let items: Vec<Item> = close.into_iter().map(|one| call(scored, one)).collect();
    let said = if items.is_empty() {
        Block::Paragraph(
            "No close calls: every measured criterion is at least 95 % sure of its marks."
                .to_owned(),
        )
    } else {
        Block::Items(items)
    };
    vec![heading("Close calls"), said]
}

fn call(scored: &Scored<'_>, one: &CriterionCertainty) -> Item {
    let sure = format!(
        "{} given, {} sure: measuring again could change {}.",
        marks_words(one.given),
        chance_words(one.probability),
        if one.is_decisive {
            "the marks, and with them the award or a section’s minimum"
        } else {
            "the marks"
        }
    );
    let changes = (one.changes > 0.0).then(|| {
        format!(
            "Probability that the award, or a minimum, turns by it: {}.",
            chance_words(one.changes)
        )
    });
    let settle = match &one.settle {
        Some(settle) => settle_words(settle),
        None => "Nothing at hand measures it more surely.".to_owned(),
    };
    Item {
        lead: scored.name_of(&one.entry),
        lines: [Some(sure), changes, Some(settle)]
            .into_iter()
            .flatten()
            .collect(),
    }
}

fn settle_words(settle: &Settle) -> String {
    format!(
        "To settle it: {}. If that gives the same value, the marks are {} sure.",
        how_to_settle(settle),
        chance_words(settle.probability)
    )
}

/// `one reading with Caliper`.
fn how_to_settle(settle: &Settle) -> String {
    let often = match settle.readings {
        1 => "one reading".to_owned(),
        count => format!("the mean of {count} readings"),
    };
    format!("{often} with {}", settle.name)
}

/// A close call in one line, with what would make it surer: `Bar square: its marks are
/// 71.0 % sure; one reading with Caliper could make that 98.0 %`.
pub fn remeasure_words(name: &str, one: &CriterionCertainty) -> String {
    let sure = chance_words(one.probability);
    let settle = match &one.settle {
        Some(settle) => format!(
            "{} could make that {}",
            how_to_settle(settle),
            chance_words(settle.probability)
        ),
        None => "nothing at hand measures it more surely".to_owned(),
    };
    format!("{name}: its marks are {sure} sure; {settle}")
}

/// Every measured criterion with the probability of each of its marks.
pub(super) fn chances_table(scored: &Scored<'_>, certainty: &Certainty) -> Vec<Block> {
    let rows: Vec<Vec<Cell>> = certainty
        .criteria
        .iter()
        .map(|one| row(scored, one))
        .collect();
    if rows.is_empty() {
        return vec![Block::Paragraph(
            "No measured criterion is uncertain: no reading that marks go by names an \
             instrument with figures."
                .to_owned(),
        )];
    }
    let table = Table {
        caption: "Probability of every mark, by criterion".to_owned(),
        columns: columns(&[
            ("Criterion", CellRole::Text),
            ("Measured", CellRole::Text),
            ("Standard uncertainty", CellRole::Number),
            ("Marks given", CellRole::Number),
            ("Sure", CellRole::Number),
            ("Marks and their probability", CellRole::Text),
        ]),
        groups: vec![Group {
            heading: String::new(),
            rows,
        }],
        foot: Vec::new(),
    };
    vec![heading("Measured criteria"), Block::Table(table)]
}

fn row(scored: &Scored<'_>, one: &CriterionCertainty) -> Vec<Cell> {
    let found = scored.entries.iter().zip(&scored.outcome.criteria);
    let found = found.into_iter().find(|(entry, _)| entry.id == one.entry);
    let measured = found.map(|(entry, result)| reading(scored, entry, result));
    let dimension = found.and_then(|(entry, _)| dimension(entry));
    let uncertain = dimension.map(|dimension| {
        let unit = scored.parts.marking.unit.or_usual(dimension);
        uncertainty_words(one.value.standard(), unit)
    });
    let sign = match (one.is_decisive, one.is_close) {
        (true, _) => "; decides",
        (_, true) => "; a close call",
        _ => "",
    };
    let chances = one
        .chances
        .iter()
        .map(|chance| format!("{}: {}", chance.marks, chance_words(chance.probability)));
    let sure = format!("{}{sign}", chance_words(one.probability));
    vec![
        Cell::text(scored.name_of(&one.entry)),
        Cell::text(measured.unwrap_or_default()),
        Cell::new(CellRole::Number, uncertain.unwrap_or_default()),
        Cell::new(CellRole::Number, one.given.to_string()),
        Cell::new(CellRole::Number, sure),
        Cell::text(chances.collect::<Vec<_>>().join("; ")),
    ]
}

fn dimension(entry: &Entry<'_>) -> Option<Dimension> {
    entry.criterion.scale().map(|scale| scale.dimension)
}

/// An uncertainty in base units with two significant digits (JCGM 100:2008, 7.2.6), in
/// decimals of the sheet's unit, inches too.
pub(super) fn uncertainty_words(size: f64, unit: Unit) -> String {
    amount_words(size, unit, two_digits(size, unit))
}

/// Places at which an amount in base units shows two significant digits in `unit`: none
/// from 10 on, nine at most.
pub fn two_digits(size: f64, unit: Unit) -> usize {
    two_digit_places(size / unit.in_base().to_f64())
}

/// An amount in base units to so many places of `unit`, with its symbol.
pub fn amount_words(size: f64, unit: Unit, places: usize) -> String {
    let size = size / unit.in_base().to_f64();
    let number = format!("{size:.places$}");
    match unit.symbol() {
        "" => number,
        symbol => format!("{number} {symbol}"),
    }
}
