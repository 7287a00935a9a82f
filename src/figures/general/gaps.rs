//! Persons by one facet where not every cell has a mark.

use super::super::Lacking;
use super::super::numbers::{all_finite, at_least, mean, number, without_rounding};
use super::components::{Component, Components};
use super::design::Design;

/// Variance components of a random `p x i` design with empty cells, by Henderson's method 1
/// (Henderson 1953; Brennan 2001, 7.1, the analogous-ANOVA procedure).
///
/// `rows` are persons, their places the levels of `i`. With `N` marks, `P` persons and `I`
/// levels that have a mark, and `T` a sum over groups of the group's size times its squared
/// mean, the expected values are
/// `T(x) - T(p) = (N - P)(s_i + s_pi)`, `T(x) - T(i) = (N - I)(s_p + s_pi)` and
/// `T(x) - T(mean) = (N - a) s_p + (N - b) s_i + (N - 1) s_pi`, where `a` is the mean over
/// marks of how many their person has, and `b` of how many their level has. With no cell
/// empty this is the balanced analysis. Persons and levels without a mark are left out. The
/// estimates have no standard errors here, and depend on which cells are empty.
///
/// # Errors
///
/// Rows of unlike length, a mark that is not finite, fewer than two persons or levels with a
/// mark, or cells so few that the three cannot be told apart (each person or each level has
/// one mark alone).
pub fn crossed_with_gaps(rows: &[Vec<Option<f64>>]) -> Result<Components, Lacking> {
    let width = rows.iter().map(Vec::len).max().unwrap_or(0);
    if rows.iter().any(|row| row.len() != width) {
        return Err(Lacking::Gaps("rows"));
    }
    let given: Vec<f64> = rows.iter().flatten().filter_map(|cell| *cell).collect();
    all_finite(&given, "a mark")?;
    let centre = mean(&given);
    let group = |cells: Vec<Option<f64>>| -> Vec<f64> {
        let marks = cells.into_iter().flatten();
        marks.map(|mark| mark - centre).collect()
    };
    let persons = rows.iter().map(|row| group(row.clone()));
    let persons = Groups::of(persons);
    let column = |at: usize| rows.iter().map(move |row| row.get(at).copied().flatten());
    let levels = (0..width).map(|at| group(column(at).collect()));
    let levels = Groups::of(levels);
    at_least(persons.count, 2, "persons with a mark")?;
    at_least(levels.count, 2, "levels with a mark")?;
    let all = number(given.len());
    let (by_person, by_level) = (number(persons.count), number(levels.count));
    let from_cells = persons.size + levels.size - all - 1.0;
    if all <= by_person || all <= by_level || from_cells >= -1e-9 {
        return Err(Lacking::Dependent("the effects of persons and levels"));
    }
    let whole = Groups::of([group(given.iter().map(|mark| Some(*mark)).collect())]);
    let level_and_cell = without_rounding(persons.within, &given) / (all - by_person);
    let person_and_cell = without_rounding(levels.within, &given) / (all - by_level);
    let total = without_rounding(whole.within, &given);
    let cell =
        (total - (all - persons.size) * person_and_cell - (all - levels.size) * level_and_cell)
            / from_cells;
    let estimates = [person_and_cell - cell, level_and_cell - cell, cell];
    all_finite(&estimates, "a variance of so large marks")?;
    let design = Design::crossed(&[('p', persons.count), ('i', levels.count)])?;
    let parts = design.effects().into_iter().zip(estimates);
    let parts = parts.map(|(effect, estimate)| Component {
        name: design.name(effect),
        estimate,
        standard_error: None,
        effect,
    });
    let parts = parts.collect();
    Ok(Components { design, parts })
}

/// Marks in groups.
struct Groups {
    /// Groups with a mark.
    count: usize,
    /// Sum of squares within them: `T(x) - T(group)`.
    within: f64,
    /// The mean over marks of the size of their group.
    size: f64,
}

impl Groups {
    fn of(groups: impl IntoIterator<Item = Vec<f64>>) -> Self {
        let groups = groups.into_iter().filter(|group| !group.is_empty());
        let (mut count, mut within, mut squared, mut all) = (0, 0.0, 0.0, 0.0);
        for group in groups {
            let middle = mean(&group);
            let squares = group.iter().map(|mark| (mark - middle).powi(2));
            within += squares.sum::<f64>();
            let size = number(group.len());
            squared += size * size;
            all += size;
            count += 1;
        }
        Self {
            count,
            within,
            size: squared / all,
        }
    }
}
