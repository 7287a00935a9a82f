use super::grid::Grid;
use super::known::{PartBias, biases, linear};
use crate::figures::agreement::{Within, within};
use crate::figures::gauge::{Crossed, Linearity, POOLING_LEVEL, RangeStudy, VarianceStudy};
use crate::figures::{Lacking, mean};
use crate::marking::{Disagreement, disagreement};
use crate::quantity::{Dimension, Exact, Quantity, Unit};
use crate::records::StudyFacts;

/// The level of every interval.
pub const LEVEL: f64 = 0.95;

/// Trials of one part by one person that differ by more than they should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Suspect {
    /// Which part, from 0.
    pub part: usize,
    /// Who, from 0.
    pub person: usize,
    /// By how much, and how much is to be expected.
    pub disagreement: Disagreement,
}

/// What a study comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// What all figures are in.
    pub unit: Unit,
    /// The readings as read, and what is missing.
    pub grid: Grid,
    /// The same in the study's unit, by part, then person.
    pub cells: Vec<Vec<Vec<f64>>>,
    /// How trials of one part by one person scatter, of all cells with two readings.
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

impl Worked {
    /// Each reading less the mean of its part, by part, then person; none for a part without
    /// readings.
    pub fn from_part_means(&self) -> Vec<Vec<Vec<f64>>> {
        let parts = self.cells.iter();
        parts.map(|cells| less_their_mean(cells)).collect()
    }
}

fn less_their_mean(cells: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let middle = mean(&cells.concat());
    let less = |cell: &Vec<f64>| cell.iter().map(|value| value - middle).collect();
    cells.iter().map(less).collect()
}

/// Works a study out.
///
/// Repeatability is pooled over the cells (ISO 5725-2:2019, 7.4), so a gap costs one reading
/// and no part; people and parts are those of [`Crossed`]. A cell is suspect where its range
/// is over the critical range of that repeatability, as repeats on a mark sheet are.
#[must_use]
pub fn worked(facts: &StudyFacts) -> Worked {
    let unit = facts.unit.or_usual(Dimension::Length);
    let grid = Grid::of(facts);
    let cells: Vec<Vec<Vec<f64>>> = grid.cells.iter().map(|part| numbers(part, unit)).collect();
    let flat: Vec<Vec<f64>> = cells.iter().flatten().cloned().collect();
    let whole = grid
        .whole
        .iter()
        .filter_map(|part| cells.get(*part).cloned());
    let crossed = Crossed::of(&whole.collect::<Vec<_>>());
    let repeatability = within(&flat, LEVEL);
    let by_variance = crossed
        .clone()
        .and_then(|crossed| crossed.by_variance(POOLING_LEVEL));
    Worked {
        unit,
        suspects: suspects(&grid, repeatability.as_ref().ok(), unit),
        by_variance,
        by_ranges: crossed.and_then(|crossed| crossed.by_ranges()),
        linearity: linear(facts, &cells, unit),
        biases: biases(facts, &cells, unit),
        repeatability,
        cells,
        grid,
    }
}

fn numbers(cells: &[Vec<Exact>], unit: Unit) -> Vec<Vec<f64>> {
    let cell = |cell: &Vec<Exact>| {
        let values = cell.iter();
        values.filter_map(|value| in_unit(*value, unit)).collect()
    };
    cells.iter().map(cell).collect()
}

pub(super) fn in_unit(base: Exact, unit: Unit) -> Option<f64> {
    Some(base.over(unit.in_base())?.to_f64())
}

fn suspects(grid: &Grid, within: Option<&Within>, unit: Unit) -> Vec<Suspect> {
    let deviation = within.and_then(|within| as_length(within.deviation, unit));
    let Some(deviation) = deviation else {
        return Vec::new();
    };
    let rows = grid.cells.iter().enumerate();
    let cells = rows.flat_map(|(part, row)| {
        let row = row.iter().enumerate();
        row.map(move |(person, cell)| (part, person, cell))
    });
    let found = cells.filter_map(|(part, person, cell)| {
        Some(Suspect {
            part,
            person,
            disagreement: disagreement(cell, deviation)?,
        })
    });
    found.collect()
}

/// A length to the nearest nanometre below; nothing where there is no spread, as then nothing
/// can be told apart from it.
fn as_length(value: f64, unit: Unit) -> Option<Quantity> {
    use num_traits::ToPrimitive as _;
    let nanometres = value * unit.in_base().to_f64();
    let base = nanometres.to_i128().filter(|base| *base > 0)?;
    Some(Quantity::new(Dimension::Length, Exact::whole(base)))
}
