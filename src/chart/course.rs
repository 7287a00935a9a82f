use super::class::Class;

use super::course_plan::{Ahead, Axis, CoursePlan, CoursePoint, Level};
use super::dates::Across;
use super::drawing::{Align, Drawing, Reading, Shape, path_through};
use super::grid::grid_line;

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 240.0;
/// Where the axes stand; values run from [`BOTTOM`] (0) to [`TOP`].
const LEFT: f64 = 50.0;
const RIGHT: f64 = 590.0;
const TOP: f64 = 20.0;
const BOTTOM: f64 = 200.0;
/// Room between an axis and the first or last point.
const MARGIN: f64 = 20.0;
/// Room that the label of a level takes.
const LEVEL_ROOM: f64 = 150.0;
/// Half the width of a point.
const RADIUS: f64 = 6.0;
/// Half the width of the foot and head of how far a value reaches.
const REACH: f64 = 9.5;
/// The middle of the band of what comes next, its width, and the room that it takes.
const AHEAD: f64 = 564.0;
const AHEAD_WIDTH: f64 = 34.0;
const AHEAD_ROOM: f64 = 60.0;

/// Values over dates, in the order of the points, held against a level. The first of each
/// month is labelled, as far as there is room.
///
/// *Shape:* any number of points; each can be read off, and what comes next after them.
pub fn course(title: String, description: String, plan: &CoursePlan<'_>) -> Drawing {
    let CoursePlan { axis, points, .. } = *plan;
    let up = |value: f64| height_of(value, axis);
    let mut shapes = grid(axis);
    let room = plan.ahead.map_or(0.0, |_| AHEAD_ROOM);
    let ends = (LEFT + MARGIN, RIGHT - MARGIN - room);
    let across = Across::of(points.iter().map(|point| point.date), ends, BOTTOM + 24.0);
    let places: Vec<_> = points
        .iter()
        .map(|point| (across.of_date(point.date), up(point.value)))
        .collect();
    shapes.extend(plan.ahead.into_iter().flat_map(|ahead| band(ahead, axis)));
    let level = plan.level.map(|level| {
        let y = up(level.value);
        level_line(level, y, &taken(plan, &places, y))
    });
    shapes.extend(level.into_iter().flatten());
    shapes.extend(lines(points, &places));
    shapes.extend(plan.lines.iter().map(|line| {
        let heights = line.heights.iter().map(|height| up(*height));
        let corners = places.iter().zip(heights).map(|((x, _), y)| (*x, y));
        Shape::Path {
            d: path_through(corners),
            class: line.class,
        }
    }));
    let placed = || points.iter().zip(&places);
    for (point, (x, y)) in placed() {
        shapes.extend(point.beside.into_iter().flat_map(|(value, symbol)| {
            let beside = up(value);
            let tie = Shape::Line {
                x1: *x,
                y1: *y,
                x2: *x,
                y2: beside,
                class: Class::Tie,
            };
            [tie, symbol.shape((*x, beside), RADIUS, true)]
        }));
    }
    for (point, place) in placed() {
        let reach = point
            .reach
            .map(|(low, high)| reach(place.0, up(low), up(high)));
        shapes.extend(reach);
        shapes.push(point.symbol.shape(*place, RADIUS, point.is_open));
    }
    shapes.extend(across.labels());
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title,
        description,
        shapes,
        readings: readings(plan, &places),
        days: across.days((TOP, BOTTOM)),
    }
}

/// What can be read off: each point, then what comes next.
fn readings(plan: &CoursePlan<'_>, places: &[(f64, f64)]) -> Vec<Reading> {
    let read = |(x, y): (f64, f64), words: &String| Reading {
        x,
        y,
        words: words.clone(),
    };
    let points = plan.points.iter().zip(places);
    let points = points.map(|(point, place)| read(*place, &point.words));
    let ahead = plan.ahead.map(|ahead| {
        let y = height_of(ahead.middle, plan.axis);
        read((AHEAD, y), &ahead.words)
    });
    points.chain(ahead).collect()
}

/// Where the label of a level at the height `y` would be in the way.
fn taken(plan: &CoursePlan<'_>, places: &[(f64, f64)], y: f64) -> Vec<(f64, f64)> {
    let up = |value: f64| height_of(value, plan.axis);
    let ahead = plan
        .ahead
        .map(|ahead| (AHEAD, y.clamp(up(ahead.high), up(ahead.low))));
    places.iter().copied().chain(ahead).collect()
}

/// From where to where a value may lie: an upright line with a foot and a head, which are
/// wider than the value's symbol.
fn reach(x: f64, low: f64, high: f64) -> Shape {
    let (left, right) = (x - REACH, x + REACH);
    Shape::Path {
        d: format!(
            "M{x:.1},{low:.1} V{high:.1} M{left:.1},{low:.1} H{right:.1} M{left:.1},{high:.1} \
             H{right:.1}"
        ),
        class: Class::Reach,
    }
}

/// The band in which the next value comes, its middle marked.
fn band(ahead: &Ahead, axis: &Axis) -> [Shape; 3] {
    let up = |value: f64| height_of(value, axis);
    let (left, top) = (AHEAD - AHEAD_WIDTH / 2.0, up(ahead.high));
    [
        Shape::Rect {
            x: left,
            y: top,
            width: AHEAD_WIDTH,
            height: up(ahead.low) - top,
            class: Class::Ahead,
            band: None,
        },
        Shape::Line {
            x1: left,
            y1: up(ahead.middle),
            x2: left + AHEAD_WIDTH,
            y2: up(ahead.middle),
            class: Class::Reach,
        },
        Shape::Text {
            x: AHEAD,
            y: BOTTOM + 24.0,
            align: Align::Middle,
            text: "next".to_owned(),
            class: Class::Label,
        },
    ]
}

/// One line for each run of two points or more.
fn lines(points: &[CoursePoint], places: &[(f64, f64)]) -> Vec<Shape> {
    let mut runs: Vec<(usize, Vec<(f64, f64)>)> = Vec::new();
    for (point, place) in points
        .iter()
        .zip(places)
        .filter(|(point, _)| !point.is_open)
    {
        match runs.iter_mut().find(|(run, _)| *run == point.run) {
            Some((_, corners)) => corners.push(*place),
            None => runs.push((point.run, vec![*place])),
        }
    }
    let runs = runs.into_iter().filter(|(_, corners)| corners.len() > 1);
    runs.map(|(_, corners)| Shape::Path {
        d: path_through(corners),
        class: Class::Series,
    })
    .collect()
}

/// The level with its label, at that end of it where the points leave more room.
fn level_line(level: &Level, y: f64, places: &[(f64, f64)]) -> [Shape; 2] {
    // Above the line, or below it where a label would leave the chart.
    let base = if y < TOP + 14.0 { y + 18.0 } else { y - 7.0 };
    let room = |is_near: fn(f64) -> bool| {
        let near = places.iter().filter(|(x, _)| is_near(*x));
        let room = near.map(|(_, there)| (there - (base - 5.0)).abs());
        room.fold(f64::INFINITY, f64::min)
    };
    let is_right = room(|x| x > RIGHT - LEVEL_ROOM) >= room(|x| x < LEFT + LEVEL_ROOM);
    let (x, align) = if is_right {
        (RIGHT, Align::End)
    } else {
        (LEFT, Align::Start)
    };
    [
        Shape::Path {
            d: format!("M{LEFT},{y:.1} H{RIGHT}"),
            class: Class::Pass,
        },
        Shape::Text {
            x,
            y: base,
            align,
            text: level.label.clone(),
            class: Class::PassLabel,
        },
    ]
}

fn height_of(value: f64, axis: &Axis) -> f64 {
    BOTTOM - (value / axis.most).clamp(0.0, 1.0) * (BOTTOM - TOP)
}

fn grid(axis: &Axis) -> Vec<Shape> {
    let line = |(value, label): &(f64, String)| {
        let y = height_of(*value, axis);
        grid_line(LEFT, RIGHT, y, label.clone())
    };
    axis.ticks.iter().flat_map(line).collect()
}
