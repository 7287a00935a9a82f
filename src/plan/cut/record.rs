//! The maker's own record: what earlier pieces of the same kind and stock were cut from.
//!
//! *Method:* the line of cut length over width plus length by Theil (1950) and Sen (1968), or,
//! where sizes hardly differ, the median of their ratio. *Interval:* from one off-cut value to
//! another by order statistics (S. S. Wilks, Ann. Math. Stat. 12, 1941, 91): of n earlier pieces and
//! the next, all alike, the next lies between the k-th from below and the k-th from above with
//! probability (n + 1 − 2k) / (n + 1); of residuals from a line about as often.

use super::super::PlanFault;
use super::super::inputs::{Inputs, PastPiece};
use super::super::sizes::{check_piece, from_mm};
use super::answer::{Cut, Spread, Term};
use super::caveat::Caveat;
use super::handbook::{TOO_LONG, sum};
use crate::figures::{quartiles, trend::theil_sen};
use crate::piece::PieceSpecification;
use crate::quantity::Length;

/// So many pieces it takes.
const LEAST: usize = 3;
/// Sizes that differ by less than this share of the least hardly do: common practice, no source.
const HARDLY: f64 = 0.04;
/// An interval holds at least so large a share of pieces, where there are enough.
const WANTED: f64 = 0.8;

/// What was cut over a size: the size, and what it comes to.
struct Line {
    of: Box<dyn Fn(f64) -> f64>,
    words: String,
}

pub(super) fn cut(piece: &PieceSpecification, inputs: &Inputs) -> Result<Cut, PlanFault> {
    let like: Vec<&PastPiece> = inputs
        .record
        .iter()
        .filter(|past| past.is_like(piece))
        .collect();
    for past in &like {
        past.check()?;
    }
    if like.len() < LEAST {
        return Err(PlanFault::TooFew {
            has: like.len(),
            needs: LEAST,
        });
    }
    check_piece(piece)?;
    let points: Vec<(f64, f64)> = like
        .iter()
        .map(|past| (size(past), past.cut.to_mm()))
        .collect();
    let line = line(&points).ok_or(TOO_LONG)?;
    let both = sum(piece.finished.width, piece.finished.length).ok_or(TOO_LONG)?;
    let at = (line.of)(both.to_mm());
    let mut off: Vec<f64> = points
        .iter()
        .map(|(x, y)| (y - (line.of)(*x)) / x)
        .collect();
    off.sort_by(f64::total_cmp);
    let (low, high, level) = ends(&off);
    let to = |off: f64| from_mm(at + off * both.to_mm()).ok_or(TOO_LONG);
    let (low, high) = (to(low)?, to(high)?);
    let length = from_mm(at).ok_or(TOO_LONG)?;
    let say = |length: Length| length.quantity().print(inputs.unit);
    Ok(Cut {
        length,
        spread: Some(Spread::Interval { low, high, level }),
        terms: vec![Term {
            what: "as your earlier pieces",
            length,
        }],
        working: format!(
            "{} of your pieces, {}: width plus length {} takes {}; about {:.0} of 100 such pieces \
             lie between {} and {}",
            like.len(),
            line.words,
            say(both),
            say(length),
            100.0 * level,
            say(low),
            say(high)
        ),
        caveats: outside(&like, both).into_iter().collect(),
    })
}

fn size(past: &PastPiece) -> f64 {
    past.width.to_mm() + past.length.to_mm()
}

/// The line through earlier pieces; `None` for numbers that give none.
fn line(points: &[(f64, f64)]) -> Option<Line> {
    let sizes: Vec<f64> = points.iter().map(|(size, _)| *size).collect();
    let spread = quartiles(&sizes).ok()?;
    let by_slope = || {
        let found = theil_sen(points, 0.95).ok()?;
        // A bar that gets shorter as the shoe gets larger is chance.
        (found.slope > 0.0).then_some(found)
    };
    let is_spread = spread.most - spread.least >= HARDLY * spread.least;
    if let Some(found) = is_spread.then(by_slope).flatten() {
        let words = format!(
            "{:.3} mm of bar for each mm more (Theil and Sen, 95 % {:.3} to {:.3})",
            found.slope, found.interval.low, found.interval.high
        );
        // The median of what the slope leaves: a stray piece in the middle of the sizes would turn
        // the intercept by medians of both.
        let left: Vec<f64> = points
            .iter()
            .map(|(size, cut)| cut - found.slope * size)
            .collect();
        let intercept = quartiles(&left).ok()?.middle;
        return Some(Line {
            of: Box::new(move |size| intercept + found.slope * size),
            words,
        });
    }
    let ratios: Vec<f64> = points.iter().map(|(size, cut)| cut / size).collect();
    let ratio = quartiles(&ratios).ok()?.middle;
    Some(Line {
        of: Box::new(move |size| ratio * size),
        words: format!("whose median ratio is {ratio:.3}"),
    })
}

/// The k-th of sorted values from below and from above, and how often the next lies between: as
/// near as such a share comes from above to what is wanted.
fn ends(sorted: &[f64]) -> (f64, f64, f64) {
    let count = u32::try_from(sorted.len()).unwrap_or(u32::MAX);
    let level = |k: u32| {
        let many = f64::from(count) + 1.0;
        (many - 2.0 * f64::from(k)) / many
    };
    let k = (1..=count / 2)
        .rev()
        .find(|k| level(*k) >= WANTED)
        .unwrap_or(1);
    let at = usize::try_from(k - 1).unwrap_or(0);
    let low = sorted.get(at).copied().unwrap_or(0.0);
    let high = sorted.iter().rev().nth(at).copied().unwrap_or(0.0);
    (low, high, level(k))
}

fn outside(like: &[&PastPiece], both: Length) -> Option<Caveat> {
    let sizes = like.iter().filter_map(|past| sum(past.width, past.length));
    let least = sizes.clone().min()?;
    let most = sizes.max()?;
    (both < least || both > most).then_some(Caveat::OutsideSizes { least, most })
}
