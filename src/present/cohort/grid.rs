use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::{CohortCell, CohortCells, CohortRow};
use crate::cohort::Standing;
use crate::records::LearnerId;

/// By which column the matrix is sorted: 0 is the name, 1 the standing, then all marks and
/// each criterion.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct SortBy {
    /// Number of the column.
    pub column: usize,
    /// Whether the most comes first; of names the last, of standings the last told.
    pub is_falling: bool,
}

/// Columns before the marks: name and standing.
const BEFORE: usize = 2;

impl SortBy {
    /// The same after a tap on the head of `column`: names rise first, marks too, so that who
    /// needs help comes first; a second tap turns it round.
    #[must_use]
    pub fn tapped(self, column: usize) -> Self {
        Self {
            column,
            is_falling: self.column == column && !self.is_falling,
        }
    }

    /// The word of `aria-sort` at `column`.
    pub fn aria(self, column: usize) -> &'static str {
        match self {
            by if by.column != column => "none",
            Self {
                is_falling: true, ..
            } => "descending",
            _ => "ascending",
        }
    }
}

/// The numbers of the rows in the order asked for; rows without anything to sort by, or of
/// which it is not known yet, come last either way, and of equal ones that by name first.
///
/// *Shape:* `rows` by name.
pub fn order(
    rows: &[CohortRow],
    cells: &CohortCells,
    standings: &BTreeMap<LearnerId, Standing>,
    by: SortBy,
) -> Vec<usize> {
    let mut numbered: Vec<(usize, &CohortRow)> = rows.iter().enumerate().collect();
    match by.column.checked_sub(BEFORE) {
        None if by.column == 0 && by.is_falling => numbered.reverse(),
        None if by.column == 0 => {}
        None => {
            let of = |row: &CohortRow| standings.get(&row.id).copied();
            numbered.sort_by(|(_, a), (_, b)| with_last(of(a), of(b), by.is_falling));
        }
        Some(cell) => {
            let of = |row: &CohortRow| cells.get(&row.id)?.get(cell).and_then(share);
            numbered.sort_by(|(_, a), (_, b)| with_last(of(a), of(b), by.is_falling));
        }
    }
    numbered.into_iter().map(|(number, _)| number).collect()
}

fn share(cell: &CohortCell) -> Option<crate::quantity::Exact> {
    cell.share
}

fn with_last<T: Ord>(one: Option<T>, other: Option<T>, is_falling: bool) -> Ordering {
    match (one, other) {
        (Some(one), Some(other)) if is_falling => other.cmp(&one),
        (Some(one), Some(other)) => one.cmp(&other),
        (one, other) => other.is_some().cmp(&one.is_some()),
    }
}

/// A place in the grid: row 0 is that of the heads.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Place {
    /// Number of the row.
    pub row: usize,
    /// Number of the column.
    pub column: usize,
}

/// The id of the element at a place.
pub fn place(at: Place) -> String {
    format!("cohort-{}-{}", at.row, at.column)
}

impl Place {
    /// The place that an element's id names.
    pub fn from_id(id: &str) -> Option<Self> {
        let (row, column) = id.strip_prefix("cohort-")?.split_once('-')?;
        Some(Self {
            row: row.parse().ok()?,
            column: column.parse().ok()?,
        })
    }
}

/// Where a key leads from `at` in a grid that ends at `last`, by the grid pattern of the ARIA
/// Authoring Practices; `page` rows are a page. `None` for a key of no meaning here.
pub fn step(key: &str, has_control: bool, at: Place, last: Place, page: usize) -> Option<Place> {
    let page = page.max(1);
    let (row, column) = match (key, has_control) {
        ("ArrowUp", false) => (at.row.saturating_sub(1), at.column),
        ("ArrowDown", false) => (at.row + 1, at.column),
        ("ArrowLeft", false) => (at.row, at.column.saturating_sub(1)),
        ("ArrowRight", false) => (at.row, at.column + 1),
        ("Home", false) => (at.row, 0),
        ("End", false) => (at.row, last.column),
        ("Home", true) => (0, 0),
        ("End", true) => (last.row, last.column),
        ("PageUp", false) => (at.row.saturating_sub(page), at.column),
        ("PageDown", false) => (at.row + page, at.column),
        _ => return None,
    };
    Some(Place {
        row: row.min(last.row),
        column: column.min(last.column),
    })
}
