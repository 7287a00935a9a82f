//! What published cuts came to: 1.157 times width plus length of the shoe.
//!
//! *Source:* Michigan Horseshoers Association, contest divisions and rules: of 3/8 by 3/4 in,
//! fullered, 12 in for a front of 5 3/16 by 5 3/16 in and 11 1/2 in for a hind of 4 3/4 by
//! 5 3/16 in, that is 1.1566 and 1.1572 of width plus length; 14 in for a straight bar, which is
//! 2 to 2 1/2 in more.

use super::super::PlanFault;
use super::super::inputs::{Inputs, near};
use super::super::sizes::{EIGHTH, check_piece, from_exact};
use super::answer::{Cut, Spread, Term};
use super::caveat::Caveat;
use super::handbook::{TOO_LONG, sum};
use crate::piece::{PieceSpecification, Section, ShoeKind};
use crate::quantity::{Exact, Length};

/// Bar over width plus length.
pub const RATIO: (i128, i128) = (1_157, 1_000);
/// A straight bar takes at least so much more: 2 in.
const BAR_LEAST: Length = Length::from_base(16 * EIGHTH);
/// And at most so much: 2 1/2 in.
const BAR_MOST: Length = Length::from_base(20 * EIGHTH);
/// Width plus length of the hind that it was told on: 4 3/4 and 5 3/16 in.
const LEAST: Length = Length::from_base(159 * EIGHTH / 2);
/// Of the front: twice 5 3/16 in.
const MOST: Length = Length::from_base(83 * EIGHTH);
/// 3/4 in.
const WIDTH: Length = Length::from_base(6 * EIGHTH);
/// 3/8 in.
const THICKNESS: Length = Length::from_base(3 * EIGHTH);

pub(super) fn cut(piece: &PieceSpecification, inputs: &Inputs) -> Result<Cut, PlanFault> {
    let told = "fullered open-heeled and straight bar shoes";
    let is_kind = matches!(piece.kind, ShoeKind::OpenHeeled | ShoeKind::StraightBar);
    if !is_kind || piece.fuller.is_none() {
        return Err(super::other_kind(piece, told));
    }
    let stock = &piece.stock;
    let is_stock = stock.section == Section::Flat
        && near(stock.width, WIDTH)
        && near(stock.thickness, THICKNESS);
    if !is_stock {
        return Err(super::other_stock(piece, "flat bar of 3/4 by 3/8 in"));
    }
    check_piece(piece)?;
    let finished = &piece.finished;
    let both = sum(finished.width, finished.length).ok_or(TOO_LONG)?;
    let ratio = Exact::fraction(RATIO.0, RATIO.1).unwrap_or(Exact::ONE);
    let open = both.quantity().base.times(ratio).and_then(from_exact);
    let open = open.ok_or(TOO_LONG)?;
    let mut caveats = Vec::new();
    if both < LEAST || both > MOST {
        let (least, most) = (LEAST, MOST);
        caveats.push(Caveat::OutsideSizes { least, most });
    }
    let say = |length: Length| length.quantity().print_limit(inputs.unit);
    let rough = |length: Length| length.quantity().print(inputs.unit);
    let mut working = format!(
        "1.157 \u{d7} (width {} + length {}) = {}",
        say(finished.width),
        say(finished.length),
        rough(open)
    );
    let mut terms = vec![Term {
        what: "1.157 of width plus length",
        length: open,
    }];
    let mut cut = (open, None);
    if piece.kind == ShoeKind::StraightBar {
        let middle = Length::from_base(i64::midpoint(BAR_LEAST.base(), BAR_MOST.base()));
        let with = |more: Length| sum(open, more).ok_or(TOO_LONG);
        let (low, high) = (with(BAR_LEAST)?, with(BAR_MOST)?);
        cut = (with(middle)?, Some(Spread::Between { low, high }));
        terms.push(Term {
            what: "for the straight bar",
            length: middle,
        });
        working.push_str(&format!(
            ", and {} to {} for the bar: {} to {}",
            say(BAR_LEAST),
            say(BAR_MOST),
            rough(low),
            rough(high)
        ));
    }
    let (length, spread) = cut;
    Ok(Cut {
        length,
        spread,
        terms,
        working,
        caveats,
    })
}
