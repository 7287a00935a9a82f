//! Readings against known sizes.

use super::Told;
use crate::figures::gauge::Linearity;
use crate::quantity::{print_figure, print_signed};
use crate::sheet::document::{Block, Cell, Column, Table, figure, number, plain_table, text};
use crate::sheet::scored::heading;
use crate::study::{Found, PartBias};

pub(super) fn blocks(told: &Told<'_>) -> Vec<Block> {
    let biases = &told.worked.biases;
    if biases.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Against known sizes")];
    blocks.extend(biases.iter().map(|one| Block::Paragraph(said(told, one))));
    blocks.push(Block::Table(table(told)));
    if let Ok(line) = &told.worked.linearity {
        blocks.push(Block::Paragraph(line_words(told, line)));
    }
    blocks
}

fn said(told: &Told<'_>, one: &PartBias) -> String {
    let part = told.part(one.part);
    let found = match (&one.known, &one.found) {
        (Err(why), _) => return format!("{part}: its known size cannot be used: {why}."),
        (_, Some(Ok(found))) => found,
        _ => return format!("{part}: it takes two readings or more to say how far off they are."),
    };
    let bias = found.of_readings.bias;
    let way = if bias < 0.0 { "little" } else { "much" };
    let sure = if found.interval.low > 0.0 || found.interval.high < 0.0 {
        "that is more than chance"
    } else {
        "that may be chance"
    };
    format!(
        "{part}: readings show {} too {way} on the mean of all people (95 % interval {} to {}: \
         {sure}).{}",
        told.amount(bias.abs()),
        signed(told, found.interval.low),
        signed(told, found.interval.high),
        of_size(told, found)
    )
}

/// How much of the uncertainty is that of the known size.
fn of_size(told: &Told<'_>, found: &Found) -> String {
    match found.share_of_size() {
        Some(share) if share > 0.0 => format!(
            " Of its variance {} % is that of the known size, which is uncertain by {}.",
            print_figure(share * 100.0, 0),
            told.amount(found.of_size)
        ),
        _ => " No uncertainty of the known size is stated, so it counts as exact.".to_owned(),
    }
}

fn signed(told: &Told<'_>, value: f64) -> String {
    print_signed(value, told.places)
}

fn table(told: &Told<'_>) -> Table {
    let person = |at: usize| number(told.person(at));
    let people = 0..told.facts.people.len();
    let columns: Vec<Column> = [
        text("Part"),
        number("Known size"),
        number("Bias"),
        number("95 % interval"),
    ]
    .into_iter()
    .chain(people.map(person))
    .collect();
    let rows = told.worked.biases.iter().map(|one| {
        let size = one.known.as_ref().ok();
        let size = size.map(|(size, _)| told.bare(*size));
        let found = one.found.as_ref().and_then(|found| found.as_ref().ok());
        let bias = found.map(|found| signed(told, found.of_readings.bias));
        let interval = found.map(|found| {
            let (low, high) = (found.interval.low, found.interval.high);
            format!("{} to {}", signed(told, low), signed(told, high))
        });
        let own = one.by_person.iter();
        let own = own.map(|value| value.map(|value| signed(told, value)));
        let cells = [size, bias, interval].into_iter().chain(own);
        let cells = cells.map(|cell| figure(cell.unwrap_or_else(|| "–".to_owned())));
        std::iter::once(Cell::text(told.part(one.part)))
            .chain(cells)
            .collect()
    });
    let unit = told.worked.unit.symbol();
    plain_table(
        format!(
            "Mean reading less known size in {unit}: of all people, and of each, as people differ"
        ),
        columns,
        rows.collect(),
    )
}

fn line_words(told: &Told<'_>, found: &Linearity) -> String {
    let (low, high) = found.range;
    let sure = if found.slope.low > 0.0 || found.slope.high < 0.0 {
        "The bias changes with the size, by more than chance"
    } else {
        "That the bias changes with the size does not show"
    };
    format!(
        "{sure}: from {} to {} it changes by {} {} (slope {} per {unit}; 95 % interval {} to {}). \
         Nothing is said beyond these sizes.",
        told.bare(low),
        told.amount(high),
        signed(told, found.over_range()),
        told.worked.unit.symbol(),
        print_signed(found.line.slope, 4),
        print_signed(found.slope.low, 4),
        print_signed(found.slope.high, 4),
        unit = told.worked.unit.symbol(),
    )
}
