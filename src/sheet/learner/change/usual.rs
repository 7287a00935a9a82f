use super::{alike_words, percents};
use crate::chart::{Axis, Class, CourseLine, CoursePlan, CoursePoint, Symbol, course};
use crate::progress::{Numbers, Usual, usual};
use crate::quantity::{counted, print_figure};
use crate::sheet::document::{Cell, figure, number, plain_table, text};
use crate::sheet::learner::Charted;
use crate::sheet::percent_words;

const HOW: &str = "A chart of single values (Shewhart) about the learner’s own line, so that a \
    rise alone makes no piece stand out (Mandel, Journal of Quality Technology 1, 1969, 1; the \
    line is that of Theil and Sen). The limits lie three standard deviations from it, and that \
    is the mean difference of neighbours, the line taken off, over 1.128 (ISO 7870-2; \
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). Of pieces that differ by chance \
    alone about 3 of 1,000 stand out. A piece that stands out asks for a look at what was \
    different that day; it is no fault.";

/// Which pieces stand out from the learner's usual spread; `None` where too few were made
/// alike or none is off the line.
pub fn standing_out(numbers: &Numbers) -> Option<Charted> {
    let alike = alike_words(numbers)?;
    let found = usual(&percents(numbers)).ok()?;
    let heading = "Pieces that stand out".to_owned();
    let points: Vec<CoursePoint> = numbers
        .pieces
        .iter()
        .enumerate()
        .map(|(at, piece)| CoursePoint {
            date: piece.day.date(),
            value: piece.percent.to_f64(),
            symbol: symbol(&found, at),
            is_open: false,
            run: 0,
            beside: None,
            reach: None,
            words: format!(
                "{}: {}, {}",
                piece.day,
                percent_words(piece.percent),
                place_words(&found, at)
            ),
        })
        .collect();
    let line = |heights: &Vec<f64>, class| CourseLine {
        heights: heights.clone(),
        class,
    };
    let lines = [
        line(&found.line, Class::Curve),
        line(&found.low, Class::Limit),
        line(&found.high, Class::Limit),
    ];
    let words = upshot(numbers, &found, &alike);
    let axis = Axis::percent();
    Some(Charted {
        drawing: course(
            heading.clone(),
            format!("{words} The numbers are in the table below."),
            &CoursePlan {
                lines: &lines,
                ..CoursePlan::of(&axis, &points)
            },
        ),
        caption: format!(
            "{words} Diamond: stands out. Long dashes: the learner’s own line. Short dashes: as \
             far as pieces usually lie from it."
        ),
        table: table(numbers, &found, &heading),
        how: HOW.to_owned(),
        heading,
    })
}

fn symbol(found: &Usual, at: usize) -> Symbol {
    if found.beyond.contains(&at) {
        Symbol::Diamond
    } else {
        Symbol::Dot
    }
}

fn place_words(found: &Usual, at: usize) -> &'static str {
    if found.beyond.contains(&at) {
        "stands out"
    } else {
        "as usual"
    }
}

/// What it comes to in a sentence.
fn upshot(numbers: &Numbers, found: &Usual, alike: &str) -> String {
    let named = found.beyond.iter().filter_map(|at| {
        let piece = numbers.pieces.get(*at)?;
        let is_better = piece.percent.to_f64() > *found.line.get(*at)?;
        let how = if is_better { "better" } else { "poorer" };
        let percent = percent_words(piece.percent);
        Some(format!("{} with {percent}, {how} than usual", piece.day))
    });
    let named: Vec<String> = named.collect();
    if named.is_empty() {
        format!("Of {alike} none stands out from this learner’s usual spread.")
    } else {
        let count = counted(named.len(), "stands", "stand");
        format!(
            "Of {alike} {count} out from this learner’s usual spread: {}.",
            named.join("; ")
        )
    }
}

fn table(numbers: &Numbers, found: &Usual, heading: &str) -> crate::sheet::Table {
    let limits = found.low.iter().zip(&found.high);
    let each = numbers.pieces.iter().zip(limits).enumerate();
    let rows = each.map(|(at, (piece, (low, high)))| {
        let shown = |limit: &f64| print_figure(limit.clamp(0.0, 100.0), 0);
        vec![
            Cell::text(piece.day.to_string()),
            figure(percent_words(piece.percent)),
            figure(format!("{} to {} %", shown(low), shown(high))),
            Cell::text(place_words(found, at)),
        ]
    });
    plain_table(
        format!("{heading}, piece by piece"),
        vec![
            text("Date"),
            number("Per cent"),
            number("Usual"),
            text("This one"),
        ],
        rows.collect(),
    )
}
