use kurbo::{Point, Vec2};

use super::whereabouts::Map;
use super::{Edge, Edges};
use crate::gauge::features::Refused;
use crate::gauge::polygon::area;
use crate::piece::Chain;

/// An edge to lay another one over.
struct Line {
    chain: Chain,
    /// 1 where the steel lies on the side that a turn from x towards y leads to, else -1.
    steel: f64,
}

/// The edges of the shoe below: an outer edge is laid over outer ones alone, an inner one over
/// inner ones, the end of a free heel over either.
pub(super) struct Target {
    outer: Vec<Line>,
    inner: Vec<Line>,
}

/// From the nearest place of an edge to a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Away {
    pub off: Vec2,
    /// Whether the place lies on the steel's side of the edge.
    pub on_steel: bool,
}

impl Target {
    /// # Errors
    ///
    /// What of it is no outline of a shoe.
    pub fn of(under: &Edges) -> Result<Self, Refused> {
        let map = Map::of(under)?;
        let one = |chain: &Chain| Line {
            chain: chain.clone(),
            steel: 1.0,
        };
        if under.inner.is_empty() {
            return Ok(Self {
                outer: vec![one(&map.branches)],
                inner: vec![one(&map.rest)],
            });
        }
        let inner = under.inner.iter().filter_map(|ring| line(ring, -1.0));
        Ok(Self {
            outer: line(&under.outer, 1.0).into_iter().collect(),
            inner: inner.collect(),
        })
    }

    /// Where to look first, for [`Target::nearest`].
    pub fn hints(&self) -> Vec<usize> {
        vec![0; self.outer.len() + self.inner.len()]
    }

    /// The nearest place of the edges of this kind, or of either. Of places that follow each
    /// other, the same `hints` save most of the search.
    pub fn nearest(&self, at: Point, edge: Option<Edge>, hints: &mut [usize]) -> Away {
        let outer = self.outer.iter().map(|line| (Edge::Outer, line));
        let inner = self.inner.iter().map(|line| (Edge::Inner, line));
        let lines = outer.chain(inner).zip(hints);
        let alike = lines.filter(|((own, _), _)| edge.is_none_or(|edge| edge == *own));
        let found = alike.map(|((_, line), hint)| {
            let near = line.chain.nearest(at, hint);
            Away {
                off: near.off,
                on_steel: near.way.cross(near.off) * line.steel > 0.0,
            }
        });
        let least = found.min_by(|one, other| one.off.hypot2().total_cmp(&other.off.hypot2()));
        least.unwrap_or(Away {
            off: Vec2::ZERO,
            on_steel: false,
        })
    }
}

/// A closed edge whose steel lies inside (1) or outside (-1) of it.
fn line(ring: &[Point], inside: f64) -> Option<Line> {
    Some(Line {
        chain: closed(ring)?,
        steel: inside * area(ring).signum(),
    })
}

/// An edge as a closed chain.
pub(super) fn closed(ring: &[Point]) -> Option<Chain> {
    let closed: Vec<Point> = ring.iter().chain(ring.first()).copied().collect();
    Chain::of(&closed)
}
