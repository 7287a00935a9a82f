//! How well totals agree.

use super::how;
use super::naming::Naming;
use super::pairs::{self, Unit};
use super::words::{lacking, with_interval};
use crate::moderation::{TotalsFigures, TotalsIcc};
use crate::quantity::print_figure;
use crate::sheet::document::Block;
use crate::sheet::scored::heading;

const HOW: &str = "the intraclass correlation for absolute agreement of single examiners is the \
    variance between pieces over that between pieces, between examiners and what is left, \
    all three added (Shrout and Fleiss 1979, case 2; interval after McGraw and Wong 1996). Where \
    some examiner did not mark some piece, the variances are fitted by constants (Henderson 1953, \
    method 3), and the interval comes of drawing pieces anew 1000 times; examiners are not drawn, \
    so it says nothing of examiners who are not here. The words are those of Koo and Li 2016, by \
    the lower end of the interval: below 0.50 poor, up to 0.75 moderate, up to 0.90 good, above \
    that excellent.";
const HOW_PAIRS: &str = "the difference of two examiners’ totals of one piece stands over the \
    mean of both. The limits lie 1.96 standard deviations about the mean difference, so that 19 \
    of 20 pieces lie between them (Bland and Altman 1986); their intervals are those of 1999. \
    Pairs with fewer than five pieces in common are left out.";

pub(super) fn blocks(totals: &TotalsFigures, naming: &Naming) -> Vec<Block> {
    let mut blocks = vec![heading("Totals")];
    blocks.push(Block::Paragraph(match &totals.icc {
        Ok(icc) => icc_words(icc),
        Err(why) => lacking(why),
    }));
    blocks.push(how(HOW));
    let unit = Unit {
        name: "per cent of the marks",
        places: 1,
    };
    let side_by_side = pairs::blocks(&totals.pairs, "Totals", &unit, naming);
    if !side_by_side.is_empty() {
        blocks.extend(side_by_side);
        blocks.push(how(HOW_PAIRS));
    }
    blocks
}

fn icc_words(icc: &TotalsIcc) -> String {
    let said = with_interval(icc.value, &icc.interval, 2);
    let low = icc.interval.as_ref().map_or(icc.value, |one| one.low);
    let word = match low {
        low if low < 0.5 => "may be poor",
        low if low < 0.75 => "is moderate at least",
        low if low < 0.9 => "is good",
        _ => "is excellent",
    };
    let share = if icc.value > 0.0 {
        format!(
            "of the differences between totals {} per cent belong to the pieces, the rest to \
             who marked them and to chance",
            print_figure(icc.value * 100.0, 0)
        )
    } else {
        "totals differ as much by who marked as by the piece".to_owned()
    };
    format!("The intraclass correlation of single totals is {said}: {share}. Agreement {word}.")
}
