use kurbo::Point;
use serde::{Deserialize, Serialize};

use super::features::Side;
use super::fuller_measures::fuller_measures;
use super::hidden::Hidden;
use super::picture::Picture;
use super::plane::{Level, Plane};
use super::shoe::{Ask, Face, Found, Warning};
use super::shown_holes::{found_holes, hole_measures, near};
use super::thin::thinned;
use crate::piece::Feature;

/// A place in the picture, in pixels.
pub type Dot = (f64, f64);

/// A measured shoe as it lies in its picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// Columns and rows of the picture.
    pub size: (usize, usize),
    /// Which face of the shoe lies up.
    pub face: Face,
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
    /// Places of the edges that cannot be relied on.
    pub unclear: Vec<Dot>,
    /// What was measured; of a feature that a shoe has many of, each in turn.
    pub measured: Vec<Measured>,
    /// The nail holes, left from the toe back and then right.
    pub holes: Vec<ShownHole>,
    /// Its outlines in its own frame, to be kept.
    pub traced: Traced,
    /// How places in the picture and of the shoe belong together.
    pub plane: Plane,
    /// Where the fuller of each branch that has a plain one begins and ends, as lines across the
    /// web.
    pub fuller: Vec<Vec<Dot>>,
    /// Where something hid the edge; what rests on it there was left blank.
    pub hidden: Vec<Hidden>,
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
    /// Whether somebody moved its ends.
    pub by_hand: bool,
}

/// A shoe's outlines in its own frame (see [`features`](super::features)), in mm, with no more
/// corners than tell them.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Traced {
    /// The outer edge, closed; of an open shoe all round the steel.
    pub outer: Vec<Dot>,
    /// What a bar closes in.
    pub inner: Vec<Vec<Dot>>,
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
    /// Its centre in the shoe's own frame.
    pub place: Dot,
    /// From its centre to the outer edge; `None` where that is not plain.
    pub to_edge: Option<f64>,
    /// Along the outer edge from the toe.
    pub along: f64,
    /// From its centre to that of the next one behind it.
    pub to_next: Option<f64>,
    /// Standard uncertainty of its centre, each way.
    pub unsure: f64,
    /// What of that is its own, without camera, thickness and the frame of the shoe.
    pub own: f64,
    /// Whether somebody put it there.
    pub by_hand: bool,
}

impl Measured {
    /// One that shares nothing with others, in mm.
    pub(super) fn of(feature: Feature, value: f64, own: f64, line: Vec<Dot>) -> Self {
        Self {
            feature: feature.word().to_owned(),
            value,
            own,
            shared: 0.0,
            line,
            by_hand: false,
        }
    }

    /// The same of who looks down on the ground face where this was seen with that face: with the
    /// foot face up, left is right and what lies further back on one side does so on the other.
    #[must_use]
    pub fn of_ground_face(&self, face: Face) -> Self {
        let feature = Feature::from_word(&self.feature);
        match (face, feature) {
            (Face::Ground, _) | (_, None) => self.clone(),
            (Face::Foot, Some(feature)) => {
                let sign = if feature.is_angle() { -1.0 } else { 1.0 };
                Self {
                    feature: feature.mirrored().word().to_owned(),
                    value: sign * self.value,
                    shared: sign * self.shared,
                    ..self.clone()
                }
            }
        }
    }

    /// Whether nothing hides the edge where a measure of nail holes or fuller rests on it.
    pub fn is_seen(&self, hidden: &[Hidden]) -> bool {
        let feature = Feature::from_word(&self.feature);
        !feature.is_some_and(|feature| hidden.iter().any(|one| one.is_under(feature)))
    }

    /// The standard uncertainty in all.
    pub fn standard(&self) -> f64 {
        self.own.hypot(self.shared)
    }
}

/// What was found, as it lies in the picture.
pub fn shown(picture: &Picture, ask: &Ask, found: &Found) -> Shown {
    let frame = found.measures.frame;
    let plane = Plane::of(&found.seen.camera, ask.height().0, &frame);
    let on_face = |at: Point| {
        plane
            .pixel(frame.into_shoe(at), Level::Face)
            .map(|at| dot(at.into()))
    };
    let on_sheet = |at: Point| {
        let on_sheet = nalgebra::Point3::new(at.x, at.y, 0.0);
        found.seen.camera.project(on_sheet).map(dot)
    };
    let line = |points: &mut dyn Iterator<Item = Point>| -> Vec<Dot> {
        points.filter_map(on_face).collect()
    };
    let measures = &found.measures;
    let outlines = || found.outlines.iter().map(|outline| &outline.line);
    let outer = || outlines().take(1).flatten().copied();
    let (mut vague, mut doubtful, mut no_fuller) = (None, None, false);
    let mut hidden = Vec::new();
    let (mut no_level, mut is_traced) = (false, false);
    for warning in &found.warnings {
        match warning {
            Warning::NoFocal(share) => vague = Some(*share),
            Warning::Doubtful(share) => doubtful = Some(*share),
            Warning::Hidden(place) => hidden.push(*place),
            Warning::Fuller => no_fuller = true,
            Warning::Level => no_level = true,
            Warning::Traced => is_traced = true,
            // Whoever put them there knows, and the note of the photo says it.
            Warning::EdgeByHand(_) => {}
        }
    }
    let estimates = &found.estimates;
    let values = estimates.values.iter().zip(estimates.parts());
    let measured = estimates.features.iter().zip(values);
    let apart = measures.apart().into_iter();
    let corners = ask.scale.corners(&found.seen.camera).into_iter();
    let holes = found_holes(found, &plane);
    Shown {
        size: (picture.width(), picture.height()),
        face: ask.face,
        sheet: corners.filter_map(on_sheet).collect(),
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
        unclear: line(&mut found.unclear.iter().copied()),
        measured: measured
            .map(|(feature, (value, parts))| Measured {
                feature: feature.word().to_owned(),
                value: in_unit(*feature, *value),
                own: in_unit(*feature, parts.own),
                shared: in_unit(*feature, parts.shared),
                line: line(&mut measures.line_of(*feature).into_iter()),
                by_hand: false,
            })
            .chain(fuller_measures(found, &plane))
            .chain(hole_measures(&holes))
            .filter(|one| one.is_seen(&hidden))
            .collect(),
        holes,
        traced: traced(found),
        fuller: fuller_ends(found)
            .into_iter()
            .map(|ends| line(&mut ends.into_iter()))
            .collect(),
        hidden,
        no_fuller,
        vague,
        doubtful,
        plane,
        no_level,
        is_traced,
    }
}

/// Kept outlines leave the measured ones by no more than this, in mm: half of what they are
/// measured to at best.
const THINNED: f64 = 0.05;

fn traced(found: &Found) -> Traced {
    let frame = found.measures.frame;
    let rings = found.outlines.iter().map(|outline| {
        let ring: Vec<Point> = outline.line.iter().map(|at| frame.into_shoe(*at)).collect();
        thinned(&ring, THINNED).into_iter().map(dot).collect()
    });
    let mut rings: Vec<Vec<Dot>> = rings.collect();
    let inner = rings.split_off(rings.len().min(1));
    Traced {
        outer: rings.pop().unwrap_or_default(),
        inner,
    }
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

fn dot(at: Point) -> Dot {
    near((at.x, at.y))
}
