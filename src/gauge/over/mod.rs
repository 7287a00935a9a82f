//! One shoe's outline laid over another's: the motion that brings them nearest, and how far apart
//! they lie then.
//!
//! *Input:* outlines in mm, each in its shoe's own frame as [`features`](super::features) has it,
//! so that both lie roughly over each other to begin with.

mod fit;
mod rigid;
mod target;
mod whereabouts;

use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

pub use rigid::Rigid;
pub use whereabouts::{Edge, Part, Whereabouts};

use super::features::Refused;
use crate::piece::Chain;
use fit::fit;
use target::{Target, closed};
use whereabouts::Map;

/// Places along the edges are about so far apart, in mm.
const STEP: f64 = 1.0;
/// Most of them to an edge; longer ones are looked at further apart.
const MOST: u32 = 2_000;

/// The edges of a shoe, closed, in mm.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Edges {
    /// The outer edge; of an open shoe all round the steel.
    pub outer: Vec<Point>,
    /// What a bar closes in.
    pub inner: Vec<Vec<Point>>,
}

/// How one place lies off the other shoe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Off {
    /// The place, moved onto the other shoe.
    pub at: Point,
    /// Distance from the nearest place of the other's edge of the same kind, in mm:
    /// above zero where it stands out of the other's steel, below where it falls short of it.
    pub by: f64,
    /// To the place from the nearest one of the other's edges, of length 1; nothing where it lies
    /// on one.
    pub away: Vec2,
    /// Which part of its own shoe it is.
    pub whereabouts: Whereabouts,
}

/// A shoe laid over another one.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidOver {
    /// What moves it there.
    pub motion: Rigid,
    /// Its edges there, place by place; the outer one first.
    pub edges: Vec<Vec<Off>>,
    /// Root mean square of the distances, in mm.
    pub rms: f64,
    /// The same before it was moved.
    pub rms_before: f64,
}

/// Lays a shoe over another by turning and shifting it, so that the mean of the squared
/// distances of its places from the other's edges is as small as goes: of its outer edge from the
/// other's outer one, of its inner edge from the inner one, of the ends of free heels from either.
///
/// *Method:* Gauss–Newton steps on the distances square to the other's edges (Y. Chen and G.
/// Medioni, Object modelling by registration of multiple range images, Image and Vision Computing
/// 10, 1992), each only as long as it betters the fit; where none does, the closed form between
/// places and those nearest to them (K. S. Arun, T. S. Huang and S. D. Blostein, Least-squares
/// fitting of two 3-D point sets, IEEE Transactions on Pattern Analysis and Machine Intelligence 9,
/// 1987), which never worsens it (P. J. Besl and N. D. McKay, the same 14, 1992; all from memory).
///
/// # Errors
///
/// What of the two is no outline of a shoe.
pub fn lay_over(shoe: &Edges, under: &Edges) -> Result<LaidOver, Refused> {
    let map = Map::of(shoe)?;
    let target = Target::of(under)?;
    let rings = std::iter::once(&shoe.outer).chain(&shoe.inner);
    let rings = rings.enumerate().filter_map(|(ring, line)| {
        let place = |at| (at, map.of_place(at, ring > 0));
        let places = places(&closed(line)?).into_iter().map(place);
        Some(places.collect::<Vec<(Point, Whereabouts)>>())
    });
    let own: Vec<_> = rings.collect();
    let all: Vec<(Point, Option<Edge>)> = own
        .iter()
        .flatten()
        .map(|(at, whereabouts)| (*at, whereabouts.over()))
        .collect();
    let found = fit(&all, &target);
    let mut hints = target.hints();
    let edges = own.iter().map(|places| {
        let off = |(at, whereabouts): &(Point, Whereabouts)| {
            let moved = found.motion.of(*at);
            let near = target.nearest(moved, whereabouts.over(), &mut hints);
            let far = near.off.hypot();
            Off {
                at: moved,
                by: if near.on_steel { -far } else { far },
                away: if far > 0.0 {
                    near.off / far
                } else {
                    Vec2::ZERO
                },
                whereabouts: *whereabouts,
            }
        };
        places.iter().map(off).collect()
    });
    Ok(LaidOver {
        edges: edges.collect(),
        motion: found.motion,
        rms: found.error.sqrt(),
        rms_before: found.error_before.sqrt(),
    })
}

impl LaidOver {
    /// Every place.
    pub fn places(&self) -> impl Iterator<Item = &Off> {
        self.edges.iter().flatten()
    }

    /// The share of places that lie within so many mm.
    pub fn share_within(&self, mm: f64) -> f64 {
        let all: f64 = self.places().map(|_| 1.0).sum();
        let near = self.places().filter(|off| off.by.abs() <= mm);
        near.map(|_| 1.0).sum::<f64>() / all
    }

    /// The place that stands out furthest; `None` where none stands out.
    pub fn furthest_out(&self) -> Option<&Off> {
        let out = self.places().filter(|off| off.by > 0.0);
        out.max_by(|one, other| one.by.total_cmp(&other.by))
    }

    /// The place that falls short most; `None` where none does.
    pub fn furthest_in(&self) -> Option<&Off> {
        let short = self.places().filter(|off| off.by < 0.0);
        short.min_by(|one, other| one.by.total_cmp(&other.by))
    }
}

/// Places evenly spaced along a closed chain, the first only once.
fn places(chain: &Chain) -> Vec<Point> {
    let steps: u32 = (chain.length() / STEP).clamp(8.0, f64::from(MOST)).as_();
    chain.spread(steps).skip(1).collect()
}
