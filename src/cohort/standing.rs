use serde::{Deserialize, Serialize};

use super::person::Worked;
use crate::figures::Lacking;
use crate::figures::trend::{Next, TheilSen, theil_sen};
use crate::progress::{after_these, last_alike};
use crate::quantity::Exact;
use crate::records::SittingKind;

/// Who passes the next piece with at least this probability is ready. Our own rule, no
/// source: four of five.
pub const READY: f64 = 0.8;
/// A rise is looked for in so many of the latest pieces at most, so that an early rise does
/// not hide that it has ended. Our own rule, no source.
pub const WINDOW: usize = 8;
/// The level of the interval of the rise. Our own rule, no source: at 95 %, five pieces would
/// count as a rise only where each is better than all before it.
pub const RISE_LEVEL: f64 = 0.8;

/// How a learner stands with one rubric.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// The next piece passes with a probability of at least [`READY`].
    Ready,
    /// Not ready, and rising or not to be told.
    OnTheWay,
    /// Not ready, and no rise can be told from the scatter of the latest pieces.
    Stalled,
    /// Fewer than [`LEAST_PIECES`](crate::figures::trend::LEAST_PIECES) pieces were made alike.
    TooFew,
}

impl Standing {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 4] = [Self::Ready, Self::Stalled, Self::TooFew, Self::OnTheWay];

    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::OnTheWay => "on the way",
            Self::Stalled => "stalled",
            Self::TooFew => "too few pieces",
        }
    }
}

/// How a learner stands, and what that rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// How.
    pub standing: Standing,
    /// How many whole pieces there are, whatever they were made for.
    pub pieces: usize,
    /// The pieces made alike that it rests on; `None` where there are too few.
    pub alike: Option<Alike>,
}

/// Pieces made for the same, timed or untimed, by one version of the rubric.
#[derive(Debug, Clone, PartialEq)]
pub struct Alike {
    /// What they were made for.
    pub sitting: SittingKind,
    /// Whether their time was taken.
    pub is_timed: bool,
    /// How many.
    pub pieces: usize,
    /// What the next may come to.
    pub next: Result<Next, Lacking>,
    /// How many of the latest ones the rise is told from.
    pub window: usize,
    /// By how much of the marks they rise a piece, as a share.
    pub rise: Result<TheilSen, Lacking>,
    /// Whether every piece of the window reached the pass mark.
    pub all_reach: bool,
}

/// How a learner stands.
///
/// Pieces are kept apart as for the next piece ([`crate::progress::next_pieces`]): by what
/// they were made for, timed and untimed, and only those count that were marked by the
/// version of the latest. What stands are the pieces that [`last_alike`] finds. Ready: the next one passes with at least [`READY`]; or all marks
/// lie on one line, so that no probability exists, and all of the window reach the pass mark.
/// Stalled: not ready, and Sen's interval of the slope over the latest [`WINDOW`] or fewer,
/// at [`RISE_LEVEL`], holds 0 or lies below it.
///
/// *Source:* slope and interval: [`theil_sen`]; next piece: [`after_these`]. The limits are
/// our own rule, no source.
///
/// *Shape:* `pieces` oldest first.
pub fn stand(pieces: &[Worked]) -> Stand {
    let whole: Vec<&Worked> = pieces.iter().filter(|piece| piece.is_whole).collect();
    let alike = alike(&whole);
    Stand {
        standing: alike.as_ref().map_or(Standing::TooFew, standing),
        pieces: whole.len(),
        alike,
    }
}

fn standing(alike: &Alike) -> Standing {
    let is_ready = match &alike.next {
        Ok(next) => next.passes >= READY,
        Err(_) => alike.all_reach,
    };
    match &alike.rise {
        _ if is_ready => Standing::Ready,
        Ok(rise) if rise.interval.low <= 0.0 => Standing::Stalled,
        _ => Standing::OnTheWay,
    }
}

/// The pieces made last of which there are enough alike.
fn alike(whole: &[&Worked]) -> Option<Alike> {
    let kind = |piece: &Worked| (piece.sitting, piece.is_timed);
    let ((sitting, is_timed), pieces) = last_alike(whole, |piece| &piece.version, kind)?;
    let shares = pieces
        .iter()
        .map(|piece| piece.marks.0.over(piece.out_of.0));
    let shares: Vec<Exact> = shares.collect::<Option<_>>()?;
    let latest = pieces.last()?;
    let from = pieces.len().saturating_sub(WINDOW);
    let window = pieces.get(from..)?;
    let points = (1_u32..).zip(shares.get(from..)?);
    let points: Vec<(f64, f64)> = points
        .map(|(at, share)| (f64::from(at), share.to_f64()))
        .collect();
    Some(Alike {
        sitting,
        is_timed,
        pieces: pieces.len(),
        next: after_these(&shares, latest.out_of, latest.pass_mark)?,
        window: window.len(),
        rise: theil_sen(&points, RISE_LEVEL),
        all_reach: window.iter().all(|piece| piece.marks >= piece.pass_mark),
    })
}
