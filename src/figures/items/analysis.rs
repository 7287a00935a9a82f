use super::super::Lacking;
use super::super::numbers::{all_finite, cross_products, finite, mean, number, variance};
use super::super::table::Table;
use super::alpha::{alpha_without, rest_totals};
use super::marks;

/// What one item is like among the others.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Its mean mark.
    pub mean: f64,
    /// Its standard deviation, divisor n - 1.
    pub deviation: f64,
    /// Its difficulty: the mean as a share of the most that can be had, so that a high
    /// share means an easy item.
    pub share: f64,
    /// Its correlation with the total of the other items (corrected item-total
    /// correlation); lacking where the item or the rest does not vary.
    pub with_rest: Result<f64, Lacking>,
    /// Cronbach's alpha of the other items; lacking where there is only one or their total
    /// does not vary.
    pub alpha_without: Result<f64, Lacking>,
}

/// The sums over all items, one for each row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Totals {
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation, divisor n - 1.
    pub deviation: f64,
}

/// Mean and standard deviation of the sums over all items.
///
/// # Errors
///
/// Fewer than two rows or items, a mark missing or not finite.
pub fn totals(rows: &[Vec<f64>]) -> Result<Totals, Lacking> {
    let totals = marks(rows, 2, 2)?.totals();
    let found = Totals {
        mean: mean(&totals),
        deviation: variance(&totals).sqrt(),
    };
    all_finite(&[found.mean, found.deviation], "a total of so large marks")?;
    Ok(found)
}

/// Each item's difficulty, spread and part in the whole, in the order of the items; `most`
/// is the most that can be had for each.
///
/// # Errors
///
/// Fewer than two rows or items, a mark missing or not finite, another number of `most` than
/// items, or one that is not above 0.
pub fn items(rows: &[Vec<f64>], most: &[f64]) -> Result<Vec<Item>, Lacking> {
    let table = marks(rows, 2, 2)?;
    if most.len() != table.columns().len() {
        return Err(Lacking::Gaps("the most of each item"));
    }
    all_finite(most, "the most of an item")?;
    if most.iter().any(|most| *most <= 0.0) {
        return Err(Lacking::NotANumber("the most of an item"));
    }
    let columns = table.columns().iter().zip(most).enumerate();
    let item = |(at, (marks, most)): (usize, (&Vec<f64>, &f64))| {
        let middle = mean(marks);
        Item {
            mean: middle,
            deviation: variance(marks).sqrt(),
            share: middle / most,
            with_rest: with_rest(&table, at, marks),
            alpha_without: alpha_without(&table, at),
        }
    };
    let found: Vec<Item> = columns.map(item).collect();
    let numbers = found
        .iter()
        .flat_map(|one| [one.mean, one.deviation, one.share]);
    all_finite(&numbers.collect::<Vec<f64>>(), "a figure of so large marks")?;
    Ok(found)
}

fn with_rest(table: &Table, at: usize, marks: &[f64]) -> Result<f64, Lacking> {
    let rest = rest_totals(table, at);
    let (own, others) = (variance(marks), variance(&rest));
    if own <= 0.0 {
        return Err(Lacking::NoSpread("marks of this item"));
    }
    if others <= 0.0 {
        return Err(Lacking::NoSpread("totals of the other items"));
    }
    let free = number(rest.len()) - 1.0;
    let together = cross_products(marks, &rest) / free;
    let correlation = together / own.sqrt() / others.sqrt();
    finite(correlation, "a correlation of so large marks").map(|found| found.clamp(-1.0, 1.0))
}
