use std::collections::BTreeSet;

use super::{Charted, marks_of, number, outcome_cells, pieces, plain_table, series_title, text};
use crate::chart::{Axis, CoursePoint, Level, Symbol, course};
use crate::progress::{Made, Series};
use crate::records::SittingKind;
use crate::sheet::document::Cell;
use crate::sheet::{capital, percent_words};

/// Marks over time with the pass line; the symbol says what each piece was made for.
pub fn marks_over_time(series: &Series<'_>) -> Charted {
    let heading = format!("{} over time", series_title(series));
    let points = points(&series.pieces);
    let level = pass_level(series);
    let passes = level.as_ref().map_or(String::new(), |level| {
        format!("; the pass mark is {}", level.label)
    });
    let drawing = course(
        heading.clone(),
        format!(
            "{}{passes}. The numbers are in the table below.",
            span(series)
        ),
        &Axis::percent(),
        &points,
        level.as_ref(),
    );
    Charted {
        caption: caption(series),
        table: plain_table(
            format!("{heading}, piece by piece"),
            vec![
                text("Date"),
                text("Sitting"),
                number("Marks"),
                number("Per cent"),
                text("Award"),
            ],
            series.pieces.iter().map(|made| row(made)).collect(),
        ),
        heading,
        drawing,
    }
}

/// What a piece's symbol is.
pub(super) fn symbol(made: &Made<'_>) -> Symbol {
    match made.sitting {
        _ if made.is_own() => Symbol::Triangle,
        SittingKind::Practice => Symbol::Dot,
        SittingKind::Mock => Symbol::Square,
        SittingKind::Exam => Symbol::Diamond,
        SittingKind::SelfCheck => Symbol::Triangle,
    }
}

/// Whether it is drawn open: its marks do not tell how well it was made.
pub(super) fn is_open(made: &Made<'_>) -> bool {
    made.is_stopped() || !made.is_whole()
}

fn points(pieces: &[&Made<'_>]) -> Vec<CoursePoint> {
    // A new version marks otherwise, and a maker otherwise than an examiner.
    let mut runs: Vec<(&str, bool)> = Vec::new();
    let mut points = Vec::new();
    for made in pieces {
        let run = (made.rubric.version.as_str(), made.is_own());
        if !runs.contains(&run) {
            runs.push(run);
        }
        points.push(CoursePoint {
            date: made.day.date(),
            value: made.outcome.percent.to_f64(),
            symbol: symbol(made),
            is_open: is_open(made),
            run: runs.iter().position(|known| *known == run).unwrap_or(0),
            beside: None,
        });
    }
    points
}

pub(super) fn pass_level(series: &Series<'_>) -> Option<Level> {
    let outcome = &series.pieces.last()?.outcome;
    let pass = outcome.pass_mark.percent_of(outcome.out_of)?;
    Some(Level {
        value: pass.to_f64(),
        label: format!("pass {}", percent_words(pass)),
    })
}

/// `6 pieces, from 43 of 100 at first to 71 of 100 at last`.
fn span(series: &Series<'_>) -> String {
    let (Some(first), Some(last)) = (series.pieces.first(), series.pieces.last()) else {
        return String::new();
    };
    match series.pieces.len() {
        1 => format!("1 piece, {}", marks_of(last)),
        count => format!(
            "{}, from {} at first to {} at last",
            pieces(count),
            marks_of(first),
            marks_of(last)
        ),
    }
}

/// What the symbols on it mean, as far as they are there.
fn caption(series: &Series<'_>) -> String {
    let symbols: BTreeSet<Symbol> = series.pieces.iter().map(|made| symbol(made)).collect();
    let meanings = symbols.into_iter().map(|symbol| {
        let what = match symbol {
            Symbol::Dot => "practice",
            Symbol::Square => "mock",
            Symbol::Diamond => "exam",
            Symbol::Triangle => "marked by the maker",
        };
        format!("{}: {what}.", capital(symbol.word()))
    });
    let open = series.pieces.iter().any(|made| is_open(made));
    let open = open.then(|| "Open: stopped, or not marked as a whole.".to_owned());
    let versions: BTreeSet<&str> = series
        .pieces
        .iter()
        .map(|made| made.rubric.version.as_str())
        .collect();
    let breaks = (versions.len() > 1)
        .then(|| "A line joins what one version of the rubric marked.".to_owned());
    let all = [span(series) + "."].into_iter().chain(meanings);
    let all: Vec<_> = all.chain(open).chain(breaks).collect();
    all.join(" ")
}

fn row(made: &Made<'_>) -> Vec<Cell> {
    let day = [Cell::text(made.day.to_string())];
    day.into_iter().chain(outcome_cells(made)).collect()
}
