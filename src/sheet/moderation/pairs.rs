//! Two examiners side by side: drawing, sentence and table.

use super::naming::Naming;
use super::words::between;
use crate::chart::{Bound, DifferencePoint, Differences, Drawing, differences};
use crate::figures::agreement::Estimate;
use crate::moderation::PairLimits;
use crate::quantity::{print_figure, print_signed};
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
    let shown = |(at, pair): (usize, &PairLimits)| {
        let drawn = (at < DRAWN).then(|| drawing(pair, what, unit, naming));
        let drawn = drawn.map(|drawing| Block::Drawings(vec![drawing]));
        let said = Block::Paragraph(sentence(pair, unit, naming));
        [Some(said), drawn].into_iter().flatten()
    };
    let mut blocks: Vec<Block> = pairs.iter().enumerate().flat_map(shown).collect();
    blocks.push(Block::Table(limits_table(pairs, what, unit, naming)));
    blocks.push(Block::Table(points_table(pairs, what, unit, naming)));
    blocks
}

fn drawing(pair: &PairLimits, what: &str, unit: &Unit<'_>, naming: &Naming) -> Drawing {
    let (one, other) = (naming.examiner(pair.first), naming.examiner(pair.second));
    let bound = |lead: &str, estimate: Estimate| Bound {
        value: estimate.value,
        interval: (estimate.interval.low, estimate.interval.high),
        label: format!("{lead} {}", print_signed(estimate.value, unit.places)),
    };
    let points = pair.points.iter().map(|point| DifferencePoint {
        mean: point.mean,
        difference: point.difference,
        name: naming.number(point.piece),
        words: format!(
            "Piece {}: difference {}, mean of both {}, {}.",
            naming.piece(point.piece),
            print_signed(point.difference, unit.places),
            print_figure(point.mean, unit.places),
            unit.name,
        ),
    });
    differences(&Differences {
        points: points.collect(),
        middle: bound("mean", pair.limits.bias),
        low: bound("lower limit", pair.limits.low),
        high: bound("upper limit", pair.limits.high),
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
    let way = if bias.value < 0.0 { "below" } else { "above" };
    let level = if bias.interval.low > 0.0 || bias.interval.high < 0.0 {
        "that is more than chance"
    } else {
        "it may be chance"
    };
    format!(
        "On the {} pieces that both marked, {one} lies {} {} {way} {other} on the mean (95 % \
         interval {}: {level}). On 19 of 20 such pieces the difference lies between {} and {} {}.",
        pair.points.len(),
        print_figure(bias.value.abs(), unit.places),
        unit.name,
        between(bias.interval, unit.places),
        print_signed(pair.limits.low.value, unit.places),
        print_signed(pair.limits.high.value, unit.places),
        unit.name,
    )
}

fn limits_table(pairs: &[PairLimits], what: &str, unit: &Unit<'_>, naming: &Naming) -> Table {
    let said = |one: Estimate| {
        let value = print_signed(one.value, unit.places);
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
                figure(print_figure(point.mean, unit.places)),
                figure(print_signed(point.difference, unit.places)),
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
