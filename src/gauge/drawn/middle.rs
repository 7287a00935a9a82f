use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::Unclear;
use super::ink::Ink;
use crate::gauge::steel::{Followed, SPACING, blur, evened, in_steps, outward};

/// From offset to offset across a line, in mm.
const STEP: f64 = 0.1;
/// A line is looked for between these offsets from the inside of it, in mm, and then from where
/// it was found.
const FIRST: (f64, f64) = (-1.0, 2.5);
const THEN: (f64, f64) = (-1.5, 1.5);
/// A second line is looked for so far to either side, in mm.
const BESIDE: f64 = 3.0;
/// Along it, a line is smoothed over this, in mm, before its middle is looked for.
const SMOOTH: f64 = 1.0;
/// Directions out of it are told over this, in mm.
const DIRECTION: f64 = 1.5;
/// To a line belongs what takes at least this share of the light that its darkest place takes.
const SKIRT: f64 = 0.25;
/// A second line is at least this share as dark, with light between them.
const SECOND: f64 = 0.5;
/// A line may be missing over this share, and have another one beside it over this one: at
/// corners the other side comes near.
const MOST_FAINT: f64 = 0.03;
const MOST_DOUBLED: f64 = 0.08;
/// What differs from place to place of how far a traced line stands off, in mm, over all lengths
/// over which [`crate::gauge::spread`] draws edges anew; see [`super::STANDS_OFF`].
const UNSURE: f64 = 0.24;

/// The middle of the drawn line along a guide near it.
pub fn middle(ink: &Ink, guide: &[Point]) -> Result<Followed, Unclear> {
    let (first, _) = nearer(ink, guide, FIRST);
    let (line, out) = nearer(ink, &first, THEN);
    let faint = line.iter().zip(&out).filter(|(at, out)| {
        let (dark, _) = runs(ink, **at, **out, THEN);
        dark.is_none()
    });
    let count = line.len() as f64;
    if faint.count() as f64 > MOST_FAINT * count {
        return Err(Unclear::Faint);
    }
    let doubled = line.iter().zip(&out).filter(|(at, out)| {
        let (_, more) = runs(ink, **at, **out, (-BESIDE, BESIDE));
        more
    });
    if doubled.count() as f64 > MOST_DOUBLED * count {
        return Err(Unclear::Doubled);
    }
    let line = evened(&line);
    Ok(Followed {
        unsure: vec![UNSURE; line.len()],
        likely: vec![0.0; line.len()],
        outward: out,
        line,
    })
}

/// Places in even steps along a line, each with the way out of it.
fn stations(line: &[Point]) -> Vec<(Point, Vec2)> {
    let smooth = blur::line(&in_steps(line, SPACING), SMOOTH / SPACING);
    let line = in_steps(&smooth, SPACING);
    let out = outward(&line, DIRECTION / SPACING);
    line.into_iter().zip(out).collect()
}

/// The line moved to the middle of the ink across it; where there is none it stays.
fn nearer(ink: &Ink, line: &[Point], range: (f64, f64)) -> (Vec<Point>, Vec<Vec2>) {
    let stations = stations(line).into_iter();
    let moved = stations.map(|(at, out)| {
        let (offset, _) = runs(ink, at, out, range);
        (at + out * offset.unwrap_or(0.0), out)
    });
    moved.unzip()
}

/// The offset of the middle of the darkest line across a place, by the light that it takes; and
/// whether another one runs beside it.
fn runs(ink: &Ink, at: Point, out: Vec2, (from, to): (f64, f64)) -> (Option<f64>, bool) {
    let count: usize = ((to - from) / STEP).round().as_();
    let offset = |place: usize| from + STEP * place as f64;
    let taken: Vec<f64> = (0..=count)
        .map(|place| ink.taken(at + out * offset(place)))
        .collect();
    let most = taken.iter().copied().fold(0.0, f64::max);
    let least = 1.0 - f64::from(-ink.least).exp();
    if most < least {
        return (None, false);
    }
    let part = |share: f64| {
        let places = taken.iter().enumerate();
        let dark = places.map(move |(place, taken)| (place, *taken, *taken > share * most));
        dark.collect::<Vec<(usize, f64, bool)>>()
    };
    let of_line = part(SKIRT);
    let mut chunks = of_line.chunk_by(|one, other| one.2 == other.2);
    let darkest = chunks.find(|run| run.iter().any(|(_, taken, _)| *taken >= most));
    let darkest = darkest.unwrap_or_default().iter();
    let (sum, weight) = darkest.fold((0.0, 0.0), |(sum, weight), (place, taken, _)| {
        (sum + offset(*place) * taken, weight + taken)
    });
    let strong = part(SECOND);
    let strong = strong.chunk_by(|one, other| one.2 == other.2);
    let strong = strong.filter(|run| run.first().is_some_and(|(.., is_dark)| *is_dark));
    (Some(sum / weight), strong.count() > 1)
}
