use kurbo::Point;
use serde::{Deserialize, Serialize};

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
    /// Corners of the sheet, in order round it.
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
    /// How high the lens was above the sheet, in mm.
    pub height: f64,
    /// How far the camera leaned, in degrees.
    pub tilt: f64,
    /// Share by which the height is vague, where that is worth telling.
    pub vague: Option<f64>,
    /// Share of the outlines where the edge is in doubt, where there is any.
    pub doubtful: Option<f64>,
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
    let on_face = |at: Point| at_height(ask.thickness.0, at);
    let line = |points: &mut dyn Iterator<Item = Point>| -> Vec<Dot> {
        points.filter_map(on_face).collect()
    };
    let measures = &found.measures;
    let outlines = || found.outlines.iter().map(|outline| &outline.line);
    let outer = || outlines().take(1).flatten().copied();
    let (mut vague, mut doubtful) = (None, None);
    for warning in &found.warnings {
        match warning {
            Warning::NoFocal(share) => vague = Some(*share),
            Warning::Doubtful(share) => doubtful = Some(*share),
        }
    }
    let estimates = &found.estimates;
    let values = estimates.values.iter().zip(estimates.parts());
    let measured = estimates.features.iter().zip(values);
    let apart = measures.apart().into_iter();
    let corners = ask.sheet.corners().into_iter();
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
        height: found.seen.camera.lens().z,
        tilt: found.seen.camera.tilt().to_degrees(),
        vague,
        doubtful,
    }
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
