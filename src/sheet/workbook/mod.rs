//! Markings as the sheets of a workbook: marks, readings, totals, rubrics, and what has to
//! be known of them.

mod about;
mod marks;
mod readings;
mod rubric;
mod totals;
mod who;

use crate::records::Moment;

use super::rows::Rows;
use super::scored::Scored;

/// Tables that go into one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Workbook {
    /// What it is called inside.
    pub title: String,
    /// The language of what is not typed by people, as BCP 47 has it.
    pub language: &'static str,
    /// When the latest of what it holds was begun or sealed; the same markings give the same
    /// file.
    pub made: Option<Moment>,
    /// The tables, the first shown first.
    pub sheets: Vec<WorkbookSheet>,
}

/// One table with its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkbookSheet {
    /// What it is called: at most 31 characters, and none of `[]:*?/\`.
    pub name: &'static str,
    /// Its columns and rows.
    pub rows: Rows,
}

/// `markings` as a workbook. Texts stand as typed; lengths are numbers of millimetres,
/// durations of minutes, marks decimals of at most six places, beside which the exact number
/// stands where it is none.
pub fn workbook(title: &str, markings: &[Scored<'_>]) -> Workbook {
    let sheets = [
        ("Marks", marks::rows(markings)),
        ("Readings", readings::rows(markings)),
        ("Totals", totals::rows(markings)),
        ("Rubric", rubric::rows(markings)),
        ("About", about::rows(title, markings)),
    ];
    let moments = markings.iter().map(|scored| {
        let marking = scored.parts.marking;
        let sealed = marking.seal.as_ref().map(|seal| seal.at);
        sealed.unwrap_or(marking.started)
    });
    Workbook {
        title: title.to_owned(),
        language: "en-GB",
        made: moments.max(),
        sheets: sheets
            .map(|(name, rows)| WorkbookSheet { name, rows })
            .to_vec(),
    }
}
