use super::pieces;
use crate::figures::Lacking;
use crate::figures::trend::{LEAST_PIECES, Next};
use crate::progress::{Kind, NextPiece, Series, next_pieces};
use crate::sheet::words::capital;

/// How what is said of the next piece is worked out.
pub const HOW_NEXT: &str = "A straight line is laid through the logits of the marks over the \
    order of the pieces, and the next piece is one more value around it (Student’s t, two \
    degrees of freedom fewer than pieces; Draper and Smith, Applied Regression Analysis, 1998). \
    The logit of m of M marks is that of (m + 1/2) / (M + 1). Only pieces that were marked as a \
    whole by an examiner count, by one version of the rubric; timed and untimed ones, practice, \
    mock and exam are kept apart. Minimums of sections and stops are not in it.";

/// What the next piece may come to, in a sentence or two.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NextShown {
    /// What it would be made for: `Practice, timed`.
    pub name: String,
    /// What is to be expected, or why nothing is said.
    pub words: String,
    /// Whether anything is to be expected.
    pub has_figure: bool,
}

/// What the next piece of each purpose may come to.
pub fn next_shown(series: &Series<'_>) -> Vec<NextShown> {
    next_pieces(series).iter().map(shown).collect()
}

fn shown(next: &NextPiece) -> NextShown {
    NextShown {
        has_figure: next.figure.is_ok(),
        name: capital(&kind_words((next.sitting, next.is_timed))),
        words: match &next.figure {
            Ok(figure) => expected(next, *figure),
            Err(Lacking::TooFew { .. }) => format!(
                "{} so far. Nothing is said of the next one before there are {LEAST_PIECES}.",
                capital(&pieces(next.pieces))
            ),
            Err(_) => format!(
                "The marks of these {} lie on one line exactly. Nothing is said of the next one \
                 before one comes off it.",
                pieces(next.pieces)
            ),
        },
    }
}

/// `practice, timed`.
pub(super) fn kind_words((sitting, is_timed): Kind) -> String {
    let timed = if is_timed { "timed" } else { "untimed" };
    format!("{}, {timed}", sitting.word())
}

/// `The next one, made as these 7 pieces were, reaches the pass mark of 65 with a
/// probability of about 74 %. 19 of 20 such pieces come to between 58 and 81 of 100 marks.`
fn expected(next: &NextPiece, figure: Next) -> String {
    let out_of = next.out_of.0.to_f64();
    let marks = |share: f64| format!("{:.0}", share * out_of);
    format!(
        "The next one, made as these {} were, reaches the pass mark of {} with a probability of \
         {}. 19 of 20 such pieces come to between {} and {} of {} marks.",
        pieces(next.pieces),
        next.pass_mark,
        roughly(figure.passes),
        marks(figure.interval.low),
        marks(figure.interval.high),
        next.out_of
    )
}

/// A probability that rests on few pieces, to a whole per cent: `about 74 %`.
pub(in crate::sheet) fn roughly(probability: f64) -> String {
    if (0.01..=0.99).contains(&probability) {
        format!("about {:.0} %", probability * 100.0)
    } else if probability > 0.5 {
        "over 99 %".to_owned()
    } else {
        "under 1 %".to_owned()
    }
}
