use super::course::symbol;
use super::{Charted, figure, number, plain_table, text};
use crate::chart::{Axis, CoursePoint, Level, course};
use crate::progress::{Series, TallyCourse, tally_courses};
use crate::quantity::Quantity;
use crate::sheet::document::Cell;

/// Heats, time and whatever else the rubric counts, each over the pieces with what is
/// allowed. What no piece was counted for is left out.
pub fn tallies_shown(series: &Series<'_>) -> Vec<Charted> {
    let tallies = tally_courses(series);
    let any = |tally: &TallyCourse| tally.points.iter().any(Option::is_some);
    let tallies = tallies.into_iter().filter(any);
    tallies.map(|tally| shown(series, &tally)).collect()
}

fn shown(series: &Series<'_>, tally: &TallyCourse) -> Charted {
    let unit = tally.dimension.usual_unit();
    let say = |quantity: Quantity| quantity.print_limit(unit);
    let draw = |quantity: Quantity| {
        let in_unit = quantity.base.over(unit.in_base());
        in_unit.map_or(0.0, crate::quantity::Exact::to_f64)
    };
    let counted: Vec<_> = series
        .pieces
        .iter()
        .zip(&tally.points)
        .filter_map(|(made, point)| Some((*made, (*point)?)))
        .collect();
    let points: Vec<_> = counted
        .iter()
        .map(|(made, quantity)| CoursePoint {
            date: made.day.date(),
            value: draw(*quantity),
            symbol: symbol(made),
            is_open: false,
            run: 0,
            beside: None,
        })
        .collect();
    let most = points.iter().map(|point| point.value);
    let most = most.fold(draw(tally.allowance), f64::max);
    let level = Level {
        value: draw(tally.allowance),
        label: format!("allowed {}", say(tally.allowance)),
    };
    let ends = counted.first().zip(counted.last());
    let span = ends.map_or_else(String::new, |((_, first), (_, last))| match counted.len() {
        1 => format!("{} in the only piece", say(*last)),
        _ => format!("{} at first, {} at last", say(*first), say(*last)),
    });
    let heading = tally.name.clone();
    Charted {
        drawing: course(
            heading.clone(),
            format!(
                "{span}; {}. The numbers are in the table below.",
                level.label
            ),
            &Axis::up_to(most),
            &points,
            Some(&level),
        ),
        caption: format!("{span}; {}.", level.label),
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
