use super::super::Lacking;
use super::super::numbers::{all_finite, number, variance};
use super::marks;

/// Standard error of measurement of a total: its standard deviation times
/// `sqrt(1 - reliability)` (Lord and Novick 1968, 3.4), in the unit of the total.
///
/// # Errors
///
/// A deviation that is negative or not finite, a reliability above 1 or not finite.
pub fn error_of_measurement(deviation: f64, reliability: f64) -> Result<f64, Lacking> {
    if !(deviation >= 0.0 && deviation.is_finite()) {
        return Err(Lacking::NotANumber("the standard deviation"));
    }
    if !(reliability <= 1.0 && reliability.is_finite()) {
        return Err(Lacking::NotANumber("the reliability"));
    }
    Ok(deviation * (1.0 - reliability).sqrt())
}

/// Standard error of each row's total given that row alone: `sqrt(k) s`, where `s` is the
/// standard deviation of the row's `k` marks, divisor k - 1.
///
/// These are the absolute errors of Brennan 1998 (from memory), for items that stand for
/// others like them; for items marked 0 or 1 they are Lord's 1955 binomial errors,
/// `sqrt(x (k - x) / (k - 1))`. Single ones are rough: they rest on one row.
///
/// # Errors
///
/// No row, fewer than two items, a mark missing or not finite.
pub fn conditional_errors(rows: &[Vec<f64>]) -> Result<Vec<f64>, Lacking> {
    let table = marks(rows, 1, 2)?;
    let error = |row: &Vec<f64>| (number(row.len()) * variance(row)).sqrt();
    let errors: Vec<f64> = table.rows().iter().map(error).collect();
    all_finite(&errors, "an error of so large marks")?;
    Ok(errors)
}

/// Standard error of the totals about `total`: the root of the mean square of the
/// [`conditional_errors`] of the half of the rows, at least `least`, whose totals are nearest
/// to it, in the unit of the marks. Single ones are rough. That it is the half is a rule of
/// our own, no source.
///
/// # Errors
///
/// As [`conditional_errors`]; a total that is not finite.
pub fn conditional_error_near(rows: &[Vec<f64>], total: f64, least: usize) -> Result<f64, Lacking> {
    all_finite(&[total], "a total")?;
    let errors = conditional_errors(rows)?;
    let off = |row: &Vec<f64>| (row.iter().sum::<f64>() - total).abs();
    let mut near: Vec<(f64, f64)> = rows.iter().map(off).zip(errors).collect();
    // Of equal distances the smaller error first, so that the order of rows is nothing.
    near.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
    near.truncate(rows.len().div_ceil(2).max(least));
    let squares: f64 = near.iter().map(|(_, error)| error * error).sum();
    Ok((squares / number(near.len())).sqrt())
}
