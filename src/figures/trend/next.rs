use crate::figures::chance::{t_above, two_sided_t};
use crate::figures::numbers::{all_finite, at_least, confidence, number};
use crate::figures::{Interval, Lacking, Line};
use serde::Serialize;

/// Nothing is said of a next piece from fewer.
pub const LEAST_PIECES: usize = 5;

/// What the next piece may come to, made as these were.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Next {
    /// The share of the marks in the middle of what may come.
    pub share: f64,
    /// Shares between which it comes at the level asked for.
    pub interval: Interval,
    /// The probability that it reaches the pass share.
    pub passes: f64,
    /// How many pieces this rests on.
    pub pieces: usize,
}

/// The next piece after pieces with these marks of `out_of`, in the order in which they were
/// made, and the probability that it reaches `pass` of the marks.
///
/// A straight line is laid through the logits of the shares over the order; the next piece is
/// one more value around it, by Student's t with two degrees of freedom fewer than pieces. So
/// no share comes below 0 or above 1. The logit of `m` of `M` marks is that of
/// `(m + 1/2) / (M + 1)`, which full marks and none have too, and so is that of the pass mark.
///
/// *Source:* prediction of one more value: [`Line::standard_error_of_one_at`]; the half: Cox,
/// Analysis of Binary Data (1970), 3.2 (from memory).
///
/// *Errors:* fewer than [`LEAST_PIECES`], marks below 0 or above `out_of`, a pass share or a
/// level that is no share, or pieces that lie on the line exactly, which leaves nothing to
/// tell what may come.
pub fn next_piece(marks: &[f64], out_of: f64, pass: f64, level: f64) -> Result<Next, Lacking> {
    at_least(marks.len(), LEAST_PIECES, "pieces")?;
    all_finite(marks, "marks")?;
    let is_share = |share: f64| (0.0..=1.0).contains(&share);
    let are_marks = out_of > 0.0 && out_of.is_finite();
    if !are_marks || !marks.iter().all(|given| is_share(given / out_of)) {
        return Err(Lacking::NotANumber("marks"));
    }
    if !is_share(pass) {
        return Err(Lacking::NotANumber("pass mark"));
    }
    confidence(level)?;
    let logit = |given: f64| {
        let share = (given + 0.5) / (out_of + 1.0);
        (share / (1.0 - share)).ln()
    };
    let share = |logit: f64| {
        let share = 1.0 / (1.0 + (-logit).exp());
        ((share * (out_of + 1.0) - 0.5) / out_of).clamp(0.0, 1.0)
    };
    let (places, logits): (Vec<f64>, Vec<f64>) = (1..)
        .zip(marks)
        .map(|(at, given)| (number(at), logit(*given)))
        .unzip();
    let line = Line::fit(&places, &logits)?;
    let at = number(marks.len() + 1);
    let (middle, error) = (line.at(at), line.standard_error_of_one_at(at));
    if error <= f64::EPSILON {
        return Err(Lacking::NoSpread("marks around their line"));
    }
    let off = two_sided_t(line.freedom, level)? * error;
    Ok(Next {
        share: share(middle),
        interval: Interval {
            low: share(middle - off),
            high: share(middle + off),
            level,
        },
        passes: t_above((logit(pass * out_of) - middle) / error, line.freedom)?,
        pieces: marks.len(),
    })
}
