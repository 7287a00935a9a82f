//! How long the bar is to be cut: several methods side by side.

mod answer;
mod caveat;
pub(super) mod developed;
mod handbook;
mod published;
mod record;
pub(super) mod tape;
pub(super) mod volume;

pub use answer::{Answer, Fit, Method, Spread, Term};
pub use caveat::Caveat;

use super::inputs::Inputs;
use super::{Made, PlanFault};
use crate::piece::PieceSpecification;

/// What every method says, in the order of [`Method::ALL`].
pub(super) fn answers(piece: &PieceSpecification, inputs: &Inputs, made: &Made) -> Vec<Answer> {
    let answer = |method: Method| {
        let cut = match method {
            Method::Handbook => handbook::cut(piece, inputs),
            Method::Tape => tape::cut(piece, inputs),
            Method::Published => published::cut(piece, inputs),
            Method::Developed => developed::cut(piece, inputs, made),
            Method::Volume => volume::cut(piece, inputs, made),
            Method::Record => record::cut(piece, inputs),
        };
        Answer::of(method, cut)
    };
    Method::ALL.map(answer).into()
}

fn other_stock(piece: &PieceSpecification, told: &'static str) -> PlanFault {
    PlanFault::Stock {
        told,
        width: piece.stock.width,
        thickness: piece.stock.thickness,
        section: piece.stock.section.word(),
    }
}

fn other_kind(piece: &PieceSpecification, told: &'static str) -> PlanFault {
    let fuller = if piece.fuller.is_some() {
        "fullered"
    } else {
        "plain"
    };
    PlanFault::Kind {
        told,
        is: format!("{}, {fuller}", piece.kind.word()),
    }
}
