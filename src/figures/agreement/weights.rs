use super::super::Lacking;
use super::super::numbers::number;

/// What a pair of categories counts as agreement: 1 for the same category, less for others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Weights<'w> {
    /// Nothing but the same category counts.
    Equal,
    /// `1 - d / (k - 1)`, categories `d` places apart on a scale of `k` (Cicchetti and
    /// Allison 1971).
    Linear,
    /// `1 - (d / (k - 1))^2` (Fleiss and Cohen 1973).
    Quadratic,
    /// Of one's own: a row to each category of the first rater, a column to each of the
    /// second; from 0 to 1, and 1 on the diagonal (Cohen 1968).
    Own(&'w [Vec<f64>]),
}

impl Weights<'_> {
    /// The weights of a scale with so many categories, row by row.
    pub(super) fn table(&self, categories: usize) -> Result<Vec<Vec<f64>>, Lacking> {
        let widest = number(categories.saturating_sub(1)).max(1.0);
        let of = |weight: fn(f64) -> f64| {
            let cell = |row: usize, column: usize| weight(number(row.abs_diff(column)) / widest);
            let row = |row: usize| (0..categories).map(|column| cell(row, column)).collect();
            (0..categories).map(row).collect()
        };
        match self {
            Weights::Equal => Ok(of(|apart| if apart > 0.0 { 0.0 } else { 1.0 })),
            Weights::Linear => Ok(of(|apart| 1.0 - apart)),
            Weights::Quadratic => Ok(of(|apart| 1.0 - apart * apart)),
            Weights::Own(table) => own(table, categories),
        }
    }
}

fn own(table: &[Vec<f64>], categories: usize) -> Result<Vec<Vec<f64>>, Lacking> {
    if table.len() != categories || table.iter().any(|row| row.len() != categories) {
        return Err(Lacking::Gaps("the table of weights"));
    }
    let is_fine = |row: usize, column: usize, weight: f64| {
        (0.0..=1.0).contains(&weight) && (row != column || weight >= 1.0)
    };
    for (at, row) in table.iter().enumerate() {
        let mut cells = row.iter().enumerate();
        if !cells.all(|(column, weight)| is_fine(at, column, *weight)) {
            return Err(Lacking::NotANumber("a weight"));
        }
    }
    Ok(table.to_vec())
}
