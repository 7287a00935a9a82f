//! The developed length: along the middle of the web of the piece's own outline.
//!
//! *Formula:* with the line along the middle of the web as the piece is drawn, each stretch ds of
//! it takes (w t) / (w₀ t₀) ds of a bar of w₀ by t₀, which is what drawing or spreading it to the
//! web w and thickness t gives. To the branches come the ends of free heels or both half-bars,
//! what the weld laps, and what bumping the toe takes in; a share of what the fuller pushes aside
//! makes the bar longer and comes off.

use super::super::inputs::{Inputs, Sample};
use super::super::line::Line;
use super::super::sizes::from_mm;
use super::super::solid::Solid;
use super::super::{Made, PlanFault};
use super::answer::{Cut, Spread, Term};
use super::caveat::Caveat;
use super::handbook::TOO_LONG;
use crate::piece::{Bar, PieceSpecification, Section, ShoeKind};
use crate::quantity::Length;

/// Rough standard uncertainty over the length: the two published cuts of [`super::published`] come
/// within 1.2 %, and two say little.
const ROUGH: f64 = 0.015;

/// What a stretch of web takes of the bar, over its own length.
pub(in crate::plan) fn taken(piece: &PieceSpecification, web: f64) -> f64 {
    let stock = piece.stock.width.to_mm() * piece.stock.thickness.to_mm();
    web * piece.finished.thickness.to_mm() / stock
}

/// Bar that the branch takes up to a length along its outer edge, in mm.
pub(in crate::plan) fn branch_to(piece: &PieceSpecification, line: &Line, edge: f64) -> f64 {
    line.sum_to(edge, |web| taken(piece, web))
}

/// Bar that the fuller saves, both branches together, in mm.
pub(in crate::plan) fn drawn_by_fuller(
    piece: &PieceSpecification,
    inputs: &Inputs,
    solid: &Solid,
) -> f64 {
    let stock = piece.stock.width.to_mm() * piece.stock.thickness.to_mm();
    inputs.fuller_lengthens.to_f64() * solid.grooves / stock
}

fn bar_taken(piece: &PieceSpecification, bar: &Bar) -> f64 {
    let stock = piece.stock.width.to_mm() * piece.stock.thickness.to_mm();
    bar.width.to_mm() * bar.thickness.to_mm() / stock
}

pub(super) fn cut(
    piece: &PieceSpecification,
    inputs: &Inputs,
    made: &Made,
) -> Result<Cut, PlanFault> {
    let (shoe, lines) = made.as_ref().map_err(Clone::clone)?;
    let solid = Solid::of(piece, shoe);
    let both = |of: &dyn Fn(&Line) -> f64| lines.both().map(of).iter().sum::<f64>();
    let branches = both(&|line| line.length());
    let ends = both(&|line| line.end);
    let half_bars = both(&|line| line.half_bar);
    let spread = both(&|line| branch_to(piece, line, f64::MAX) - line.length())
        + ends * (taken(piece, piece.web.heel.to_mm()) - 1.0)
        + piece
            .bar
            .as_ref()
            .map_or(0.0, |bar| half_bars * (bar_taken(piece, bar) - 1.0));
    let has_bar = piece.kind != ShoeKind::OpenHeeled;
    let lap = if has_bar { inputs.lap.to_mm() } else { 0.0 };
    let terms = [
        ("both branches, along the middle of the web", branches),
        ("ends of the heels", ends),
        ("both half-bars", half_bars),
        ("web and thickness against the stock", spread),
        ("lap of the weld", lap),
        ("what bumping the toe takes in", inputs.toe_bump.to_mm()),
        (
            "what the fuller makes longer",
            -drawn_by_fuller(piece, inputs, &solid),
        ),
    ];
    let length: f64 = terms.iter().map(|(_, mm)| mm).sum();
    let terms = terms.into_iter().filter(|(_, mm)| mm.abs() >= 0.005);
    let terms = terms.map(|(what, mm)| {
        Some(Term {
            what,
            length: from_mm(mm)?,
        })
    });
    let terms: Vec<Term> = terms.collect::<Option<_>>().ok_or(TOO_LONG)?;
    let length = from_mm(length).ok_or(TOO_LONG)?;
    let rough = from_mm(ROUGH * length.to_mm()).ok_or(TOO_LONG)?;
    let mut caveats = Vec::new();
    if piece.kind == ShoeKind::HeartBar {
        caveats.push(Caveat::WithoutPlate);
    }
    if piece.stock.section == Section::Concave {
        caveats.push(Caveat::SameProfile);
    }
    Ok(Cut {
        length,
        spread: Some(Spread::About(rough)),
        working: added(&terms, length, inputs),
        terms,
        caveats,
    })
}

/// Terms one behind the other, and what they come to.
pub(super) fn added(terms: &[Term], length: Length, inputs: &Inputs) -> String {
    let say = |length: Length| length.quantity().print(inputs.unit);
    let mut words = String::new();
    for (at, term) in terms.iter().enumerate() {
        let is_less = term.length.base() < 0;
        let size = Length::from_base(term.length.base().saturating_abs());
        words.push_str(match (at, is_less) {
            (0, false) => "",
            (0, true) => "\u{2212}",
            (_, true) => " \u{2212} ",
            (_, false) => " + ",
        });
        words.push_str(&format!("{} {}", term.what, say(size)));
    }
    format!("{words} = {}", say(length))
}

/// The weighed bar's section over the rectangle that it is named after.
///
/// *Errors:* a sample without size or mass, or one that cannot be of this bar.
pub(in crate::plan) fn fullness(
    piece: &PieceSpecification,
    sample: &Sample,
) -> Result<f64, PlanFault> {
    let (length, mass) = (sample.length, sample.mass);
    let stock = &piece.stock;
    let whole = super::super::steel::bar_mass(length, stock.width, stock.thickness);
    let whole = whole.filter(|whole| whole.base() > 0 && length.base() > 0 && mass.base() > 0);
    let whole = whole.ok_or_else(|| PlanFault::Contradicts {
        what: format!("a sample of {{}} that weighs {mass} is none"),
        lengths: vec![length],
        remedy: "measure and weigh a piece of the bar",
    })?;
    let share = mass.quantity().base.over(whole.quantity().base);
    let share = share.map_or(0.0, crate::quantity::Exact::to_f64);
    // Concave bar has 60 to 90 % of its rectangle: common practice, no source.
    if (0.4..=1.1).contains(&share) {
        Ok(share)
    } else {
        Err(PlanFault::Contradicts {
            what: format!(
                "a sample of {{}} weighs {mass}, which is {:.0} % of a full bar of that width \
                 and thickness",
                100.0 * share
            ),
            lengths: vec![length],
            remedy: "weigh and measure the sample again, and look at the stock's sizes",
        })
    }
}
