use kurbo::{BezPath, PathEl, Point};

use crate::gauge::over::Edges;
use crate::gauge::{Dot, Shown};
use crate::marking::{OutlineFact, OutlinePlace};
use crate::piece::{Feature, Foot, MadeShoe};
use crate::rubric::{Rubric, Shoe};

/// Chords leave a drawn curve by no more than this, in mm.
const CHORD: f64 = 0.01;

/// A shoe's outline with what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlined {
    /// What it is.
    pub name: String,
    /// Its edges, in its own frame: ground face seen, toe up.
    pub edges: Edges,
    /// The foot that it is for, where that is known.
    pub foot: Option<Foot>,
    /// Standard uncertainty of its overall width in mm; nothing of a drawn one.
    pub unsure: f64,
}

impl Outlined {
    /// Of what a marking keeps.
    pub(super) fn kept(name: String, fact: &OutlineFact, foot: Option<Foot>) -> Self {
        let edge = |edge: &Vec<OutlinePlace>| -> Vec<Point> {
            let places = edge.iter().copied().map(OutlineFact::mm);
            places.map(Point::from).collect()
        };
        Self {
            name,
            edges: Edges {
                outer: edge(&fact.outer),
                inner: fact.inner.iter().map(edge).collect(),
            },
            foot,
            unsure: f64::from(fact.unsure) / 100.0,
        }
    }

    /// Whether both are for a foot, one of the near and one of the off side.
    pub(super) fn is_other_foot(&self, other: &Self) -> bool {
        let feet = self.foot.zip(other.foot);
        feet.is_some_and(|(one, other)| one.outer_is_right() != other.outer_is_right())
    }

    /// Its mirror image, which suits the other foot.
    pub(super) fn mirrored(&self) -> Self {
        let edge = |edge: &Vec<Point>| -> Vec<Point> {
            edge.iter().map(|at| Point::new(-at.x, at.y)).collect()
        };
        Self {
            edges: Edges {
                outer: edge(&self.edges.outer),
                inner: self.edges.inner.iter().map(edge).collect(),
            },
            foot: None,
            ..self.clone()
        }
    }
}

/// The shoe with this id, or the first where none is named.
pub(super) fn shoe_of<'a>(rubric: &'a Rubric, shoe: Option<&str>) -> Option<&'a Shoe> {
    match shoe {
        Some(id) => rubric.shoes.iter().find(|one| one.id == id),
        None => rubric.shoes.first(),
    }
}

/// The shoe in a photo, for the shoe with this id where the piece has several.
pub fn shown_outline(shown: &Shown, rubric: &Rubric, shoe: Option<&str>) -> Outlined {
    let width = shown.measured.iter();
    let width = width.filter(|one| one.feature == Feature::OverallWidth.word());
    let edge = |edge: &Vec<Dot>| -> Vec<Point> { edge.iter().copied().map(Point::from).collect() };
    Outlined {
        name: "The shoe in the photo".to_owned(),
        edges: Edges {
            outer: edge(&shown.traced.outer),
            inner: shown.traced.inner.iter().map(edge).collect(),
        },
        foot: shoe_of(rubric, shoe).and_then(|shoe| shoe.foot),
        unsure: width.map(|width| width.standard()).fold(0.0, f64::max),
    }
}

/// What a rubric asks for, as its numbers draw it; `None` where they draw no shoe.
pub fn asked_outline(rubric: &Rubric, shoe: Option<&str>) -> Option<Outlined> {
    let shoe = shoe_of(rubric, shoe)?;
    let made = MadeShoe::of(&rubric.piece, shoe.drawn_foot()).ok()?;
    Some(Outlined {
        name: "What the rubric asks for".to_owned(),
        edges: Edges {
            outer: flat(&made.outline),
            inner: made.opening.iter().map(flat).collect(),
        },
        foot: shoe.foot,
        unsure: 0.0,
    })
}

/// The corners of a curve's chords.
fn flat(path: &BezPath) -> Vec<Point> {
    let mut corners: Vec<Point> = Vec::new();
    kurbo::flatten(path, CHORD, |element| match element {
        PathEl::MoveTo(point) | PathEl::LineTo(point) => corners.push(point),
        _ => {}
    });
    corners
}
