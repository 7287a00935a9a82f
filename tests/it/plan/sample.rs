//! Pieces to plan: two that ship, and shoes of the published contest cuts.

use evenshod::piece::{Foot, Fuller, PieceSpecification};
use evenshod::plan::{Answer, Inputs, Method, Plan, plan};
use evenshod::quantity::{Length, Unit};
use evenshod::rubric::{read_rubric, shipped};

/// A length as a person writes it.
pub fn length(text: &str) -> Length {
    Length::read(text).unwrap()
}

/// The piece of a rubric that ships, and the foot that it is for.
pub fn shipped_piece(id: &str) -> (PieceSpecification, Foot) {
    let found = shipped().iter().find(|one| one.id == id).unwrap();
    let rubric = read_rubric(found.text).rubric.unwrap();
    let foot = rubric.shoes[0].drawn_foot();
    (rubric.piece.clone(), foot)
}

/// The shipped straight bar shoe with what is usual, in inches.
pub fn bar() -> (PieceSpecification, Inputs) {
    with_usual("straight-bar-shoe")
}

/// The shipped open-heeled hind.
pub fn hind() -> (PieceSpecification, Inputs) {
    with_usual("hind-shoe")
}

fn with_usual(id: &str) -> (PieceSpecification, Inputs) {
    let (piece, foot) = shipped_piece(id);
    let inputs = Inputs {
        unit: Unit::Inch64,
        ..Inputs::usual(&piece, foot)
    };
    (piece, inputs)
}

/// A fullered open shoe of 3/8 by 3/4 in, so wide and so long, as in the contest.
pub fn contest(width: &str, long: &str, foot: Foot) -> PieceSpecification {
    let (mut piece, _) = shipped_piece("hind-shoe");
    piece.outer_fuller_by = length("0");
    piece.finished.width = length(width);
    piece.finished.length = length(long);
    piece.toe.radius = None;
    if matches!(foot, Foot::NearFore | Foot::OffFore) {
        piece.heels.as_mut().unwrap().gap = length("2 3/4 in");
    }
    piece.clips.clear();
    piece.nails = None;
    piece.stock.length = None;
    let fuller: &mut Fuller = piece.fuller.as_mut().unwrap();
    fuller.start = length("1 1/8 in");
    fuller.end = length("4 5/8 in");
    piece
}

/// What a method says.
pub fn answer(plan: &Plan, method: Method) -> &Answer {
    plan.answers
        .iter()
        .find(|one| one.method == method)
        .unwrap()
}

/// What a method says of a piece.
#[track_caller]
pub fn cut(piece: &PieceSpecification, inputs: &Inputs, method: Method) -> Length {
    let plan = plan(piece, inputs);
    let answer = answer(&plan, method);
    answer.length.unwrap_or_else(|| panic!("{:?}", answer.fit))
}
