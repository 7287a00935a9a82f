use super::super::chance::normal_quantile;
use super::super::numbers::{confidence, number, side_by_side};
use super::super::{Interval, Lacking};
use super::tests::ZTest;
use super::weights::Weights;

/// Agreement of two raters beyond chance, on a scale of categories.
#[derive(Debug, Clone, PartialEq)]
pub struct Kappa {
    /// 1 for perfect agreement, 0 for as much as chance gives.
    pub value: f64,
    /// The weighted share of pairs that agree.
    pub observed: f64,
    /// That share by chance, from how often each rater gives each category.
    pub expected: f64,
    /// Its asymptotic standard error.
    pub error: f64,
    /// That where the true figure is 0.
    pub error_null: f64,
    /// The value give or take so many standard errors; it may reach beyond 1.
    pub interval: Interval,
    /// Whether there is agreement beyond chance.
    pub test: Result<ZTest, Lacking>,
}

/// Cohen's kappa of two raters' scores side by side, over the whole `scale`: every category in
/// its order, those that nobody used too, as the weights go by places on it.
///
/// *Formulas:* `(po - pe) / (1 - pe)` (Cohen 1960, 1968). With the share `p` of a cell, its
/// weight `w` and the mean weights `w.` of its row and `.w` of its column, by how often the
/// other rater gives each category, the standard errors (Fleiss, Cohen and Everitt 1969) are
/// `sqrt(sum p (w (1 - pe) - (w. + .w) (1 - po))^2 - (po pe - 2 pe + po)^2) / ((1 - pe)^2 sqrt n)`
/// and, where the true figure is 0, with `p` by chance,
/// `sqrt(sum p (w - w. - .w)^2 - pe^2) / ((1 - pe) sqrt n)`. What is taken off is the squared
/// mean, and the difference is worked out about it, so that perfect agreement gives 0.
///
/// # Errors
/// `Gaps` for lists of different lengths or weights of another size, `TooFew` without a pair,
/// `NotANumber` for a scale that does not rise, a score that is not on it or a weight that is
/// none, `NoSpread` where chance alone would give perfect agreement.
pub fn cohen_kappa(
    first: &[f64],
    second: &[f64],
    scale: &[f64],
    weights: Weights<'_>,
    level: f64,
) -> Result<Kappa, Lacking> {
    let level = confidence(level)?;
    side_by_side(first, second, 1)?;
    if !scale.is_sorted_by(|low, high| low < high) {
        return Err(Lacking::NotANumber("a category that does not rise"));
    }
    let weights = weights.table(scale.len())?;
    let table = Table::of(&places(first, scale)?, &places(second, scale)?, weights);
    let lack: f64 = table.by_chance(|cell| 1.0 - cell.weight).sum();
    if lack <= 0.0 {
        return Err(Lacking::NoSpread("the scores"));
    }
    let observed: f64 = table.seen(|cell| cell.weight).sum();
    let missed: f64 = table.seen(|cell| 1.0 - cell.weight).sum();
    let value = 1.0 - missed / lack;
    let count = number(first.len());
    let spread = table.seen(|cell| cell.weight * lack - cell.chance * missed);
    let error = spread.deviation() / (lack.powi(2) * count.sqrt());
    let spread_null = table.by_chance(|cell| cell.weight - cell.chance);
    let error_null = spread_null.deviation() / (lack * count.sqrt());
    let reach = normal_quantile((1.0 - level) / 2.0)? * error;
    Ok(Kappa {
        value,
        observed,
        expected: 1.0 - lack,
        error,
        error_null,
        interval: Interval {
            low: value - reach,
            high: value + reach,
            level,
        },
        test: ZTest::of(value, error_null),
    })
}

/// Where each score stands on the scale.
fn places(scores: &[f64], scale: &[f64]) -> Result<Vec<usize>, Lacking> {
    let place = |score: &f64| scale.iter().position(|category| category == score);
    let places: Option<Vec<usize>> = scores.iter().map(place).collect();
    places.ok_or(Lacking::NotANumber("a score that is not on the scale"))
}

/// A pair of categories.
struct Cell {
    /// The share of targets there.
    seen: f64,
    /// That share by chance.
    by_chance: f64,
    /// What it counts as agreement.
    weight: f64,
    /// What its row and its column count on average, added up.
    chance: f64,
}

/// The pairs of categories that both raters use.
struct Table(Vec<Cell>);

impl Table {
    fn of(first: &[usize], second: &[usize], weights: Vec<Vec<f64>>) -> Self {
        let size = weights.len();
        let one = 1.0 / number(first.len());
        let (mut rows, mut columns) = (vec![0.0; size], vec![0.0; size]);
        let mut seen = vec![vec![0.0; size]; size];
        for (row, column) in first.iter().zip(second) {
            let of_row = seen.get_mut(*row);
            let cells = [
                rows.get_mut(*row),
                columns.get_mut(*column),
                of_row.and_then(|cells| cells.get_mut(*column)),
            ];
            for cell in cells.into_iter().flatten() {
                *cell += one;
            }
        }
        let of_row = |cells: &Vec<f64>| dot(cells, &columns);
        let row_means: Vec<f64> = weights.iter().map(of_row).collect();
        let mut column_means = vec![0.0; size];
        for (cells, row) in weights.iter().zip(&rows) {
            for (mean, weight) in column_means.iter_mut().zip(cells) {
                *mean += weight * row;
            }
        }
        let mut all = Vec::new();
        let lines = weights.iter().zip(&seen).zip(rows.iter().zip(&row_means));
        for ((weights, seen), (row, row_mean)) in lines {
            let cells = weights.iter().zip(seen);
            for ((weight, seen), (column, mean)) in cells.zip(columns.iter().zip(&column_means)) {
                // Where one of the two raters never goes, nothing is seen or expected.
                if row * column > 0.0 {
                    all.push(Cell {
                        seen: *seen,
                        by_chance: row * column,
                        weight: *weight,
                        chance: row_mean + mean,
                    });
                }
            }
        }
        Self(all)
    }

    /// What each cell is worth, over the targets seen.
    fn seen(&self, worth: impl Fn(&Cell) -> f64) -> Sum {
        Sum(self.0.iter().map(|cell| (cell.seen, worth(cell))).collect())
    }

    /// The same, over those by chance.
    fn by_chance(&self, worth: impl Fn(&Cell) -> f64) -> Sum {
        Sum(self
            .0
            .iter()
            .map(|cell| (cell.by_chance, worth(cell)))
            .collect())
    }
}

/// Shares that make up 1, and what each is worth.
struct Sum(Vec<(f64, f64)>);

impl Sum {
    fn sum(&self) -> f64 {
        self.0.iter().map(|(share, worth)| share * worth).sum()
    }

    /// The standard deviation of what one target is worth.
    fn deviation(&self) -> f64 {
        let mean = self.sum();
        let squares = self
            .0
            .iter()
            .map(|(share, worth)| share * (worth - mean).powi(2));
        squares.sum::<f64>().sqrt()
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
