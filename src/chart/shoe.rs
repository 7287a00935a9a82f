use super::class::Class;
use std::borrow::Cow;

use kurbo::{BezPath, Point, Vec2};

use super::drawing::{Drawing, Shape};
use crate::piece::{Groove, Hole, MadeShoe, Place};

/// Room around the shoe, in parts of its width.
const MARGIN: f64 = 0.06;
/// How much wider than the fuller a finger may hit.
const HIT: f64 = 1.6;
/// Width of its floor, which is shaded, against its own.
const FLOOR: f64 = 0.62;
/// Lengths of the notches that say how many marks a part won, in parts of the shoe's width.
const NOTCH: f64 = 0.035;

/// The side of the shoe that is seen.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Side {
    /// The side that bears on the ground.
    #[default]
    Ground,
    /// The side that bears on the foot.
    Foot,
}

impl Side {
    /// The other side.
    pub fn turned(self) -> Self {
        match self {
            Self::Ground => Self::Foot,
            Self::Foot => Self::Ground,
        }
    }

    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ground => "ground side",
            Self::Foot => "foot side",
        }
    }

    /// A shoe, drawn from its ground side, as it lies with this side up.
    pub(super) fn seen(self, shoe: &MadeShoe) -> Cow<'_, MadeShoe> {
        match self {
            Self::Ground => Cow::Borrowed(shoe),
            Self::Foot => Cow::Owned(shoe.mirrored()),
        }
    }

    /// What a button says that turns the shoe over.
    pub fn turn_words(self) -> &'static str {
        match self {
            Self::Ground => "Ground side: turn over",
            Self::Foot => "Foot side: turn over",
        }
    }
}

/// A part of the shoe, and how it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanPart {
    /// Which part.
    pub place: Place,
    /// Address that it leads to when it is tapped.
    pub href: Option<String>,
    /// What it says to those who do not see it.
    pub label: String,
    /// Rank of the marks won there, 4 to 0; `None` while it is not marked.
    pub rank: Option<u8>,
}

/// The shoe from above, in mm: ground side or foot side, toe up, `parts` as they stand;
/// those that the shoe lacks, or that this side hides, are left out. A centre line runs
/// along the shoe's mirror axis.
pub fn shoe_plan(shoe: &MadeShoe, side: Side, parts: &[PlanPart], title: &str) -> Drawing {
    plan_seen(&side.seen(shoe), side, parts, title)
}

/// The plan of a shoe that lies with this side up already.
pub(super) fn plan_seen(shoe: &MadeShoe, side: Side, parts: &[PlanPart], title: &str) -> Drawing {
    let mut shapes = vec![Shape::Path {
        d: steel(shoe),
        class: Class::Steel,
    }];
    let part = |place: Place| parts.iter().find(|part| part.place == place);
    for place in [Place::Toe, Place::Branches, Place::Heels, Place::Bar] {
        if let (Some(part), Some(zone)) = (part(place), shoe.zone(place)) {
            shapes.push(link(part, zone_shapes(shoe, part, zone)));
        }
    }
    let with_part = |place: Place, inside: Vec<Shape>, hit: Vec<Shape>| match part(place) {
        Some(part) if !inside.is_empty() => {
            vec![link(part, hit.into_iter().chain(inside).collect())]
        }
        _ => inside,
    };
    if side == Side::Ground {
        shapes.extend(with_part(
            Place::Fuller,
            both(
                grooves(shoe, Class::Fuller, 1.0),
                grooves(shoe, Class::Floor, FLOOR),
            ),
            grooves(shoe, Class::Hit, HIT),
        ));
        shapes.extend(shoe.roll.iter().map(|path| Shape::Path {
            d: path.to_svg(),
            class: Class::Roll,
        }));
    }
    shapes.extend(with_part(Place::NailHoles, holes(shoe), around_holes(shoe)));
    shapes.extend(with_part(Place::Clips, clips(shoe), Vec::new()));
    let box_of = kurbo::Shape::bounding_box(&shoe.outline);
    let room = MARGIN * box_of.width();
    let ends = shoe.axis.between(box_of.y0 - room, box_of.y1 + room);
    shapes.extend(ends.map(|[from, to]| Shape::Line {
        x1: from.x,
        y1: from.y,
        x2: to.x,
        y2: to.y,
        class: Class::Centre,
    }));
    Drawing {
        left: box_of.x0 - room,
        top: box_of.y0 - room,
        width: box_of.width() + 2.0 * room,
        height: box_of.height() + 2.0 * room,
        title: title.to_owned(),
        description: String::new(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

fn steel(shoe: &MadeShoe) -> String {
    let mut d = shoe.outline.to_svg();
    if let Some(opening) = &shoe.opening {
        d.push(' ');
        d.push_str(&opening.to_svg());
    }
    d
}

fn link(part: &PlanPart, inside: Vec<Shape>) -> Shape {
    Shape::Part {
        href: part.href.clone(),
        label: part.label.clone(),
        band: part.rank,
        inside,
    }
}

fn zone_shapes(shoe: &MadeShoe, part: &PlanPart, zone: &BezPath) -> Vec<Shape> {
    let mut shapes = vec![Shape::Path {
        d: zone.to_svg(),
        class: Class::Zone,
    }];
    if let (Some(rank), Some((at, across))) = (part.rank, notches_at(shoe, part.place)) {
        shapes.extend(notches(shoe, rank, at, across));
    }
    shapes
}

/// Where the notches of a part stand, and the direction in which they follow each other.
fn notches_at(shoe: &MadeShoe, place: Place) -> Option<(Point, Vec2)> {
    let web = |along: f64| {
        let (point, tangent, inward) = shoe.right.at(along);
        let half = shoe.web_at(&shoe.right, along) / 2.0;
        (point + inward * half, tangent)
    };
    let length = shoe.right.length();
    match place {
        Place::Toe => Some(web(0.0)),
        Place::Branches => Some(web(0.8 * shoe.right.heel())),
        Place::Heels => Some(web(0.92 * length)),
        Place::Bar => {
            let back = kurbo::Shape::bounding_box(&shoe.outline).y1;
            let front = shoe
                .bar_front
                .unwrap_or(back - shoe.web_at(&shoe.right, length));
            let middle = Point::new(0.0, (front + back) / 2.0);
            Some((middle, Vec2::new(1.0, 0.0)))
        }
        Place::Fuller | Place::NailHoles | Place::Clips => None,
    }
}

/// As many notches as the rank, as on a tolerance.
fn notches(shoe: &MadeShoe, rank: u8, at: Point, along: Vec2) -> Vec<Shape> {
    let size = NOTCH * kurbo::Shape::bounding_box(&shoe.outline).width();
    let across = Vec2::new(-along.y, along.x) * size;
    let first = -0.5 * f64::from(rank.saturating_sub(1));
    (0..rank)
        .map(|index| {
            let middle = at + along * (size * (first + f64::from(index)));
            let (from, to) = (middle - across / 2.0, middle + across / 2.0);
            Shape::Line {
                x1: from.x,
                y1: from.y,
                x2: to.x,
                y2: to.y,
                class: if rank > 1 {
                    Class::Notch
                } else {
                    Class::NotchLit
                },
            }
        })
        .collect()
}

/// The grooves, `times` as wide as they are.
fn grooves(shoe: &MadeShoe, class: Class, times: f64) -> Vec<Shape> {
    let line = |groove: &Groove| Shape::Groove {
        d: groove.path.to_svg(),
        width: times * groove.width,
        class,
    };
    shoe.grooves.iter().map(line).collect()
}

fn both(mut under: Vec<Shape>, over: Vec<Shape>) -> Vec<Shape> {
    under.extend(over);
    under
}

/// What a finger may hit around the holes.
fn around_holes(shoe: &MadeShoe) -> Vec<Shape> {
    let circle = |hole: &Hole| Shape::Circle {
        x: hole.centre.x,
        y: hole.centre.y,
        radius: hole.size.0,
        class: Class::Hit,
    };
    shoe.holes.iter().map(circle).collect()
}

fn holes(shoe: &MadeShoe) -> Vec<Shape> {
    let hole = |hole: &Hole| Shape::TurnedRect {
        x: hole.centre.x,
        y: hole.centre.y,
        width: hole.size.0,
        height: hole.size.1,
        degrees: hole.turn.to_degrees(),
        class: Class::Hole,
    };
    shoe.holes.iter().map(hole).collect()
}

fn clips(shoe: &MadeShoe) -> Vec<Shape> {
    let clip = |clip: &crate::piece::MadeClip| Shape::TurnedRect {
        x: clip.centre.x,
        y: clip.centre.y,
        width: clip.size.0,
        height: clip.size.1,
        degrees: clip.turn.to_degrees(),
        class: Class::Clip,
    };
    shoe.clips.iter().map(clip).collect()
}
