use super::grid::Grid;
use crate::figures::Lacking;
use crate::figures::agreement::{Within, within};
use crate::figures::gauge::{
    Bias, Crossed, Linearity, POOLING_LEVEL, RangeStudy, Reference, VarianceStudy, bias, linearity,
};
use crate::marking::{Disagreement, disagreement};
use crate::quantity::{Dimension, Exact, Quantity, Unit, read_quantity};
use crate::records::StudyFacts;

/// The level of every interval.
pub const LEVEL: f64 = 0.95;

/// Trials of one part by one operator that differ by more than they should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Suspect {
    /// Which part, from 0.
    pub part: usize,
    /// Which operator, from 0.
    pub operator: usize,
    /// By how much, and how much is to be expected.
    pub disagreement: Disagreement,
}

/// How far readings of a part of known size are off.
#[derive(Debug, Clone, PartialEq)]
pub struct PartBias {
    /// Which part, from 0.
    pub part: usize,
    /// Its known size, or why that cannot be read.
    pub reference: Result<f64, String>,
    /// The bias, all operators together; nothing where there is no size.
    pub bias: Option<Result<Bias, Lacking>>,
}

/// What a study comes to. Figures are in millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// The readings as read, and what is missing.
    pub grid: Grid,
    /// How trials of one part by one operator scatter, of all cells with two readings.
    pub repeatability: Result<Within, Lacking>,
    /// People and parts by analysis of variance, of whole parts.
    pub by_variance: Result<VarianceStudy, Lacking>,
    /// The same by averages and ranges.
    pub by_ranges: Result<RangeStudy, Lacking>,
    /// Cells that look mistyped.
    pub suspects: Vec<Suspect>,
    /// Parts of known size.
    pub biases: Vec<PartBias>,
    /// The bias over the size, from three parts of known size on.
    pub linearity: Result<Linearity, Lacking>,
}

/// Works a study out.
///
/// Repeatability is pooled over the cells (ISO 5725-2:2019, 7.4), so a gap costs one reading
/// and no part; people and parts are those of [`Crossed`]. A cell is suspect where its range
/// is over the critical range of that repeatability, as repeats on a mark sheet are.
#[must_use]
pub fn worked(facts: &StudyFacts) -> Worked {
    let grid = Grid::of(facts);
    let all: Vec<Vec<Vec<f64>>> = grid.cells.iter().map(|part| numbers(part)).collect();
    let cells: Vec<Vec<f64>> = all.iter().flatten().cloned().collect();
    let whole = grid.whole.iter().filter_map(|part| all.get(*part).cloned());
    let crossed = Crossed::of(&whole.collect::<Vec<_>>());
    let repeatability = within(&cells, LEVEL);
    let references = references(facts, &all);
    let known: Vec<Reference> = references
        .iter()
        .filter_map(|(_, found)| found.clone().ok())
        .filter(|found| !found.readings.is_empty())
        .collect();
    let by_variance = crossed
        .clone()
        .and_then(|crossed| crossed.by_variance(POOLING_LEVEL));
    Worked {
        suspects: suspects(&grid, repeatability.as_ref().ok()),
        by_variance,
        by_ranges: crossed.and_then(|crossed| crossed.by_ranges()),
        linearity: line(&known),
        biases: references.into_iter().map(part_bias).collect(),
        repeatability,
        grid,
    }
}

fn numbers(cells: &[Vec<Exact>]) -> Vec<Vec<f64>> {
    let cell = |cell: &Vec<Exact>| {
        cell.iter()
            .filter_map(|value| millimetres(*value))
            .collect()
    };
    cells.iter().map(cell).collect()
}

fn millimetres(base: Exact) -> Option<f64> {
    Some(base.over(Unit::Millimetre.in_base())?.to_f64())
}

type Known = (usize, Result<Reference, String>);

fn references(facts: &StudyFacts, all: &[Vec<Vec<f64>>]) -> Vec<Known> {
    let unit = facts.unit.or_usual(Dimension::Length);
    let parts = facts.parts.iter().zip(all).enumerate();
    let known = parts.filter_map(|(at, (part, cells))| {
        let text = part.reference.as_deref()?;
        let size = read_quantity(text, Dimension::Length, unit);
        let found = size.map_err(|why| why.to_string()).and_then(|size| {
            let value = millimetres(size.base);
            Ok(Reference {
                value: value.ok_or_else(|| format!("`{text}` is too large to work with; write the size of the part, like 10.5 mm"))?,
                readings: cells.iter().flatten().copied().collect(),
            })
        });
        Some((at, found))
    });
    known.collect()
}

fn part_bias((part, found): Known) -> PartBias {
    PartBias {
        part,
        bias: found.as_ref().ok().map(|found| bias(found, LEVEL)),
        reference: found.map(|found| found.value),
    }
}

fn line(known: &[Reference]) -> Result<Linearity, Lacking> {
    const LEAST: usize = 3;
    if known.len() < LEAST {
        return Err(Lacking::TooFew {
            what: "parts of known size",
            has: known.len(),
            needs: LEAST,
        });
    }
    linearity(known, LEVEL)
}

fn suspects(grid: &Grid, within: Option<&Within>) -> Vec<Suspect> {
    let Some(deviation) = within.and_then(|within| in_nanometres(within.deviation)) else {
        return Vec::new();
    };
    let rows = grid.cells.iter().enumerate();
    let cells = rows.flat_map(|(part, row)| {
        let row = row.iter().enumerate();
        row.map(move |(operator, cell)| (part, operator, cell))
    });
    let found = cells.filter_map(|(part, operator, cell)| {
        Some(Suspect {
            part,
            operator,
            disagreement: disagreement(cell, deviation)?,
        })
    });
    found.collect()
}

/// A length of so many millimetres to the nearest nanometre below; nothing where there is no
/// spread, as then nothing can be told apart from it.
fn in_nanometres(millimetres: f64) -> Option<Quantity> {
    use num_traits::ToPrimitive as _;
    let base = (millimetres * 1e6).to_i128().filter(|base| *base > 0)?;
    Some(Quantity::new(Dimension::Length, Exact::whole(base)))
}
