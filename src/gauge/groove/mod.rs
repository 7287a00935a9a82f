//! The fuller: a groove in the ground face along the outer edge.
//!
//! *What:* the outer edge is walked from heel to heel, and of each place it is told from the
//! light square to the edge how well a groove suits it. A groove lies about as deep inside the
//! edge all along its branch, and is about as wide.
//!
//! *Invariant.* A groove, or an end of one, that is not plain is left out.

mod band;
mod clues;
mod follow;
mod rows;
mod run;
mod walk;
mod weights;

use kurbo::Point;

use self::band::{Band, band};
use self::follow::follow;
use self::rows::{Row, rows};
use self::run::{End, Run, runs};
use self::walk::{Station, walk};
use super::features::{Both, Measures, Side};
use super::steel::SPACING;
use super::view::View;

/// Where a groove begins and ends at the ground face, as shares of the branch's outer length
/// from the toe. What is not plain is `None`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fuller {
    /// Nearer to the toe; nothing of a groove that goes through the toe.
    pub start: Option<f64>,
    /// Nearer to the heel.
    pub end: Option<f64>,
    /// Its width at the ground face, in mm.
    pub width: f64,
}

/// The grooves of a shoe.
#[derive(Debug, Clone, PartialEq)]
pub struct Grooves {
    /// What the branches have.
    pub fuller: Both<Option<Fuller>>,
    /// The middle of each groove on the ground face, in mm, from the left to the right.
    pub middles: Vec<Vec<Point>>,
    /// The brightest tenth of what lies beside the shoe begins at this logarithm of light.
    pub paper: f32,
}

impl Grooves {
    /// Those of a face that has none.
    pub fn none() -> Self {
        Self {
            fuller: Both::default(),
            middles: Vec::new(),
            paper: 0.0,
        }
    }

    /// Whether each branch has a groove and it is plain where it begins and ends.
    pub fn are_plain(&self) -> bool {
        let both = [self.fuller.left, self.fuller.right];
        let ends = both.map(|fuller| fuller.and_then(|fuller| fuller.start.zip(fuller.end)));
        ends.iter().all(Option::is_some)
    }
}

/// A band is told where any groove would lie, between these shares of the branch, by every
/// so-manieth station.
const TOLD_BETWEEN: (f64, f64) = (0.3, 0.68);
const TOLD_EVERY: usize = 4;
/// A band that suits its places worse than this is none.
///
/// *Source:* told on rendered photographs of known shoes.
const LEAST: f64 = 0.5;

/// The grooves along an outer edge as [`super::steel`] follows it.
pub fn grooves(view: &View<'_>, outer: &[Point], measures: &Measures) -> Grooves {
    let stations = walk(outer, SPACING, &measures.frame);
    let rows = rows(view, &stations);
    let of = |side: Side| {
        let (from, to) = TOLD_BETWEEN;
        let here = stations.iter().zip(&rows).filter(|(station, _)| {
            side_of(station) == side && station.share > from && station.share < to
        });
        let some: Vec<&Row> = here.step_by(TOLD_EVERY).map(|(_, row)| row).collect();
        band(&some)
    };
    let bands = Both {
        left: of(Side::Left),
        right: of(Side::Right),
    };
    let each: Vec<Band> = stations
        .iter()
        .map(|station| *bands.of(side_of(station)))
        .collect();
    let insets = follow(&rows, &stations, &each);
    let runs = runs(&rows, &stations, &each, &insets);
    let fuller = |side: Side| fuller(side, &runs, &bands, measures);
    let fuller = Both {
        left: fuller(Side::Left),
        right: fuller(Side::Right),
    };
    let middles = runs
        .iter()
        .filter(|run| {
            Side::BOTH
                .iter()
                .any(|side| run.is_of(*side) && fuller.of(*side).is_some())
        })
        .map(|run| run.middle.clone());
    Grooves {
        fuller,
        middles: middles.collect(),
        paper: rows::beside(&rows),
    }
}

fn side_of(station: &Station) -> Side {
    if station.along < 0.0 {
        Side::Left
    } else {
        Side::Right
    }
}

/// The one groove of a branch; `None` where there is none or it is not plain.
fn fuller(side: Side, runs: &[Run], bands: &Both<Band>, measures: &Measures) -> Option<Fuller> {
    let mut here = runs.iter().filter(|run| run.is_of(side));
    let (run, more) = (here.next()?, here.next());
    if more.is_some() || bands.of(side).told < LEAST {
        return None;
    }
    let share = |end: &End| {
        let found = measures.fuller_end(end.place).ok()?;
        (end.is_plain && found.side == side).then_some(found.share)
    };
    let (start, end) = match side {
        Side::Left => (&run.last, &run.first),
        Side::Right => (&run.first, &run.last),
    };
    Some(Fuller {
        start: if run.is_through_toe() {
            Some(0.0)
        } else {
            share(start)
        },
        end: share(end),
        width: bands.of(side).width,
    })
}
