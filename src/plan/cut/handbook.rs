//! The handbook's sum: length and greatest width of the hoof (Lungwitz and Adams, 1913).

use super::super::PlanFault;
use super::super::inputs::Inputs;
use super::super::sizes::{check_measured, check_piece, from_exact};
use super::answer::{Cut, Term};
use super::caveat::Caveat;
use crate::piece::{PieceSpecification, ShoeKind};
use crate::quantity::Length;

/// The sum of two lengths.
pub(super) fn sum(one: Length, other: Length) -> Option<Length> {
    from_exact(one.quantity().base.plus(other.quantity().base)?)
}

pub(super) fn cut(piece: &PieceSpecification, inputs: &Inputs) -> Result<Cut, PlanFault> {
    let mut caveats = Vec::new();
    let (length, width, whose) = if let Some(hoof) = inputs.hoof {
        check_measured("the length of the hoof", hoof.length)?;
        check_measured("the width of the hoof", hoof.width)?;
        (hoof.length, hoof.width, "hoof")
    } else {
        check_piece(piece)?;
        caveats.push(Caveat::ShoeForHoof);
        (piece.finished.length, piece.finished.width, "shoe")
    };
    if piece.kind != ShoeKind::OpenHeeled {
        caveats.push(Caveat::CorrespondinglyLonger);
    }
    let all = sum(length, width).ok_or(TOO_LONG)?;
    let say = |length: Length| length.quantity().print_limit(inputs.unit);
    let working = format!(
        "length of the {whose} {} + greatest width {} = {}",
        say(length),
        say(width),
        say(all)
    );
    Ok(Cut {
        length: all,
        spread: None,
        terms: vec![
            Term {
                what: "length",
                length,
            },
            Term {
                what: "greatest width",
                length: width,
            },
        ],
        working,
        caveats,
    })
}

/// No length holds what a sum comes to.
pub(super) const TOO_LONG: PlanFault = PlanFault::Needs {
    what: "a length that can be added up",
    remedy: "make the sizes smaller",
};
