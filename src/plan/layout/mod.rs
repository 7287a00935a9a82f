//! Where the bar is marked before it is heated.

mod bar;
mod marking;

use std::fmt;

use super::fault::say_in;
use super::inputs::Inputs;
use super::sizes::{INCH, from_exact};
use super::solid::Solid;
use super::{Chosen, Made, PlanFault};
use crate::piece::{Branch, FullerExtent, NailHoles, PieceSpecification};
use crate::quantity::{Exact, Length, Unit};

use bar::Bar;
use marking::Marking;

/// Branches that differ by less have one middle, in mm.
const ALIKE: f64 = 1.0;

/// What a mark is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// Half of the bar.
    Middle,
    /// The middle of the toe, where one branch takes more bar than the other.
    Toe,
    /// Where the half-bar is turned.
    Heel,
    /// A nail hole, counted from the toe.
    Nail(u32),
    /// Where the fuller starts.
    FullerStart,
    /// Where it ends.
    FullerEnd,
    /// Where bumping begins and ends.
    Bump,
}

impl fmt::Display for MarkKind {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Middle => out.write_str("middle"),
            Self::Toe => out.write_str("middle of the toe"),
            Self::Heel => out.write_str("heel"),
            Self::Nail(1) => out.write_str("toe nail"),
            Self::Nail(number) => write!(out, "nail {number}"),
            Self::FullerStart => out.write_str("fuller starts"),
            Self::FullerEnd => out.write_str("fuller ends"),
            Self::Bump => out.write_str("end of the bumped toe"),
        }
    }
}

/// A mark on the bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LayoutMark {
    /// What it is for.
    pub kind: MarkKind,
    /// The branch that it lies in; `None` in the middle.
    pub branch: Option<Branch>,
    /// From the left end.
    pub from_left: Length,
    /// From the middle of the bar; to the left below zero.
    pub from_middle: Length,
}

/// The bar with its marks, the ground side up: its left end becomes the left branch, toe away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// How long it is.
    pub length: Length,
    /// How wide it is.
    pub width: Length,
    /// From left to right.
    pub marks: Vec<LayoutMark>,
    /// The branch that the left end becomes.
    pub left: Branch,
    /// How thick the bumped zone gets on the mean; `None` where nothing is bumped.
    pub bumped: Option<Length>,
    /// Marks that lie off the bar and are left out, and marks that the rules give no place for.
    pub left_out: Vec<LeftOut>,
}

/// A mark that is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOut {
    /// It lies off the bar.
    OffTheBar {
        /// What it is for.
        kind: MarkKind,
        /// From the middle of the bar, to either side.
        from_middle: Length,
        /// How long the bar is.
        bar: Length,
    },
    /// The rules give no place for the heels.
    NoHeelRule,
}

impl LeftOut {
    /// In words, each length in this unit.
    pub fn words(&self, unit: Unit) -> String {
        match self {
            Self::OffTheBar {
                kind,
                from_middle,
                bar,
            } => format!(
                "{kind}: {} from the middle is off a bar of {}",
                say_in(*from_middle, unit),
                say_in(*bar, unit)
            ),
            Self::NoHeelRule => "heel: the rule is for straight bars longer than 8 in; mark where \
                                 the branch ends"
                .to_owned(),
        }
    }
}

/// The heel mark of a bar shoe, from each end of the bar: 2 in + (length − 16 in) / 4.
///
/// *Source:* common practice, no source. `None` where that is nothing or less, at 8 in and below.
pub fn heel_mark(length: Length) -> Option<Length> {
    let inches = |count: i128| Exact::whole(count * i128::from(INCH));
    let over = length.quantity().base.minus(inches(16))?;
    let mark = inches(2).plus(over.over(Exact::whole(4))?)?;
    from_exact(mark).filter(|mark| mark.base() > 0)
}

pub(super) fn layout(
    piece: &PieceSpecification,
    inputs: &Inputs,
    made: &Made,
    chosen: &Result<Chosen, PlanFault>,
) -> Result<Layout, PlanFault> {
    let chosen = chosen.as_ref().map_err(Clone::clone)?;
    let (shoe, lines) = made.as_ref().map_err(Clone::clone)?;
    let solid = Solid::of(piece, shoe);
    let left = if shoe.outer_is_right {
        Branch::Inner
    } else {
        Branch::Outer
    };
    let bar = Bar::of(piece, inputs, lines, &solid, chosen);
    let mut marking = Marking {
        length: chosen.length,
        left,
        toe: bar.toe(left),
        marks: Vec::new(),
        left_out: Vec::new(),
    };
    marking.add(MarkKind::Middle, None, 0.0);
    if marking.toe.abs() >= ALIKE {
        marking.add(MarkKind::Toe, None, marking.toe);
    }
    marking.heels(piece, inputs, chosen);
    for branch in [Branch::Outer, Branch::Inner] {
        for (kind, edge) in along(piece, branch) {
            marking.add_from_toe(kind, branch, bar.at(branch, edge));
        }
        if inputs.toe_bump.base() > 0 {
            marking.add_from_toe(MarkKind::Bump, branch, bar.zone_end());
        }
    }
    marking.marks.sort_by_key(|mark| mark.from_left);
    Ok(Layout {
        length: chosen.length,
        width: piece.stock.width,
        marks: marking.marks,
        left,
        bumped: bar.bumped(piece),
        left_out: marking.left_out,
    })
}

/// What lies along a branch, with its length along the outer edge from the middle of the toe.
fn along(piece: &PieceSpecification, branch: Branch) -> Vec<(MarkKind, f64)> {
    let mut places = Vec::new();
    if let Some(nails) = &piece.nails {
        let count = holes(nails, branch);
        places.extend((0..count).map(|at| {
            let edge = nails.first.to_mm() + f64::from(at) * nails.spacing.to_mm();
            (MarkKind::Nail(at + 1), edge)
        }));
    }
    if let Some(fuller) = &piece.fuller {
        if fuller.extent == FullerExtent::ThreeQuarter {
            places.push((MarkKind::FullerStart, fuller.start.to_mm()));
        }
        places.push((MarkKind::FullerEnd, fuller.end.to_mm()));
    }
    places
}

fn holes(nails: &NailHoles, branch: Branch) -> u32 {
    let count = match branch {
        Branch::Outer => nails.outer,
        Branch::Inner => nails.inner,
    };
    // As many as a shoe is drawn with.
    count.min(24)
}
