//! Test theory for marks by criterion: how well criteria hang together, what each adds, how
//! sure a total is, and how far a pass can be relied on.
//!
//! Marks stand in rows: one row for each piece or person, in it one mark for each criterion
//! ("item").

mod alpha;
mod analysis;
mod consistency;
mod error;
mod omega;

pub use alpha::{Alpha, alpha, alpha_of_variances, lengthened, times_longer};
pub use analysis::{Item, Totals, items, totals};
pub use consistency::{PassReliability, pass_reliability};
pub use error::{conditional_error_near, conditional_errors, error_of_measurement};
pub use omega::{Omega, omega};

use super::Lacking;
use super::table::{Shape, Table};

/// Marks in rows, with at least so many of rows and items.
fn marks(rows: &[Vec<f64>], least_rows: usize, least_items: usize) -> Result<Table, Lacking> {
    let shape = Shape {
        rows: ("rows of marks", least_rows),
        columns: ("items", least_items),
        cells: "marks",
    };
    Table::of(rows, &shape)
}
