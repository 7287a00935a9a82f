//! Conservation of volume: as much bar as the finished shoe holds and the work loses.
//!
//! *Formula:* mₙ = m₀ (1 − s)ⁿ for n heats that each take the share s as scale, so the bar holds
//! what is left over (1 − s)ⁿ. Left is the finished shoe and what is punched out of the nail
//! holes; the fuller and the roll only push metal aside, so what they leave empty is in the
//! outline already. Lap and bump move metal and take none.

use super::super::inputs::Inputs;
use super::super::sizes::from_mm;
use super::super::solid::Solid;
use super::super::{Made, PlanFault, heat};
use super::answer::{Cut, Spread, Term};
use super::caveat::Caveat;
use super::developed::{added, fullness};
use super::handbook::TOO_LONG;
use crate::piece::{PieceSpecification, Section};
use crate::quantity::Exact;

pub(super) fn cut(
    piece: &PieceSpecification,
    inputs: &Inputs,
    made: &Made,
) -> Result<Cut, PlanFault> {
    let (shoe, _) = made.as_ref().map_err(Clone::clone)?;
    let fullness = fullness_of(piece, inputs)?;
    let solid = Solid::of(piece, shoe);
    let stock = piece.stock.width.to_mm() * piece.stock.thickness.to_mm() * fullness;
    // A profile keeps its share of the rectangle in the web that it is forged to.
    let bar = |volume: f64| volume / stock;
    let terms = [
        (
            "plan of the shoe times its thickness",
            bar(solid.body * fullness),
        ),
        ("clips", bar(solid.clips)),
        ("pushed out of the fuller", -bar(solid.grooves)),
        ("pushed out of the roll", -bar(solid.roll)),
    ];
    let net: f64 = terms.iter().map(|(_, mm)| mm).sum();
    if net <= 0.0 {
        return Err(PlanFault::Contradicts {
            what: "the fuller leaves no metal in the shoe".to_owned(),
            lengths: Vec::new(),
            remedy: "make it narrower or less deep in the piece",
        });
    }
    let with = |loss: f64| net / heat::left(loss, inputs.heats);
    let loss = inputs.scale_loss.to_f64();
    let gross = with(loss);
    let scale = ("lost as scale", gross - net);
    let terms = terms.into_iter().chain([scale]);
    let terms = terms.filter(|(_, mm)| mm.abs() >= 0.005);
    let terms = terms.map(|(what, mm)| {
        Some(Term {
            what,
            length: from_mm(mm)?,
        })
    });
    let terms: Vec<Term> = terms.collect::<Option<_>>().ok_or(TOO_LONG)?;
    let length = from_mm(gross).ok_or(TOO_LONG)?;
    let ends = (from_mm(with(loss / 2.0)), from_mm(with(2.0 * loss)));
    let (Some(low), Some(high)) = ends else {
        return Err(TOO_LONG);
    };
    let percent = inputs
        .scale_loss
        .times(Exact::HUNDRED)
        .map_or(0.0, Exact::to_f64);
    let said = added(&terms, length, inputs);
    let mut caveats = Vec::new();
    if piece.stock.section == Section::Concave {
        caveats.push(Caveat::SameProfile);
    }
    Ok(Cut {
        length,
        spread: Some(Spread::Between { low, high }),
        working: format!(
            "volumes over the bar's section: {said}; {percent:.1} % of scale in each of {} heats, and \
             half or twice that for the range; what is punched out of the holes is lost and in it",
            inputs.heats
        ),
        terms,
        caveats,
    })
}

/// The bar's section over the rectangle that it is named after: 1 for flat bar.
///
/// *Errors:* concave bar that was not weighed, or a sample that cannot be.
pub(in crate::plan) fn fullness_of(
    piece: &PieceSpecification,
    inputs: &Inputs,
) -> Result<f64, PlanFault> {
    match (&inputs.sample, piece.stock.section) {
        (Some(sample), _) => fullness(piece, sample),
        (None, Section::Flat) => Ok(1.0),
        (None, Section::Concave) => Err(PlanFault::Needs {
            what: "what concave bar weighs for its length",
            remedy: "weigh a sample: it is lighter than the rectangle that it is named after",
        }),
    }
}
