use super::super::Lacking;
use super::super::numbers::{at_least, finite};

/// The scores that raters gave to targets: one row to a target, one column to a rater, and
/// `None` where a rater did not score a target.
#[derive(Debug, Clone, PartialEq)]
pub struct Ratings {
    raters: usize,
    /// Row by row; a whole number of rows.
    cells: Vec<Option<f64>>,
}

impl Ratings {
    /// Of rows of one length, each at least one cell long. Scores are in any one unit.
    ///
    /// # Errors
    /// `TooFew` without a row or a column, `Gaps` for rows of different lengths,
    /// `NotANumber` for a score that is not finite.
    pub fn new(rows: &[Vec<Option<f64>>]) -> Result<Self, Lacking> {
        at_least(rows.len(), 1, "targets")?;
        let raters = rows.first().map_or(0, Vec::len);
        at_least(raters, 1, "raters")?;
        if rows.iter().any(|row| row.len() != raters) {
            return Err(Lacking::Gaps("a row of the table of scores"));
        }
        let cells = rows.iter().flatten().map(|cell| {
            // Adding nothing makes the negative zero a zero, so that equal scores are one.
            cell.map(|score| finite(score + 0.0, "a score")).transpose()
        });
        let cells = cells.collect::<Result<_, _>>()?;
        Ok(Self { raters, cells })
    }

    /// Of whole rows, as [`Ratings::new`].
    ///
    /// # Errors
    /// As [`Ratings::new`].
    pub fn whole(rows: &[Vec<f64>]) -> Result<Self, Lacking> {
        let rows = rows
            .iter()
            .map(|row| row.iter().copied().map(Some).collect());
        Self::new(&rows.collect::<Vec<_>>())
    }

    /// How many targets there are.
    pub fn targets(&self) -> usize {
        self.cells.len() / self.raters.max(1)
    }

    /// How many raters there are.
    pub fn raters(&self) -> usize {
        self.raters
    }

    /// How many cells are empty.
    pub fn missing(&self) -> usize {
        self.cells.iter().filter(|cell| cell.is_none()).count()
    }

    /// The cells of each target.
    pub fn rows(&self) -> impl Iterator<Item = &[Option<f64>]> {
        self.cells.chunks_exact(self.raters.max(1))
    }

    /// The scores of each target, without empty cells.
    pub fn scores_of_targets(&self) -> impl Iterator<Item = Vec<f64>> {
        self.rows()
            .map(|row| row.iter().copied().flatten().collect())
    }

    /// All scores, without empty cells.
    pub fn scores(&self) -> impl Iterator<Item = f64> {
        self.cells.iter().copied().flatten()
    }

    /// The distinct scores that were given, in rising order.
    pub fn distinct(&self) -> Vec<f64> {
        let mut seen: Vec<f64> = self.scores().collect();
        seen.sort_unstable_by(f64::total_cmp);
        seen.dedup();
        seen
    }

    /// All scores row by row, where no cell is empty.
    ///
    /// # Errors
    /// `Gaps` if one is.
    pub fn complete(&self) -> Result<Vec<f64>, Lacking> {
        let scores: Option<Vec<f64>> = self.cells.iter().copied().collect();
        scores.ok_or(Lacking::Gaps("the table of scores"))
    }

    /// The scores of two raters side by side, for the targets that both scored.
    ///
    /// # Errors
    /// `NotTwo` if there are more raters or fewer.
    pub fn pairs(&self) -> Result<(Vec<f64>, Vec<f64>), Lacking> {
        if self.raters != 2 {
            return Err(Lacking::NotTwo {
                what: "raters",
                has: self.raters,
            });
        }
        let both = self.rows().filter_map(|row| match row {
            [Some(first), Some(second)] => Some((*first, *second)),
            _ => None,
        });
        Ok(both.unzip())
    }

    /// The rows at these places, one after the other; a place may come more than once.
    pub(super) fn drawn(&self, places: impl Iterator<Item = usize>) -> Self {
        let mut cells = Vec::with_capacity(self.cells.len());
        for place in places {
            let from = place * self.raters;
            let row = self.cells.get(from..from + self.raters);
            cells.extend_from_slice(row.unwrap_or_default());
        }
        Self {
            raters: self.raters,
            cells,
        }
    }
}
