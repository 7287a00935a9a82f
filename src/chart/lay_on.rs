//! A gauge to lay a made shoe on.

use kurbo::{Affine, BezPath, PathEl, Point, Shape as _, Vec2};

use super::class::Class;
use super::drawing::{Align, Drawing, Shape};
use super::shoe::Side;
use crate::piece::{Branch, Chain, Edge, FullerExtent, MadeShoe, PieceSpecification};

/// Room around the widest shoe for leaders and their numbers, in mm.
const ROOM: f64 = 13.0;
/// A leader begins so far outside the edge, in mm, so that it is seen beside the shoe.
const LEADER: (f64, f64) = (2.5, 8.0);
/// Its number stands so far outside, in mm.
const NUMBER: f64 = 11.0;
/// Half of the cross at a nail, in mm.
const CROSS: f64 = 2.0;
/// Steps along the edge of an open shoe: chords lie within some thousandths of a mm.
const PLACES: u32 = 240;
/// What is nearer to the outline, in mm, is on it.
const ON_IT: f64 = 0.02;
/// Height of letters, in mm.
const LETTERS: f64 = 3.2;

/// What a gauge shows beside the shoe.
#[derive(Debug, Clone, PartialEq)]
pub struct LayOn<'a> {
    /// The side that lies up.
    pub side: Side,
    /// How much wider and longer a shoe may be, or as much narrower and shorter, in mm.
    pub tolerance: (f64, f64),
    /// What is written in its middle, line by line.
    pub words: &'a [String],
    /// What it is.
    pub title: &'a str,
}

/// The outline of a shoe in mm with the outlines of the widest and the narrowest that its
/// tolerance takes, its centre line, the middle of its fuller, and crosses at its nails; leaders
/// outside it show nails and ends of the fuller while a shoe lies on it.
pub fn lay_on(piece: &PieceSpecification, shoe: &MadeShoe, asked: &LayOn<'_>) -> Drawing {
    let shoe = &*asked.side.seen(shoe);
    let size = shoe.outline.bounding_box();
    let mut shapes = vec![path(&shoe.outline, Class::GaugeEdge)];
    shapes.extend(
        shoe.opening
            .as_ref()
            .map(|path_of| path(path_of, Class::GaugeEdge)),
    );
    let edge = outside(shoe);
    for way in [-1.0, 1.0] {
        let bound = scaled(&edge, size, asked.tolerance, way);
        shapes.push(path(&bound, Class::GaugeLimit));
        if shoe.opening.is_none() {
            shapes.extend(heels(shoe, way * asked.tolerance.1 / 2.0));
        }
    }
    if asked.side == Side::Ground {
        let grooves = shoe.grooves.iter();
        shapes.extend(grooves.map(|groove| path(&groove.path, Class::GaugeFuller)));
    }
    for hole in &shoe.holes {
        let along = Vec2::from_angle(hole.turn) * CROSS;
        let across = Vec2::new(-along.y, along.x);
        shapes.push(line(
            hole.centre - along,
            hole.centre + along,
            Class::GaugeEdge,
        ));
        shapes.push(line(
            hole.centre - across,
            hole.centre + across,
            Class::GaugeEdge,
        ));
    }
    shapes.extend(leaders(piece, shoe));
    let frame = size.inflate(
        ROOM + asked.tolerance.0.max(0.0) / 2.0,
        ROOM + asked.tolerance.1.max(0.0) / 2.0,
    );
    let ends = shoe.axis.between(frame.y0, frame.y1);
    shapes.extend(ends.map(|[from, to]| line(from, to, Class::GaugeCentre)));
    shapes.extend(words(shoe, asked.words));
    Drawing {
        left: frame.x0,
        top: frame.y0,
        width: frame.width(),
        height: frame.height(),
        title: asked.title.to_owned(),
        description: format!(
            "The outline of the shoe at its true size, {:.1} mm wide and {:.1} mm long, between broken \
             lines of the widest and the narrowest that its tolerance takes; its centre line, its \
             fuller and its nail holes.",
            size.width(),
            size.height()
        ),
        shapes,
        ..Drawing::default()
    }
}

/// The outer edge: all of the outline of a bar shoe, from heel round the toe to heel of an open
/// one, without what a tapered heel lacks.
fn outside(shoe: &MadeShoe) -> BezPath {
    if shoe.opening.is_some() {
        return shoe.outline.clone();
    }
    let mut corners = Vec::new();
    kurbo::flatten(&shoe.outline, 1e-3, |element| {
        corners.extend(element.end_point());
    });
    let (right, mut left) = (kept(&shoe.right, &corners), kept(&shoe.left, &corners));
    left.reverse();
    let points = left.into_iter().chain(right);
    let elements = points.enumerate().map(|(at, point)| match at {
        0 => PathEl::MoveTo(point),
        _ => PathEl::LineTo(point),
    });
    BezPath::from_vec(elements.collect())
}

/// Places of an edge, close enough for its curve, up to where the outline leaves it.
fn kept(edge: &Edge, corners: &[Point]) -> Vec<Point> {
    let Some(outline) = Chain::of(corners) else {
        return Vec::new();
    };
    let step = edge.length() / f64::from(PLACES);
    let places = (0..=PLACES).map(|place| edge.at(f64::from(place) * step).0);
    let mut near = 0;
    places
        .take_while(|point| outline.nearest(*point, &mut near).distance() < ON_IT)
        .collect()
}

/// A limit of length across each free heel, so far behind its end.
fn heels(shoe: &MadeShoe, behind: f64) -> [Shape; 2] {
    [&shoe.right, &shoe.left].map(|edge| {
        let (corner, _, inward) = edge.at(edge.length());
        let inner = corner + inward * shoe.web_at(edge, edge.length());
        let boxes = shoe.outline.segments().map(|seg| seg.bounding_box());
        let of_side = boxes.filter(|around| around.center().x * corner.x > 0.0);
        let end = of_side.fold(f64::NEG_INFINITY, |end, around| end.max(around.y1));
        let at = |x: f64| Point::new(x, end + behind);
        line(at(corner.x), at(inner.x), Class::GaugeLimit)
    })
}

/// An edge stretched about the middle of the shoe, so that the whole is wider and longer by
/// `way` times the tolerance.
fn scaled(edge: &BezPath, size: kurbo::Rect, tolerance: (f64, f64), way: f64) -> BezPath {
    let by = |size: f64, tolerance: f64| ((size + way * tolerance) / size.max(1e-6)).max(0.0);
    let about = size.center().to_vec2();
    let wider = Affine::scale_non_uniform(
        by(size.width(), tolerance.0),
        by(size.height(), tolerance.1),
    );
    Affine::translate(about) * wider * Affine::translate(-about) * edge
}

/// Lines outside the edge, square to it: at each nail with its number, and at the ends of the
/// fuller.
fn leaders(piece: &PieceSpecification, shoe: &MadeShoe) -> Vec<Shape> {
    let mut shapes = Vec::new();
    for branch in [Branch::Outer, Branch::Inner] {
        let edge = if (branch == Branch::Outer) == shoe.outer_is_right {
            &shoe.right
        } else {
            &shoe.left
        };
        if let Some(nails) = &piece.nails {
            for hole in shoe.holes.iter().filter(|hole| hole.branch == branch) {
                let along =
                    nails.first.to_mm() + f64::from(hole.number - 1) * nails.spacing.to_mm();
                shapes.extend(leader(edge, along, &hole.number.to_string()));
            }
        }
        if let Some(fuller) = &piece.fuller {
            if fuller.extent == FullerExtent::ThreeQuarter {
                shapes.extend(leader(edge, fuller.start.to_mm(), "F"));
            }
            shapes.extend(leader(edge, fuller.end.to_mm(), "F"));
        }
    }
    shapes
}

fn leader(edge: &Edge, along: f64, words: &str) -> [Shape; 2] {
    let (point, _, inward) = edge.at(along);
    let at = |out: f64| point - inward * out;
    let number = at(NUMBER);
    [
        line(at(LEADER.0), at(LEADER.1), Class::GaugeEdge),
        Shape::Note {
            x: number.x,
            y: number.y + LETTERS / 3.0,
            align: Align::Middle,
            height: LETTERS,
            text: words.to_owned(),
            class: Class::Size,
        },
    ]
}

/// Words in the middle of the shoe, and which branch is which.
fn words(shoe: &MadeShoe, words: &[String]) -> Vec<Shape> {
    let size = shoe.outline.bounding_box();
    let middle = size.y0 + 0.42 * size.height();
    let own = (0_u8..).zip(words).map(|(at, text)| Shape::Note {
        // Beside the centre line.
        x: size.center().x + LETTERS,
        y: middle + 1.5 * LETTERS * f64::from(at),
        align: Align::Start,
        height: LETTERS,
        text: text.clone(),
        class: Class::Size,
    });
    let (right, left) = if shoe.outer_is_right {
        ("outer", "inner")
    } else {
        ("inner", "outer")
    };
    let sides = [(size.x1, Align::End, right), (size.x0, Align::Start, left)];
    let sides = sides.map(|(x, align, text)| Shape::Note {
        x,
        y: size.y0 + LETTERS,
        align,
        height: LETTERS,
        text: text.to_owned(),
        class: Class::Size,
    });
    own.chain(sides).collect()
}

fn path(path: &BezPath, class: Class) -> Shape {
    Shape::Path {
        d: path.to_svg(),
        class,
    }
}

fn line(from: Point, to: Point, class: Class) -> Shape {
    Shape::Line {
        x1: from.x,
        y1: from.y,
        x2: to.x,
        y2: to.y,
        class,
    }
}
