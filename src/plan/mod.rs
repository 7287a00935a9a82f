//! What is planned before the fire is lit: how long the bar is cut, where it is marked, what it
//! weighs, and how the piece compares with old rules of proportion.
//!
//! *What is guaranteed.* [`plan`] is a pure function of the piece and of [`Inputs`]; what cannot be
//! worked out says why ([`PlanFault`]) and leaves the rest standing. Each method names its source
//! and refuses what it was not told on. *Invariant:* a plan gives no marks and changes no piece;
//! proportions are information.

mod cut;
mod fault;
pub mod heat;
mod inputs;
mod layout;
mod line;
mod mass;
pub mod proportion;
mod sizes;
mod solid;
pub mod steel;

pub use cut::{Answer, Caveat, Fit, Method, Spread, Term};
pub use fault::PlanFault;
pub use inputs::{Choice, Hoof, Inputs, PastPiece, Sample};
pub use layout::{Layout, LayoutMark, LeftOut, MarkKind, heel_mark};
pub use mass::Masses;
pub use proportion::Proportion;

use crate::piece::{Foot, MadeShoe, PieceSpecification};
use crate::quantity::Length;

use line::Lines;
use sizes::{check_cut, check_inputs, check_piece};

/// A whole plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// What each method says about the length to cut, in the order of [`Method::ALL`].
    pub answers: Vec<Answer>,
    /// The length that layout and mass are for.
    pub chosen: Result<Chosen, PlanFault>,
    /// What the chosen length is to be taken with care for.
    pub caveats: Vec<Caveat>,
    /// Where the bar is marked.
    pub layout: Result<Layout, PlanFault>,
    /// What bar and shoe weigh.
    pub masses: Masses,
    /// How the piece compares with old rules; information, never marks.
    pub proportions: Vec<Proportion>,
}

/// The length that was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chosen {
    /// The method that it comes from; `None` for one that the piece or a person gave.
    pub method: Option<Method>,
    /// The length.
    pub length: Length,
    /// Whether the piece gives it.
    pub is_given: bool,
}

/// The shoe of a piece and the lines along its web, or why there are none.
type Made = Result<(MadeShoe, Lines), PlanFault>;

/// The plan of a piece.
pub fn plan(piece: &PieceSpecification, inputs: &Inputs) -> Plan {
    let made = made(piece, inputs);
    let answers = cut::answers(piece, inputs, &made);
    let chosen = chosen(piece, inputs, &answers);
    let masses = mass::masses(piece, inputs, &made, &chosen);
    Plan {
        caveats: caveats(&answers, &chosen, &masses),
        layout: layout::layout(piece, inputs, &made, &chosen),
        masses,
        proportions: proportion::proportions(piece, inputs, made.as_ref().ok()),
        answers,
        chosen,
    }
}

/// The shoe of a piece, where its sizes are those of one.
///
/// *Errors:* the first size that is no shoe's, or why all of them give none.
pub fn shoe(piece: &PieceSpecification, foot: Foot) -> Result<MadeShoe, PlanFault> {
    check_piece(piece)?;
    MadeShoe::of(piece, foot).map_err(PlanFault::Shape)
}

fn made(piece: &PieceSpecification, inputs: &Inputs) -> Made {
    let shoe = shoe(piece, inputs.foot)?;
    check_inputs(inputs)?;
    let lines = Lines::of(piece, &shoe);
    Ok((shoe, lines))
}

fn chosen(
    piece: &PieceSpecification,
    inputs: &Inputs,
    answers: &[Answer],
) -> Result<Chosen, PlanFault> {
    let by = |method: Method| {
        let answer = answers.iter().find(|answer| answer.method == method);
        answer.map_or(Err(NOTHING), |answer| match (&answer.fit, answer.length) {
            (Fit::Refuses(fault), _) => Err(fault.clone()),
            (_, Some(length)) => Ok(Chosen {
                method: Some(method),
                length,
                is_given: false,
            }),
            (_, None) => Err(NOTHING),
        })
    };
    let given = |length: Length, is_given: bool| {
        check_cut("the length to cut", length)?;
        Ok(Chosen {
            method: None,
            length,
            is_given,
        })
    };
    match (inputs.choice, piece.stock.length) {
        (Choice::Own(length), _) => given(length, false),
        (Choice::Method(method), _) => by(method),
        (Choice::Usual, Some(length)) => given(length, true),
        (Choice::Usual, None) => by(Method::Record).or_else(|_| by(Method::Developed)),
    }
}

/// What the method of the chosen length warns of, and a bar that is lighter than its shoe.
fn caveats(answers: &[Answer], chosen: &Result<Chosen, PlanFault>, masses: &Masses) -> Vec<Caveat> {
    let method = chosen.as_ref().ok().and_then(|chosen| chosen.method);
    let answer = answers.iter().find(|answer| Some(answer.method) == method);
    let mut caveats = match answer.map(|answer| &answer.fit) {
        Some(Fit::Warns(own)) => own.clone(),
        _ => Vec::new(),
    };
    if let (Ok(bar), Ok(shoe)) = (&masses.bar, &masses.shoe)
        && bar < shoe
    {
        let (bar, shoe) = (*bar, *shoe);
        caveats.push(Caveat::LighterThanShoe { bar, shoe });
    }
    caveats
}

/// No method gives a length.
const NOTHING: PlanFault = PlanFault::Needs {
    what: "a length to cut",
    remedy: "choose a method that gives one, or write a length",
};
