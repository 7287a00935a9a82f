use super::course::symbol;
use super::{Charted, CurveShown, figure, number, plain_table, text};
use crate::chart::{Axis, Class, CourseLine, CoursePlan, CoursePoint, Level, course};
use crate::progress::{Made, Series, TallyCourse, tally_courses};
use crate::quantity::Quantity;
use crate::sheet::document::Cell;
use crate::sheet::words::join;

/// Heats, time and whatever else the rubric counts, each over the pieces with what is
/// allowed, and with its curve of practice as far as one of `curves` is it. What no piece was
/// counted for is left out.
pub fn tallies_shown(series: &Series<'_>, curves: &[CurveShown]) -> Vec<Charted> {
    let tallies = tally_courses(series);
    let any = |tally: &TallyCourse| tally.points.iter().any(Option::is_some);
    let tallies = tallies.into_iter().filter(any);
    tallies
        .map(|tally| {
            let curve = curves.iter().find(|curve| curve.id == tally.id);
            shown(series, &tally, curve)
        })
        .collect()
}

fn shown(series: &Series<'_>, tally: &TallyCourse, curve: Option<&CurveShown>) -> Charted {
    let say = |quantity: Quantity| quantity.print_limit(tally.dimension.usual_unit());
    let counted: Vec<(&Made<'_>, Quantity)> = series
        .pieces
        .iter()
        .zip(&tally.points)
        .filter_map(|(made, point)| Some((*made, (*point)?)))
        .collect();
    let points: Vec<_> = counted
        .iter()
        .map(|(made, quantity)| CoursePoint {
            date: made.day.date(),
            value: tally.in_unit(*quantity),
            symbol: symbol(made),
            is_open: false,
            run: 0,
            beside: None,
            reach: None,
            words: format!("{}, {}: {}", made.day, made.sitting.word(), say(*quantity)),
        })
        .collect();
    let level = Level {
        value: tally.in_unit(tally.allowance),
        label: format!("allowed {}", say(tally.allowance)),
    };
    let most = points.iter().map(|point| point.value);
    let axis = Axis::up_to(most.fold(level.value, f64::max));
    // A curve of other pieces than these would stand in the wrong places.
    let line = curve.filter(|curve| curve.heights.len() == points.len());
    let line = line.map(|curve| CourseLine {
        heights: curve.heights.clone(),
        class: Class::Curve,
    });
    let ends = counted.first().zip(counted.last());
    let span = ends.map_or_else(String::new, |((_, first), (_, last))| match counted.len() {
        1 => format!("{} in the only piece", say(*last)),
        _ => format!("{} at first, {} at last", say(*first), say(*last)),
    });
    let heading = tally.name.clone();
    let practice = curve.map_or("", |curve| &curve.words);
    Charted {
        drawing: course(
            heading.clone(),
            join(
                [
                    &*format!("{span}; {}.", level.label),
                    practice,
                    "The numbers are in the table below.",
                ],
                " ",
            ),
            &CoursePlan {
                level: Some(&level),
                lines: line.as_slice(),
                ..CoursePlan::of(&axis, &points)
            },
        ),
        caption: join([&*format!("{span}; {}.", level.label), practice], " "),
        how: curve.map_or_else(String::new, |curve| curve.how.clone()),
        table: plain_table(
            format!("{heading}, piece by piece"),
            vec![text("Date"), text("Sitting"), number("Counted")],
            counted
                .iter()
                .map(|(made, quantity)| {
                    vec![
                        Cell::text(made.day.to_string()),
                        Cell::text(made.sitting.word()),
                        figure(say(*quantity)),
                    ]
                })
                .collect(),
        ),
        heading,
    }
}
