//! Numbers in rows and columns, all there.

use super::Lacking;
use super::numbers::{all_finite, at_least};

/// Rows of one length without gaps.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Table {
    rows: Vec<Vec<f64>>,
    columns: Vec<Vec<f64>>,
}

/// What the rows and columns of a table are called, and how many of each it takes.
pub(super) struct Shape {
    /// Name and least number of the rows.
    pub rows: (&'static str, usize),
    /// Name and least number of the columns.
    pub columns: (&'static str, usize),
    /// What stands in the cells.
    pub cells: &'static str,
}

impl Table {
    /// # Errors
    ///
    /// Too few rows or columns, rows of unlike length, a number that is not finite.
    pub fn of(rows: &[Vec<f64>], shape: &Shape) -> Result<Self, Lacking> {
        at_least(rows.len(), shape.rows.1, shape.rows.0)?;
        let width = rows.iter().map(Vec::len).max().unwrap_or(0);
        if rows.iter().any(|row| row.len() != width) {
            return Err(Lacking::Gaps(shape.cells));
        }
        at_least(width, shape.columns.1, shape.columns.0)?;
        for row in rows {
            all_finite(row, shape.cells)?;
        }
        let column = |at: usize| rows.iter().filter_map(|row| row.get(at).copied()).collect();
        Ok(Self {
            rows: rows.to_vec(),
            columns: (0..width).map(column).collect(),
        })
    }

    pub fn rows(&self) -> &[Vec<f64>] {
        &self.rows
    }

    pub fn columns(&self) -> &[Vec<f64>] {
        &self.columns
    }

    /// The sum of each row.
    pub fn totals(&self) -> Vec<f64> {
        self.rows.iter().map(|row| row.iter().sum()).collect()
    }
}
