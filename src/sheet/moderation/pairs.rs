//! Two examiners side by side: drawing, sentence and table.

use super::naming::Naming;
use super::words::{between, decimal, signed};
use crate::chart::{Bound, Differences, Drawing, differences};
use crate::figures::agreement::Estimate;
use crate::moderation::PairLimits;
use crate::sheet::document::{Block, Cell, Group, Table, figure, number, plain_table, text};

/// What a pair's values are, and how they are said.
pub(super) struct Unit<'a> {
    /// In words: `per cent of the marks`, `mm`.
    pub name: &'a str,
    /// Places that tell something.
    pub places: usize,
}

/// So many drawings; the tables have all pairs.
const DRAWN: usize = 3;

/// Drawings, sentences and numbers of these pairs, about `what`.
pub(super) fn blocks(
    pairs: &[PairLimits],
    what: &str,
    unit: &Unit<'_>,
    naming: &Naming,
) -> Vec<Block> {
    if pairs.is_empty() {
        return Vec::new();
    }
    let drawn = pairs.iter().take(DRAWN);
    let drawn = drawn.map(|pair| drawing(pair, what, unit, naming));
    let mut blocks = vec![Block::Drawings(drawn.collect())];
    let said = pairs.iter().map(|pair| sentence(pair, unit, naming));
    blocks.extend(said.map(Block::Paragraph));
    blocks.push(Block::Table(limits_table(pairs, what, unit, naming)));
    blocks.push(Block::Table(points_table(pairs, what, unit, naming)));
    blocks
}

fn drawing(pair: &PairLimits, what: &str, unit: &Unit<'_>, naming: &Naming) -> Drawing {
    let (one, other) = (naming.examiner(pair.first), naming.examiner(pair.second));
    let bound = |lead: &str, estimate: Estimate| Bound {
        value: estimate.value,
        interval: (estimate.interval.low, estimate.interval.high),
        label: format!("{lead} {}", signed(estimate.value, unit.places)),
    };
    let points = pair.points.iter().map(|point| {
        let name = naming.number(point.piece);
        (point.mean, point.difference, name)
    });
    differences(&Differences {
        points: points.collect(),
        middle: bound("mean", pair.limits.bias),
        low: bound("19 of 20 above", pair.limits.low),
        high: bound("19 of 20 below", pair.limits.high),
        across: format!("mean of both, {}", unit.name),
        upwards: format!("first less second, {}", unit.name),
        title: format!("{what}: {one} less {other}"),
        description: format!(
            "{} The numbers at the points are those of the pieces; the numbers are in the \
             tables below.",
            sentence(pair, unit, naming)
        ),
    })
}

fn sentence(pair: &PairLimits, unit: &Unit<'_>, naming: &Naming) -> String {
    let (one, other) = (naming.examiner(pair.first), naming.examiner(pair.second));
    let bias = pair.limits.bias;
    let way = if bias.value < 0.0 { "less" } else { "more" };
    let level = if bias.interval.low > 0.0 || bias.interval.high < 0.0 {
        "so the two levels differ"
    } else {
        "so it may be chance"
    };
    format!(
        "On {} pieces that both marked, {one} gives {} {} {way} than {other} on the mean ({}, \
         {level}). Of 20 such pieces {one} gives 19 between {} and {} {} of what {other} gives.",
        pair.points.len(),
        decimal(bias.value.abs(), unit.places),
        unit.name,
        between(bias.interval, unit.places),
        signed(pair.limits.low.value, unit.places),
        signed(pair.limits.high.value, unit.places),
        unit.name,
    )
}

fn limits_table(pairs: &[PairLimits], what: &str, unit: &Unit<'_>, naming: &Naming) -> Table {
    let said = |one: Estimate| {
        let value = signed(one.value, unit.places);
        figure(format!("{value} ({})", between(one.interval, unit.places)))
    };
    let rows = pairs.iter().map(|pair| {
        vec![
            Cell::text(naming.examiner(pair.first)),
            Cell::text(naming.examiner(pair.second)),
            figure(pair.points.len().to_string()),
            said(pair.limits.bias),
            said(pair.limits.low),
            said(pair.limits.high),
        ]
    });
    plain_table(
        format!(
            "{what}, first less second in {}: mean difference and limits, each with its 95 % \
             interval",
            unit.name
        ),
        vec![
            text("First"),
            text("Second"),
            number("Pieces"),
            number("Mean difference"),
            number("Lower limit"),
            number("Upper limit"),
        ],
        rows.collect(),
    )
}

fn points_table(pairs: &[PairLimits], what: &str, unit: &Unit<'_>, naming: &Naming) -> Table {
    let group = |pair: &PairLimits| {
        let (one, other) = (naming.examiner(pair.first), naming.examiner(pair.second));
        let rows = pair.points.iter().map(|point| {
            vec![
                Cell::text(naming.piece(point.piece)),
                figure(decimal(point.mean, unit.places)),
                figure(signed(point.difference, unit.places)),
            ]
        });
        Group {
            heading: format!("{one} less {other}"),
            rows: rows.collect(),
        }
    };
    Table {
        caption: format!("{what}, piece by piece in {}", unit.name),
        columns: vec![text("Piece"), number("Mean of both"), number("Difference")],
        groups: pairs.iter().map(group).collect(),
        foot: Vec::new(),
    }
}
