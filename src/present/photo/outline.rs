use kurbo::Point;

use crate::gauge::{Dot, Face, Shown, thinned};
use crate::marking::{OutlineFact, OutlineFault, OutlinePlace};
use crate::piece::Feature;

/// An edge with too many places is thinned to this first, then to twice as much, in mm.
const COARSER: f64 = 0.1;
/// So often at most.
const TIMES: usize = 6;

/// The outline of a measured shoe as a marking keeps it.
///
/// *Shape:* `shoe` is its id where the piece has several, `picture` the digest of the photo that
/// stays with it.
///
/// # Errors
///
/// [`OutlineFault`]: what of it is no outline.
pub fn kept_outline(
    shown: &Shown,
    shoe: Option<&str>,
    picture: &str,
) -> Result<OutlineFact, OutlineFault> {
    let width = shown.measured.iter();
    let width = width.filter(|one| one.feature == Feature::OverallWidth.word());
    let unsure = width.map(|width| width.standard()).fold(0.0, f64::max);
    // What is kept is seen with the ground face up, whichever was.
    let right = match shown.face {
        Face::Ground => 1.0,
        Face::Foot => -1.0,
    };
    let turned = |(x, y): Dot| (right * x, y);
    let edge = |line: &[Dot]| edge(line.iter().copied().map(turned));
    let fact = OutlineFact {
        shoe: shoe.map(str::to_owned),
        photo: picture.to_owned(),
        outer: edge(&shown.traced.outer)?,
        inner: shown
            .traced
            .inner
            .iter()
            .map(|inner| edge(inner))
            .collect::<Result<_, _>>()?,
        holes: places(shown.holes.iter().map(|hole| turned(hole.place)))?,
        unsure: OutlineFact::place((unsure, 0.0))?.0.unsigned_abs(),
    };
    fact.check()?;
    Ok(fact)
}

fn edge(line: impl Iterator<Item = Dot>) -> Result<Vec<OutlinePlace>, OutlineFault> {
    let mut line: Vec<Point> = line.map(Point::from).collect();
    let mut off = COARSER;
    for _ in 0..TIMES {
        if line.len() <= OutlineFact::MOST_PLACES {
            break;
        }
        line = thinned(&line, off);
        off *= 2.0;
    }
    places(line.into_iter().map(Dot::from))
}

fn places(dots: impl Iterator<Item = Dot>) -> Result<Vec<OutlinePlace>, OutlineFault> {
    dots.map(OutlineFact::place).collect()
}
