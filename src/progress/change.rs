use crate::figures::agreement::{Estimate, LimitsAsked, bland_altman};
use crate::figures::trend::{
    Fit, LEAST_PIECES, MannKendall, TheilSen, individuals, mann_kendall, practice, theil_sen,
};
use crate::figures::{Interval, Lacking, at_least};

use super::next::LEVEL;

/// Whether pieces made alike get better.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// What a piece gains on the one before, in per cent of the marks.
    pub line: TheilSen,
    /// The same by ranks alone.
    pub ranks: MannKendall,
    /// Correlation of what a piece lies off the line with the next one, where that is farther
    /// from 0 than chance makes it once in twenty.
    pub serial: Option<f64>,
}

/// Whether `percents`, in the order of making, rise or fall.
///
/// *Source:* [`theil_sen`] and [`mann_kendall`]. Whether a piece resembles the one before it
/// is told after the line is taken off, as a trend alone makes neighbours alike (Yue, Pilon,
/// Phinney and Cavadias, Hydrological Processes 16 (2002) 1807).
///
/// *Errors:* fewer than [`LEAST_PIECES`], or all alike.
pub fn change(percents: &[f64]) -> Result<Change, Lacking> {
    at_least(percents.len(), LEAST_PIECES, "pieces")?;
    let ranks = mann_kendall(percents)?;
    let line = theil_sen(&in_order(percents), LEVEL)?;
    // Where nothing is off the line, neighbours resemble each other in nothing.
    let off = mann_kendall(&off_line(percents, &line)).ok();
    Ok(Change {
        line,
        ranks,
        serial: off.filter(|off| off.is_serial).map(|off| off.lag_one),
    })
}

/// How far pieces usually lie off their own line.
#[derive(Debug, Clone, PartialEq)]
pub struct Usual {
    /// The line at each piece, in per cent of the marks.
    pub line: Vec<f64>,
    /// The lower limit at each piece.
    pub low: Vec<f64>,
    /// The upper one.
    pub high: Vec<f64>,
    /// Places of the pieces beyond a limit, from 0.
    pub beyond: Vec<usize>,
}

/// A chart of single values of what `percents` lie off their line, so that a rise alone makes
/// no piece stand out.
///
/// *Source:* limits: [`individuals`]; about a line: Mandel, Journal of Quality Technology 1
/// (1969) 1, here with the line of [`theil_sen`].
///
/// *Errors:* fewer than [`LEAST_PIECES`], or all on one line.
pub fn usual(percents: &[f64]) -> Result<Usual, Lacking> {
    at_least(percents.len(), LEAST_PIECES, "pieces")?;
    let line = theil_sen(&in_order(percents), LEVEL)?;
    let limits = individuals(&off_line(percents, &line))?;
    let middle: Vec<f64> = in_order(percents)
        .iter()
        .map(|(at, _)| line.intercept + line.slope * at)
        .collect();
    let moved = |by: f64| middle.iter().map(|at| at + by).collect::<Vec<f64>>();
    let (low, high) = (moved(limits.low), moved(limits.high));
    let each = percents.iter().zip(low.iter().zip(&high)).enumerate();
    let beyond = each.filter(|(_, (own, (low, high)))| own < low || own > high);
    Ok(Usual {
        beyond: beyond.map(|(at, _)| at).collect(),
        line: moved(limits.mean),
        low,
        high,
    })
}

/// How heats or time go down with practice.
#[derive(Debug, Clone, PartialEq)]
pub struct Practised {
    /// The curve over the order of the pieces.
    pub fit: Fit,
    /// Its height at each piece.
    pub heights: Vec<f64>,
    /// What it comes to in the end; of no use where its interval is wider than what was won.
    pub floor: f64,
    /// The interval of that, where it is narrower than what was won and the floor not below 0;
    /// else it cannot be told.
    pub towards: Option<Interval>,
}

/// The curve of practice through `values`, in the order of making.
///
/// *Source:* [`practice`], [`Fit::floor`]. That a floor is told only where its interval is
/// narrower than what was won so far, and not below 0, is a rule of our own.
///
/// *Errors:* fewer than [`LEAST_PIECES`], or no curve that falls and flattens.
pub fn practised(values: &[f64]) -> Result<Practised, Lacking> {
    at_least(values.len(), LEAST_PIECES, "pieces")?;
    let points = in_order(values);
    let fit = practice(&points)?;
    let heights: Vec<f64> = points.iter().map(|(at, _)| fit.at(*at)).collect();
    let ends = heights.first().zip(heights.last());
    let won = ends.map_or(0.0, |(first, last)| first - last);
    if won <= 0.0 {
        return Err(Lacking::NotFound("a curve that falls"));
    }
    let (floor, interval) = fit.floor(LEVEL)?;
    Ok(Practised {
        towards: Some(interval)
            .filter(|interval| interval.high - interval.low <= won && floor >= 0.0),
        fit,
        heights,
        floor,
    })
}

/// How a maker's own marks lie off an examiner's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bias {
    /// Own less the examiner's, the mean in per cent of the marks, with its interval.
    pub mean: Estimate,
    /// How the distance between both changes from one pair to the next.
    pub distance: TheilSen,
}

/// What `own` per cents are off the `others`, pair by pair in the order of making.
///
/// *Source:* the mean with Student's t: [`bland_altman`]; the change: [`theil_sen`] of the
/// differences without their signs.
///
/// *Errors:* fewer than [`LEAST_PIECES`] pairs.
pub fn own_bias(own: &[f64], others: &[f64]) -> Result<Bias, Lacking> {
    at_least(own.len(), LEAST_PIECES, "pairs")?;
    let asked = LimitsAsked {
        level: LEVEL,
        ..LimitsAsked::default()
    };
    let pairs = own.iter().zip(others);
    let distances: Vec<f64> = pairs.map(|(own, other)| (own - other).abs()).collect();
    Ok(Bias {
        mean: bland_altman(own, others, asked)?.bias,
        distance: theil_sen(&in_order(&distances), LEVEL)?,
    })
}

/// Values at their places, from 1.
fn in_order(values: &[f64]) -> Vec<(f64, f64)> {
    let places = (1_u32..).map(f64::from);
    places.zip(values.iter().copied()).collect()
}

/// What each value lies above the line.
fn off_line(values: &[f64], line: &TheilSen) -> Vec<f64> {
    let points = in_order(values).into_iter();
    points
        .map(|(at, value)| value - (line.intercept + line.slope * at))
        .collect()
}
