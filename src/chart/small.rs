use super::class::Class;
use super::drawing::{Align, Drawing, Reading, Shape, path_through};
use super::symbol::Symbol;

const WIDTH: f64 = 240.0;
const HEIGHT: f64 = 56.0;
/// Shares run from [`BOTTOM`] (0) to [`TOP`] (1).
const TOP: f64 = 10.0;
const BOTTOM: f64 = 46.0;
const MARGIN: f64 = 10.0;
const RADIUS: f64 = 4.5;
/// Room for the two lines of words over one of several, and between two of them.
const LINE: f64 = 16.0;
const NAMES: f64 = 36.0;
const GAP: f64 = 40.0;

/// The share of its marks that one criterion got, piece by piece, from 0 at the foot to
/// all of them at the top.
///
/// *Shape:* one place for each of `shares`, from the left; `None` leaves its place free.
/// The last one that there is stands out. What is read off each place stands in `words`.
pub fn small_course(
    title: String,
    description: String,
    shares: &[Option<f64>],
    words: &[String],
) -> Drawing {
    let places = places(shares, (0.0, 0.0));
    let read = places.iter().filter_map(|(at, (x, y))| {
        let words = words.get(*at)?.clone();
        Some(Reading {
            x: *x,
            y: *y,
            words,
        })
    });
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title,
        description,
        shapes: shapes(shares, (0.0, 0.0)),
        readings: read.collect(),
        days: None,
    }
}

/// What [`small_courses`] draws of one criterion.
#[derive(Debug, Clone, PartialEq)]
pub struct SmallCourse {
    /// What people call it.
    pub name: String,
    /// Its latest marks, in words.
    pub latest: String,
    /// Its shares of marks, as [`small_course`] takes them.
    pub shares: Vec<Option<f64>>,
}

/// Several small courses in one drawing, two side by side, each under its name.
pub fn small_courses(title: String, description: String, courses: &[SmallCourse]) -> Drawing {
    let mut shapes = Vec::new();
    let mut bottom = 0.0;
    for pair in courses.chunks(2) {
        for (left, one) in [0.0, WIDTH + GAP].into_iter().zip(pair) {
            shapes.extend(named(one, (left, bottom)));
        }
        bottom += NAMES + HEIGHT + GAP;
    }
    Drawing {
        left: -MARGIN,
        top: 0.0,
        width: 2.0 * (WIDTH + MARGIN) + GAP,
        height: bottom,
        title,
        description,
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

/// One of several, `origin` its upper left corner.
fn named(course: &SmallCourse, (left, top): (f64, f64)) -> Vec<Shape> {
    let words = |y: f64, text: &str| Shape::Text {
        x: left,
        y: top + y,
        align: Align::Start,
        text: text.to_owned(),
        class: Class::Label,
    };
    let mut all = vec![words(LINE, &course.name), words(2.0 * LINE, &course.latest)];
    all.extend(shapes(&course.shares, (left, top + NAMES)));
    all
}

fn shapes(shares: &[Option<f64>], (left, top): (f64, f64)) -> Vec<Shape> {
    let mut shapes = Vec::new();
    for (y, class) in [(TOP, Class::SmallTop), (BOTTOM, Class::GridLine)] {
        shapes.push(Shape::Line {
            x1: left,
            y1: top + y,
            x2: left + WIDTH,
            y2: top + y,
            class,
        });
    }
    let places = places(shares, (left, top));
    if places.len() > 1 {
        shapes.push(Shape::Path {
            d: path_through(places.iter().map(|(_, place)| *place)),
            class: Class::Series,
        });
    }
    if let Some((_, last)) = places.last() {
        shapes.push(Symbol::Dot.shape(*last, RADIUS, false));
    }
    shapes
}

/// Where each share that there is stands, with its number.
fn places(shares: &[Option<f64>], (left, top): (f64, f64)) -> Vec<(usize, (f64, f64))> {
    let step = (WIDTH - 2.0 * MARGIN) / f64::from(last_index(shares)).max(1.0);
    let numbered = (0_u32..).zip(shares).enumerate();
    let places = numbered.filter_map(|(number, (at, share))| {
        let up = share.as_ref()?.clamp(0.0, 1.0);
        let x = left + MARGIN + step * f64::from(at);
        Some((number, (x, top + BOTTOM - up * (BOTTOM - TOP))))
    });
    places.collect()
}

fn last_index(shares: &[Option<f64>]) -> u32 {
    u32::try_from(shares.len().saturating_sub(1)).unwrap_or(u32::MAX)
}
