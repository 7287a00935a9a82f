use super::course::{is_open, symbol};
use super::{Charted, figure, marks_of, number, plain_table, text};
use crate::chart::{Axis, CoursePlan, CoursePoint, Symbol, course};
use crate::progress::{OwnDifference, Pair, own_differences};
use crate::quantity::Exact;
use crate::sheet::document::{Cell, Item};
use crate::sheet::percent_words;

/// How many criteria are named.
const MOST: usize = 5;

/// A maker's own marks against an examiner's.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnShown {
    /// The totals.
    pub chart: Charted,
    /// The criteria that differ most, the greatest difference first.
    pub differ: Vec<Item>,
}

/// A maker's own marks against an examiner's, where both marked a piece; `None` where
/// there is no such piece.
///
/// *Shape:* `pairs` oldest first, of any rubrics.
pub fn own_shown(pairs: &[Pair<'_>]) -> Option<OwnShown> {
    if pairs.is_empty() {
        return None;
    }
    let points: Vec<_> = pairs.iter().map(point).collect();
    let heading = "Own marks and the examiner’s".to_owned();
    let told = pairs.iter().map(told);
    let chart = Charted {
        drawing: course(
            heading.clone(),
            told.collect::<Vec<_>>().join("; "),
            &CoursePlan::of(&Axis::percent(), &points),
        ),
        caption: "Per cent of what could be had. Open triangle: the maker’s own marks; tied to \
                  it, the examiner’s."
            .to_owned(),
        table: plain_table(
            "Own marks and the examiner’s, piece by piece".to_owned(),
            vec![
                text("Date"),
                text("Rubric"),
                number("Own"),
                number("Examiner"),
                text("Own marks are"),
            ],
            pairs.iter().map(row).collect(),
        ),
        heading,
        how: String::new(),
    };
    let differ = own_differences(pairs);
    let differ = differ
        .iter()
        .filter(|difference| !difference.mean.is_zero());
    Some(OwnShown {
        chart,
        differ: differ.take(MOST).map(item).collect(),
    })
}

/// `3 Mar 2026: own 80 %, examiner 74 %`.
fn told(pair: &Pair<'_>) -> String {
    format!(
        "{}: own {}, examiner {}",
        pair.counts.day,
        percent_words(pair.own.outcome.percent),
        percent_words(pair.counts.outcome.percent)
    )
}

fn point(pair: &Pair<'_>) -> CoursePoint {
    CoursePoint {
        date: pair.counts.day.date(),
        value: pair.counts.outcome.percent.to_f64(),
        symbol: symbol(&pair.counts),
        is_open: is_open(&pair.counts),
        run: 0,
        beside: Some((pair.own.outcome.percent.to_f64(), Symbol::Triangle)),
        reach: None,
        words: told(pair),
    }
}

fn row(pair: &Pair<'_>) -> Vec<Cell> {
    let (own, counts) = (&pair.own, &pair.counts);
    let difference = own.outcome.percent.minus(counts.outcome.percent);
    vec![
        Cell::text(counts.day.to_string()),
        Cell::text(counts.rubric.title.clone()),
        figure(marks_of(own)),
        figure(marks_of(counts)),
        Cell::text(difference.map_or_else(String::new, |by| compared(by, ""))),
    ]
}

fn item(difference: &OwnDifference) -> Item {
    let share = difference.mean.times(Exact::HUNDRED);
    let by = share.map_or_else(String::new, |by| compared(by, " of its marks"));
    let over = match difference.pieces {
        1 => "in one piece".to_owned(),
        count => format!("the mean of {count} pieces"),
    };
    Item::about(difference.name.clone(), &format!("own marks {by}, {over}"))
}

/// `12 % higher`, `3 % lower`, `the same`, with what the per cent are of.
fn compared(by: Exact, of: &str) -> String {
    let size = percent_words(by.size());
    match by {
        by if by.is_zero() => "the same".to_owned(),
        by if by.is_negative() => format!("{size}{of} lower"),
        _ => format!("{size}{of} higher"),
    }
}
