//! The tape rule for a fullered straight bar shoe of 5/16 by 3/4 in stock.
//!
//! *Source:* “Constructing a fullered straight bar shoe”, an article on horseshoes.com: a soft
//! tape from buttress round the toe to buttress, less 2 3/4 in, plus the distance between the
//! heels. Its author calls it ball-park.

use super::super::PlanFault;
use super::super::inputs::{Inputs, near};
use super::super::sizes::{EIGHTH, check_measured, from_exact};
use super::answer::{Cut, Term};
use super::handbook::TOO_LONG;
use crate::piece::{PieceSpecification, Section, ShoeKind};
use crate::quantity::{Exact, Length};

/// 2 3/4 in.
const LESS: Length = Length::from_base(22 * EIGHTH);
/// 3/4 in.
const WIDTH: Length = Length::from_base(6 * EIGHTH);
/// 5/16 in.
const THICKNESS: Length = Length::from_base(5 * EIGHTH / 2);

pub(super) fn cut(piece: &PieceSpecification, inputs: &Inputs) -> Result<Cut, PlanFault> {
    let stock = &piece.stock;
    let is_stock = stock.section == Section::Flat
        && near(stock.width, WIDTH)
        && near(stock.thickness, THICKNESS);
    if piece.kind != ShoeKind::StraightBar || piece.fuller.is_none() {
        return Err(super::other_kind(piece, "fullered straight bar shoes"));
    }
    if !is_stock {
        return Err(super::other_stock(piece, "flat bar of 3/4 by 5/16 in"));
    }
    let tape = inputs.tape.ok_or(PlanFault::Needs {
        what: "the tape from buttress round the toe to buttress",
        remedy: "measure the hoof with a soft tape",
    })?;
    check_measured("the tape", tape)?;
    let heels = inputs
        .between_heels
        .or(piece.bar.as_ref().map(|bar| bar.gap));
    let heels = heels.ok_or(PlanFault::Needs {
        what: "the distance between the heels",
        remedy: "measure it",
    })?;
    check_measured("the distance between the heels", heels)?;
    if heels >= tape {
        return Err(PlanFault::Contradicts {
            what: "the heels are {} apart and the tape round the hoof is {}".to_owned(),
            lengths: vec![heels, tape],
            remedy: "the tape goes from one buttress round the toe to the other: measure again",
        });
    }
    let less = Length::from_base(-LESS.base());
    let parts = [tape, less, heels].map(|part| part.quantity().base);
    let length = Exact::sum(parts).and_then(from_exact).ok_or(TOO_LONG)?;
    let say = |length: Length| length.quantity().print_limit(inputs.unit);
    let term = |what, length| Term { what, length };
    Ok(Cut {
        length,
        spread: None,
        terms: vec![
            term("tape", tape),
            term("less 2 3/4 in", less),
            term("between the heels", heels),
        ],
        working: format!(
            "tape {} \u{2212} {} + between the heels {} = {}; marks {} from each end, half of \
             what the heels are apart",
            say(tape),
            say(LESS),
            say(heels),
            say(length),
            say(half(heels)),
        ),
        caveats: Vec::new(),
    })
}

/// Half a length: where this rule marks the heels, from each end.
pub(in crate::plan) fn half(length: Length) -> Length {
    Length::from_base(length.base() / 2)
}
