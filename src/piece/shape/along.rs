//! What lies along the branches: fuller, nail holes, roll, clips.

use std::f64::consts::{FRAC_PI_2, PI};

use kurbo::{Affine, BezPath, Point, Vec2};

use super::body::Body;
use super::edge::{Edge, smooth};
use super::{Branch, ShapeFault, mirrored};
use crate::piece::specification::{
    ClipPlace, Fuller, FullerExtent, NailHoles, PieceSpecification, ToeShape,
};

/// Points along a groove on each side.
const ALONG: u32 = 16;
/// A nail hole against the web: length and width as drawn; common practice, no source.
const HOLE: (f64, f64) = (0.27, 0.155);
/// A quarter clip stands here, as a part of the branch; common practice, no source.
pub const QUARTER_CLIP: f64 = 0.42;
/// A reading of the specification that ends in a rounding error is still inside, in mm.
const SLACK: f64 = 1e-6;

/// A groove of the fuller, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Groove {
    /// Its middle.
    pub path: BezPath,
    /// Its width.
    pub width: f64,
}

/// A nail hole, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Its middle.
    pub centre: Point,
    /// Direction of its long side, in radians from x towards y.
    pub turn: f64,
    /// Long and short side.
    pub size: (f64, f64),
    /// The branch that it is in.
    pub branch: Branch,
    /// Counted from the toe, from 1.
    pub number: u32,
}

/// A clip, drawn where it leaves the outer edge, in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeClip {
    /// Middle of its base.
    pub centre: Point,
    /// Direction of its base, in radians from x towards y.
    pub turn: f64,
    /// Width of the base and how far it stands out.
    pub size: (f64, f64),
    /// Where it stands.
    pub place: ClipPlace,
}

impl Groove {
    pub(super) fn mirrored(&self) -> Self {
        Self {
            path: Affine::FLIP_X * &self.path,
            width: self.width,
        }
    }
}

impl Hole {
    pub(super) fn mirrored(&self) -> Self {
        Self {
            centre: mirrored(self.centre),
            turn: -self.turn,
            ..self.clone()
        }
    }
}

impl MadeClip {
    pub(super) fn mirrored(&self) -> Self {
        Self {
            centre: mirrored(self.centre),
            turn: -self.turn,
            ..self.clone()
        }
    }
}

/// Everything along the branches that cannot be.
pub(super) fn check(piece: &PieceSpecification, body: &Body) -> Result<(), Vec<ShapeFault>> {
    let mut faults = Vec::new();
    if let Some(fuller) = &piece.fuller {
        faults.extend(check_fuller(fuller, body));
    }
    if let Some(nails) = &piece.nails {
        for branch in [Branch::Outer, Branch::Inner] {
            faults.extend(check_holes(nails, piece.fuller.as_ref(), body, branch));
        }
    }
    for clip in &piece.clips {
        let width = clip.width.to_mm();
        let room = 0.5 * piece.finished.width.to_mm();
        if width <= 0.0 || width > room {
            let place = clip.place.word();
            faults.push(ShapeFault::Clip { width, place });
        }
    }
    faults.dedup();
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

fn check_fuller(fuller: &Fuller, body: &Body) -> Vec<ShapeFault> {
    let (width, inset) = (fuller.width.to_mm(), fuller.inset.to_mm());
    let (start, end) = ends(fuller);
    let mut faults = Vec::new();
    for edge in [&body.right, &body.left] {
        let branch = edge.heel();
        if end > branch + SLACK {
            faults.push(ShapeFault::PastTheHeel {
                what: "the fuller",
                at: end,
                branch,
            });
        }
        let webs = Edge::places(start, end.min(branch), ALONG).map(|at| body.web_at(edge, at));
        let web = webs.fold(f64::INFINITY, f64::min);
        let is_within = width > 0.0 && inset >= width / 2.0 - SLACK && inset + width / 2.0 < web;
        if !is_within {
            faults.push(ShapeFault::FullerOutside { width, inset, web });
        }
    }
    faults.truncate(1);
    faults
}

fn check_holes(
    nails: &NailHoles,
    fuller: Option<&Fuller>,
    body: &Body,
    branch: Branch,
) -> Option<ShapeFault> {
    let edge = body.edge(branch);
    let inset = nails.inset.to_mm();
    for (number, at) in hole_places(nails, branch) {
        let heel = edge.heel();
        if at > heel {
            return Some(ShapeFault::PastTheHeel {
                what: "the last nail hole",
                at,
                branch: heel,
            });
        }
        let web = body.web_at(edge, at);
        if inset <= 0.0 || inset >= web {
            return Some(ShapeFault::HoleOutsideWeb { inset, web });
        }
        if let Some(fuller) = fuller {
            let (start, end) = ends(fuller);
            let half = fuller.width.to_mm() / 2.0;
            let (from, to) = (fuller.inset.to_mm() - half, fuller.inset.to_mm() + half);
            let is_in = start - SLACK <= at
                && at <= end + SLACK
                && from - SLACK <= inset
                && inset <= to + SLACK;
            if !is_in {
                return Some(ShapeFault::HoleOutsideFuller {
                    number,
                    at,
                    inset,
                    start,
                    end,
                    from,
                    to,
                });
            }
        }
    }
    None
}

/// The direction of a line, whichever way it runs: more than -90 and at most 90 degrees,
/// in radians.
fn lying(tangent: Vec2) -> f64 {
    let turn = tangent.atan2();
    if turn > FRAC_PI_2 {
        turn - PI
    } else if turn <= -FRAC_PI_2 {
        turn + PI
    } else {
        turn
    }
}

/// Where the fuller starts and ends along each edge.
fn ends(fuller: &Fuller) -> (f64, f64) {
    match fuller.extent {
        FullerExtent::ThreeQuarter => (fuller.start.to_mm(), fuller.end.to_mm()),
        FullerExtent::Full => (0.0, fuller.end.to_mm()),
    }
}

fn hole_places(nails: &NailHoles, branch: Branch) -> impl Iterator<Item = (u32, f64)> {
    let count = match branch {
        Branch::Outer => nails.outer,
        Branch::Inner => nails.inner,
    };
    let (first, spacing) = (nails.first.to_mm(), nails.spacing.to_mm());
    // More holes than any shoe has are not drawn.
    (0..count.min(24)).map(move |index| (index + 1, first + spacing * f64::from(index)))
}

pub(super) fn grooves(piece: &PieceSpecification, body: &Body) -> Vec<Groove> {
    let Some(fuller) = &piece.fuller else {
        return Vec::new();
    };
    let (start, end) = ends(fuller);
    let inset = fuller.inset.to_mm();
    let line = |edge: &Edge| -> Vec<Point> {
        Edge::places(start, end, ALONG)
            .map(|along| {
                let (point, _, inward) = edge.at(along);
                point + inward * inset
            })
            .collect()
    };
    let (right, mut left) = (line(&body.right), line(&body.left));
    let lines = match fuller.extent {
        FullerExtent::ThreeQuarter => vec![right, left],
        FullerExtent::Full => {
            left.reverse();
            left.extend(right.into_iter().skip(1));
            vec![left]
        }
    };
    let width = fuller.width.to_mm();
    lines
        .into_iter()
        .map(|points| Groove {
            path: smooth(&points),
            width,
        })
        .collect()
}

pub(super) fn holes(piece: &PieceSpecification, body: &Body) -> Vec<Hole> {
    let Some(nails) = &piece.nails else {
        return Vec::new();
    };
    let inset = nails.inset.to_mm();
    let mut holes = Vec::new();
    for branch in [Branch::Outer, Branch::Inner] {
        let edge = body.edge(branch);
        for (number, along) in hole_places(nails, branch) {
            let (point, tangent, inward) = edge.at(along);
            holes.push(Hole {
                centre: point + inward * inset,
                turn: lying(tangent),
                size: (HOLE.0 * body.webs.quarter, HOLE.1 * body.webs.quarter),
                branch,
                number,
            });
        }
    }
    holes
}

/// The line where a rolled toe begins: deepest in the middle, out at the edge on both
/// sides.
pub(super) fn roll(piece: &PieceSpecification, body: &Body) -> Option<BezPath> {
    let depth = piece
        .toe
        .depth
        .filter(|_| piece.toe.shape == ToeShape::Rolled);
    let depth = depth?.to_mm();
    let line = |edge: &Edge| -> Vec<Point> {
        let reach = 0.33 * edge.heel();
        Edge::places(0.0, reach, ALONG)
            .map(|along| {
                let (point, _, inward) = edge.at(along);
                let part = along / reach;
                point + inward * (depth * (1.0 - part * part))
            })
            .collect()
    };
    let mut points = line(&body.left);
    points.reverse();
    points.extend(line(&body.right).into_iter().skip(1));
    Some(smooth(&points))
}

pub(super) fn clips(piece: &PieceSpecification, body: &Body) -> Vec<MadeClip> {
    let clip = |clip: &crate::piece::Clip| {
        let (edge, along) = match clip.place {
            ClipPlace::Toe => (&body.right, 0.0),
            ClipPlace::OuterQuarter => (
                body.edge(Branch::Outer),
                QUARTER_CLIP * body.edge(Branch::Outer).heel(),
            ),
            ClipPlace::InnerQuarter => (
                body.edge(Branch::Inner),
                QUARTER_CLIP * body.edge(Branch::Inner).heel(),
            ),
        };
        let (centre, tangent, _) = edge.at(along);
        MadeClip {
            centre,
            turn: lying(tangent),
            size: (clip.width.to_mm(), clip.thickness.to_mm()),
            place: clip.place,
        }
    };
    piece.clips.iter().map(clip).collect()
}
