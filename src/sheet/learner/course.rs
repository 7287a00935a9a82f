use std::collections::BTreeSet;

use super::next::kind_words;
use super::{
    Charted, figure, marks_of, number, outcome_cells, pieces, plain_table, series_title, text,
};
use crate::chart::{Ahead, Axis, CoursePlan, CoursePoint, Level, Symbol, course};
use crate::figures::trend::Next;
use crate::progress::{Made, NextPiece, Series, next_pieces};
use crate::quantity::Marks;
use crate::records::SittingKind;
use crate::sheet::document::{Cell, Table};
use crate::sheet::words::join;
use crate::sheet::{capital, percent_words};

/// How the bars and the band are worked out.
const HOW: &str = "Upright bars: between their ends lie 19 of 20 totals that the readings and \
    what their instruments can be off by leave open (a coverage interval with equal tails, JCGM \
    101:2008). What is judged by eye is taken as given, and a marking agreed by several \
    examiners has no bar. The band at the right: between its ends come 19 of 20 next pieces \
    made as those before; “The next piece” below says how.";

/// From where to where the true total of a piece lies, as far as measuring goes.
pub(super) type Within = Option<(Marks, Marks)>;

/// Marks over time with the pass line; the symbol says what each piece was made for, a bar
/// how far its total may be off, a band what the next piece may come to.
///
/// *Shape:* `within` has one for each piece of the series, or none at all.
pub fn marks_over_time(series: &Series<'_>, within: &[Within]) -> Charted {
    let heading = format!("{} over time", series_title(series));
    let points = points(&series.pieces, within);
    let level = pass_level(series);
    let passes = level.as_ref().map_or(String::new(), |level| {
        format!("; the pass mark is {}", level.label)
    });
    let next = next_pieces(series).into_iter();
    let next = next.filter_map(|next| Some((next.clone(), next.figure.ok()?)));
    let next = next.map(|(next, figure)| ahead(&next, figure)).next();
    let comes = next.as_ref().map(|next| format!("; {}", next.words));
    let axis = Axis::percent();
    let drawing = course(
        heading.clone(),
        format!(
            "{}{passes}{}. The numbers are in the table below.",
            span(series),
            comes.unwrap_or_default()
        ),
        &CoursePlan {
            level: level.as_ref(),
            ahead: next.as_ref(),
            ..CoursePlan::of(&axis, &points)
        },
    );
    let has_bars = points.iter().any(|point| point.reach.is_some());
    let drawn = [
        has_bars
            .then(|| "Upright bars: 19 of 20 true totals, as far as measuring goes.".to_owned()),
        next.as_ref().map(|next| format!("Band: {}.", next.words)),
    ];
    let drawn = drawn.into_iter().flatten();
    Charted {
        caption: join([caption(series)].into_iter().chain(drawn), " "),
        table: table(series, &heading, within, next.as_ref()),
        how: if has_bars || next.is_some() {
            HOW.to_owned()
        } else {
            String::new()
        },
        heading,
        drawing,
    }
}

/// The pieces, and under them what the next one may come to.
fn table(series: &Series<'_>, heading: &str, within: &[Within], next: Option<&Ahead>) -> Table {
    let measured = within.iter().any(Option::is_some);
    let mut columns = vec![
        text("Date"),
        text("Sitting"),
        number("Marks"),
        number("Per cent"),
        text("Award"),
    ];
    columns.extend(measured.then(|| number("True total, by measuring")));
    let within = within.iter().copied().chain(std::iter::repeat(None));
    let rows = series.pieces.iter().zip(within).map(|(made, within)| {
        let mut row = row(made);
        row.extend(measured.then(|| figure(within.map_or_else(dash, within_words))));
        row
    });
    let next = next.map(|next| {
        let between = format!("{:.0} to {:.0} %", next.low, next.high);
        let mut row = vec![
            Cell::text("next"),
            Cell::text("19 of 20 such pieces"),
            figure(dash()),
            figure(between),
            Cell::text(dash()),
        ];
        row.extend(measured.then(|| figure(dash())));
        row
    });
    plain_table(
        format!("{heading}, piece by piece"),
        columns,
        rows.chain(next).collect(),
    )
}

fn dash() -> String {
    "–".to_owned()
}

fn within_words((least, most): (Marks, Marks)) -> String {
    if least == most {
        least.to_string()
    } else {
        format!("{least} to {most}")
    }
}

/// What the next piece may come to, in per cent.
fn ahead(next: &NextPiece, figure: Next) -> Ahead {
    let percent = |share: f64| 100.0 * share;
    let (low, high) = (percent(figure.interval.low), percent(figure.interval.high));
    Ahead {
        low,
        middle: percent(figure.share),
        high,
        words: format!(
            "19 of 20 next pieces ({}) come to between {low:.0} and {high:.0} %",
            kind_words((next.sitting, next.is_timed))
        ),
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

fn points(pieces: &[&Made<'_>], within: &[Within]) -> Vec<CoursePoint> {
    // A new version marks otherwise, and a maker otherwise than an examiner.
    let mut runs: Vec<(&str, bool)> = Vec::new();
    let mut points = Vec::new();
    let within = within.iter().copied().chain(std::iter::repeat(None));
    for (made, within) in pieces.iter().zip(within) {
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
            reach: within.and_then(|within| reach(made, within)),
            words: point_words(made, within),
        });
    }
    points
}

/// From where to where a total may lie, in per cent; `None` where measuring leaves nothing
/// open.
fn reach(made: &Made<'_>, (least, most): (Marks, Marks)) -> Option<(f64, f64)> {
    let percent = |marks: Marks| Some(marks.percent_of(made.outcome.out_of)?.to_f64());
    (least != most).then_some(())?;
    Some((percent(least)?, percent(most)?))
}

/// `3 Mar 2026, practice: 74 of 100 (74 %), pass; true total 71 to 76`.
fn point_words(made: &Made<'_>, within: Within) -> String {
    let [sitting, marks, percent, award] = outcome_cells(made).map(|cell| cell.text);
    let within = within.filter(|(least, most)| least != most);
    let within = within.map(|within| format!("; true total {}", within_words(within)));
    format!(
        "{}, {sitting}: {marks} ({percent}), {award}{}",
        made.day,
        within.unwrap_or_default()
    )
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
