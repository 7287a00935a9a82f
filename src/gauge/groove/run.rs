use kurbo::Point;

use super::band::Band;
use super::clues::clues;
use super::rows::Row;
use super::walk::Station;
use super::weights::score;
use crate::gauge::features::Side;

/// Grooves shorter than this are none, in mm.
const SHORTEST: f64 = 25.0;
/// A groove that reaches this far over the toe to both sides goes through it, in mm.
const OVER_TOE: f64 = 8.0;
/// A groove is seen from so far inside its end on, in mm.
///
/// *Source:* told on rendered photographs of known shoes.
const UNSEEN: f64 = 0.4;
/// An end is plain if over so many stations the groove suits by this inside, and does not by as
/// much outside.
const ABOUT: usize = 7;
const PLAIN: f64 = 1.0;

/// One groove without a gap.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Its middle on the ground face, one place a station, from left to right.
    pub middle: Vec<Point>,
    /// Its end on the left.
    pub first: End,
    /// Its end on the right.
    pub last: End,
}

/// An end of a groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Where it is on the ground face, on the groove's middle, in mm.
    pub place: Point,
    /// Whether it is plain.
    pub is_plain: bool,
    /// Length of the outer edge from the toe, in mm, less than nothing on the left.
    along: f64,
}

impl Run {
    /// Whether it goes over the toe to both sides.
    pub fn is_through_toe(&self) -> bool {
        self.first.along < -OVER_TOE && self.last.along > OVER_TOE
    }

    /// Whether it lies on a side, all of it or a part.
    pub fn is_of(&self, side: Side) -> bool {
        let middle = f64::midpoint(self.first.along, self.last.along);
        self.is_through_toe() || (middle < 0.0) == (side == Side::Left)
    }
}

/// The grooves of the walk, by where one begins at each station, in mm inside the edge.
pub fn runs(
    rows: &[Row],
    stations: &[Station],
    bands: &[Band],
    insets: &[Option<f64>],
) -> Vec<Run> {
    let places: Vec<Option<Point>> = stations
        .iter()
        .zip(bands)
        .zip(insets)
        .map(|((station, band), inset)| {
            inset.map(|inset| station.at + station.inward * (inset + band.width / 2.0))
        })
        .collect();
    let mut found = Vec::new();
    let mut start = 0;
    for group in places.chunk_by(|one, other| one.is_some() == other.is_some()) {
        let middle: Vec<Point> = group.iter().flatten().copied().collect();
        let last = start + group.len().saturating_sub(1);
        let end = |at: usize, is_left: bool| {
            let (station, inset) = (stations.get(at)?, (*insets.get(at)?)?);
            let band = bands.get(at)?;
            let told = |place: Option<usize>| {
                let row = rows.get(place?)?;
                Some(score(&clues(row, inset, inset + band.width)))
            };
            let mean = |inside: bool| {
                let right = inside == is_left;
                let each = (0..ABOUT).filter_map(|step| {
                    told(if right {
                        at.checked_add(step + usize::from(!inside))
                    } else {
                        at.checked_sub(step + usize::from(!inside))
                    })
                });
                let each: Vec<f64> = each.collect();
                each.iter().sum::<f64>() / each.len().max(1) as f64
            };
            let way = ends_way(&middle, is_left)?;
            let place = if is_left {
                middle.first()
            } else {
                middle.last()
            };
            Some(End {
                place: *place? + way * UNSEEN,
                is_plain: mean(true) > PLAIN && mean(false) < -PLAIN,
                along: station.along,
            })
        };
        if let (Some(first), Some(last)) = (end(start, true), end(last, false))
            && last.along - first.along > SHORTEST
        {
            found.push(Run {
                middle,
                first,
                last,
            });
        }
        start = last + 1;
    }
    found
}

/// The way out of a groove at one of its ends, of length 1.
fn ends_way(middle: &[Point], is_left: bool) -> Option<kurbo::Vec2> {
    let mut inwards: Box<dyn Iterator<Item = &Point>> = if is_left {
        Box::new(middle.iter())
    } else {
        Box::new(middle.iter().rev())
    };
    let end = inwards.next()?;
    let near = inwards.nth(2 * ABOUT)?;
    Some((*end - *near).normalize())
}
