use kurbo::Point;
use serde::{Deserialize, Serialize};

use super::features::Side;
use super::picture::Picture;
use super::shoe::{Ask, Found, Warning};
use super::view::View;
use crate::piece::Feature;

/// A place in the picture, in pixels.
pub type Dot = (f64, f64);

/// A measured shoe as it lies in its picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// Columns and rows of the picture.
    pub size: (usize, usize),
    /// Corners of the sheet or the card, in order round it, or the two marks on a ruler; nothing
    /// of a scan.
    pub sheet: Vec<Dot>,
    /// The mirror axis, from before the toe to behind the heels.
    pub axis: Vec<Dot>,
    /// The outer edge of the ground face, closed.
    pub outer: Vec<Dot>,
    /// Inner edges, closed.
    pub inner: Vec<Vec<Dot>>,
    /// Mirror image of the outer edge.
    pub mirrored: Vec<Dot>,
    /// Places along both branches with how far the branch stands out there beyond the mirror
    /// image of the other one, in mm.
    pub apart: Vec<(Dot, f64)>,
    /// What was measured.
    pub measured: Vec<Measured>,
    /// The nail holes, left from the toe back and then right.
    pub holes: Vec<ShownHole>,
    /// Where the fuller of each branch that has a plain one begins and ends, as lines across the
    /// web.
    pub fuller: Vec<Vec<Dot>>,
    /// Whether an end of a fuller, or all of one, was not plain.
    pub no_fuller: bool,
    /// Share by which the height is vague, where that is worth telling.
    pub vague: Option<f64>,
    /// Share of the outlines where the edge is in doubt, where there is any.
    pub doubtful: Option<f64>,
    /// Whether it cannot be told how far the camera leaned.
    pub no_level: bool,
    /// Whether a traced outline was measured, no shoe.
    pub is_traced: bool,
}

/// One feature with its value in mm or degrees.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// Its word; see [`Feature::word`].
    pub feature: String,
    /// The value.
    pub value: f64,
    /// Standard uncertainty of what is its own.
    pub own: f64,
    /// What it is off by with one standard uncertainty of what all share, with its sign.
    pub shared: f64,
    /// Where it is measured.
    pub line: Vec<Dot>,
}

/// A nail hole in a picture; lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShownHole {
    /// `left` or `right`, with the toe up.
    pub side: String,
    /// Its number from the toe back, from 1.
    pub number: usize,
    /// Where it is seen.
    pub at: Dot,
    /// From its centre to the outer edge.
    pub to_edge: f64,
    /// Along the outer edge from the toe.
    pub along: f64,
    /// From its centre to that of the next one behind it.
    pub to_next: Option<f64>,
    /// Standard uncertainty of its centre, each way.
    pub unsure: f64,
}

impl Measured {
    /// The standard uncertainty in all.
    pub fn standard(&self) -> f64 {
        self.own.hypot(self.shared)
    }
}

/// What was found, as it lies in the picture.
pub fn shown(picture: &Picture, ask: &Ask, found: &Found) -> Shown {
    let at_height = |height: f64, at: Point| -> Option<Dot> {
        let view = View {
            picture,
            camera: &found.seen.camera,
            height,
        };
        view.pixel(at).map(dot)
    };
    let on_face = |at: Point| at_height(ask.height().0, at);
    let line = |points: &mut dyn Iterator<Item = Point>| -> Vec<Dot> {
        points.filter_map(on_face).collect()
    };
    let measures = &found.measures;
    let outlines = || found.outlines.iter().map(|outline| &outline.line);
    let outer = || outlines().take(1).flatten().copied();
    let (mut vague, mut doubtful, mut no_fuller) = (None, None, false);
    let (mut no_level, mut is_traced) = (false, false);
    for warning in &found.warnings {
        match warning {
            Warning::NoFocal(share) => vague = Some(*share),
            Warning::Doubtful(share) => doubtful = Some(*share),
            Warning::Fuller => no_fuller = true,
            Warning::Level => no_level = true,
            Warning::Traced => is_traced = true,
        }
    }
    let estimates = &found.estimates;
    let values = estimates.values.iter().zip(estimates.parts());
    let measured = estimates.features.iter().zip(values);
    let apart = measures.apart().into_iter();
    let corners = ask.scale.corners(&found.seen.camera).into_iter();
    Shown {
        size: (picture.width(), picture.height()),
        sheet: corners.filter_map(|at| at_height(0.0, at)).collect(),
        axis: line(&mut measures.axis().into_iter()),
        outer: line(&mut outer()),
        inner: outlines()
            .skip(1)
            .map(|inner| line(&mut inner.iter().copied()))
            .collect(),
        mirrored: line(&mut outer().map(|at| measures.mirrored(at))),
        apart: apart
            .filter_map(|(at, by)| Some((on_face(at)?, by)))
            .collect(),
        measured: measured
            .map(|(feature, (value, parts))| Measured {
                feature: feature.word().to_owned(),
                value: in_unit(*feature, *value),
                own: in_unit(*feature, parts.own),
                shared: in_unit(*feature, parts.shared),
                line: line(&mut measures.line_of(*feature).into_iter()),
            })
            .collect(),
        holes: shown_holes(found, &|at| at_height(IN_HOLE * ask.thickness.0, at)),
        fuller: fuller_ends(found)
            .into_iter()
            .map(|ends| line(&mut ends.into_iter()))
            .collect(),
        no_fuller,
        vague,
        doubtful,
        no_level,
        is_traced,
    }
}

/// What is seen of a hole lies about so high above the paper, as a share of the thickness.
const IN_HOLE: f64 = 0.4;

fn shown_holes(found: &Found, pixel: &dyn Fn(Point) -> Option<Dot>) -> Vec<ShownHole> {
    let frame = found.measures.frame;
    let mut holes = Vec::new();
    for (side, word) in [(Side::Left, "left"), (Side::Right, "right")] {
        let here = || found.holes.iter().filter(|hole| hole.hole.side == side);
        let next = here().skip(1).map(Some).chain([None]);
        for (number, (one, next)) in (1..).zip(here().zip(next)) {
            let Some(at) = pixel(frame.into_input(one.hole.centre)) else {
                continue;
            };
            holes.push(ShownHole {
                side: word.to_owned(),
                number,
                at,
                to_edge: one.hole.to_edge,
                along: one.hole.along,
                to_next: next.map(|next| one.hole.centre.distance(next.hole.centre)),
                unsure: one.unsure,
            });
        }
    }
    holes
}

/// Lines across the web where the grooves begin and end, on the plane of the ground face.
fn fuller_ends(found: &Found) -> Vec<Vec<Point>> {
    let both = [
        (Side::Left, found.fuller.left),
        (Side::Right, found.fuller.right),
    ];
    let ends = both.into_iter().flat_map(|(side, fuller)| {
        let shares = fuller.map(|fuller| [fuller.start, fuller.end]);
        let shares = shares.into_iter().flatten().flatten();
        shares.map(move |share| (side, share))
    });
    ends.map(|(side, share)| found.measures.across(side, share))
        .collect()
}

/// Millimetres as they are, radians in degrees.
fn in_unit(feature: Feature, value: f64) -> f64 {
    if feature.is_angle() {
        value.to_degrees()
    } else {
        value
    }
}

/// To a hundredth of a pixel, which is finer than anything is drawn.
fn dot(at: Point) -> Dot {
    let near = |value: f64| (value * 100.0).round() / 100.0;
    (near(at.x), near(at.y))
}
