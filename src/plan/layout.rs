//! Where the bar is marked before it is heated.

use std::fmt;

use super::cut::{Method, developed, tape};
use super::inputs::Inputs;
use super::line::Lines;
use super::sizes::{INCH, from_exact, from_mm};
use super::solid::Solid;
use super::{Chosen, Made, PlanFault};
use crate::piece::{Branch, FullerExtent, NailHoles, PieceSpecification, ShoeKind};
use crate::quantity::{Exact, Length};

/// The bumped zone reaches so far past the toe nails on either side: 1/4 in. Common practice, no
/// source: over a little more than the toe nails' zone.
const PAST_NAILS: f64 = 6.35;
/// Without nails it is the middle third of the bar, where the toe is bent: common practice, no
/// source.
const WITHOUT_NAILS: f64 = 1.0 / 6.0;
/// Branches that differ by less have one middle, in mm.
const ALIKE: f64 = 0.5;

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
    /// From left to right.
    pub marks: Vec<LayoutMark>,
    /// The branch that the left end becomes.
    pub left: Branch,
    /// How thick the bumped zone gets on the mean; `None` where nothing is bumped.
    pub bumped: Option<Length>,
    /// Marks that lie off the bar and are left out, and marks that the rules give no place for.
    pub left_out: Vec<String>,
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
            marking.add_from_toe(MarkKind::Bump, branch, bar.zone + bar.bump / 2.0);
        }
    }
    marking.marks.sort_by_key(|mark| mark.from_left);
    Ok(Layout {
        length: chosen.length,
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

/// How places of the shoe lie on the bar that it is made of, in mm.
struct Bar<'a> {
    piece: &'a PieceSpecification,
    lines: &'a Lines,
    /// What bumping takes in.
    bump: f64,
    /// Half the bumped zone, as it is after bumping.
    zone: f64,
    /// What the fuller makes each branch longer.
    drawn: f64,
}

impl<'a> Bar<'a> {
    fn of(
        piece: &'a PieceSpecification,
        inputs: &Inputs,
        lines: &'a Lines,
        solid: &Solid,
        chosen: &Chosen,
    ) -> Self {
        let bump = inputs.toe_bump.to_mm();
        let mut bar = Self {
            piece,
            lines,
            bump,
            zone: WITHOUT_NAILS * chosen.length.to_mm() - bump / 2.0,
            drawn: developed::drawn_by_fuller(piece, inputs, solid) / 2.0,
        };
        if let Some(nails) = &piece.nails {
            let edge = nails.first.to_mm();
            bar.zone = bar.plain(Branch::Outer, edge) + PAST_NAILS;
        }
        bar.zone = bar.zone.max(1.0);
        bar
    }

    /// Bar from the middle of the toe to a place along the edge, before bump and fuller.
    fn plain(&self, branch: Branch, edge: f64) -> f64 {
        developed::branch_to(self.piece, self.lines.branch(branch), edge)
    }

    /// The same on the bar as it is cut: bumping has pushed the place in, and the fuller, by the
    /// part of it that lies before the place, out.
    fn at(&self, branch: Branch, edge: f64) -> f64 {
        let place = self.plain(branch, edge);
        let bumped = self.bump / 2.0 * (place / self.zone).min(1.0);
        place + bumped - self.drawn * self.fullered(edge)
    }

    /// The part of the fuller that lies before a place.
    fn fullered(&self, edge: f64) -> f64 {
        let Some(fuller) = &self.piece.fuller else {
            return 0.0;
        };
        let start = match fuller.extent {
            FullerExtent::ThreeQuarter => fuller.start.to_mm(),
            FullerExtent::Full => 0.0,
        };
        let run = (fuller.end.to_mm() - start).max(1e-6);
        ((edge - start) / run).clamp(0.0, 1.0)
    }

    /// Where the middle of the toe lies from the middle of the bar: the bar's ends meet in the
    /// middle of the bar of a shoe, so what one branch takes more lies on its side.
    fn toe(&self, left: Branch) -> f64 {
        let length = |branch: Branch| {
            let line = self.lines.branch(branch);
            self.plain(branch, f64::MAX) + line.end + line.half_bar
        };
        let right = match left {
            Branch::Outer => Branch::Inner,
            Branch::Inner => Branch::Outer,
        };
        (length(left) - length(right)) / 2.0
    }

    /// The bumped zone takes in what it does over its own length.
    fn bumped(&self, piece: &PieceSpecification) -> Option<Length> {
        let after = from_mm(2.0 * self.zone)?;
        let before = from_mm(2.0 * self.zone + self.bump)?;
        let thicker = super::steel::bumped_thickness(piece.stock.thickness, before, after);
        thicker.filter(|_| self.bump > 0.0)
    }
}

/// Marks that are being gathered.
struct Marking {
    length: Length,
    left: Branch,
    /// The middle of the toe, from the middle of the bar.
    toe: f64,
    marks: Vec<LayoutMark>,
    left_out: Vec<String>,
}

impl Marking {
    /// Adds a mark so many mm right of the middle of the bar.
    fn add(&mut self, kind: MarkKind, branch: Option<Branch>, from_middle: f64) {
        let half = self.length.to_mm() / 2.0;
        let at = (from_mm(half + from_middle), from_mm(from_middle));
        let on_bar = from_middle.abs() <= half;
        match at {
            (Some(from_left), Some(from_middle)) if on_bar => self.marks.push(LayoutMark {
                kind,
                branch,
                from_left,
                from_middle,
            }),
            _ => self.left_out.push(format!(
                "{kind}: {:.1} mm from the middle is off a bar of {}",
                from_middle.abs(),
                self.length
            )),
        }
    }

    fn add_from_toe(&mut self, kind: MarkKind, branch: Branch, from_toe: f64) {
        let side = if branch == self.left { -1.0 } else { 1.0 };
        self.add(kind, Some(branch), self.toe + side * from_toe);
    }

    fn heels(&mut self, piece: &PieceSpecification, inputs: &Inputs, chosen: &Chosen) {
        if piece.kind == ShoeKind::OpenHeeled {
            return;
        }
        let by_tape = (chosen.method == Some(Method::Tape))
            .then(|| {
                inputs
                    .between_heels
                    .or(piece.bar.as_ref().map(|bar| bar.gap))
            })
            .flatten()
            .map(tape::half);
        let by_rule = || (piece.kind == ShoeKind::StraightBar).then(|| heel_mark(self.length));
        let Some(mark) = by_tape.or_else(|| by_rule().flatten()) else {
            self.left_out.push(
                "heel: the rule is for straight bars longer than 8 in; mark where the branch ends"
                    .to_owned(),
            );
            return;
        };
        let from_middle = self.length.to_mm() / 2.0 - mark.to_mm();
        let right = match self.left {
            Branch::Outer => Branch::Inner,
            Branch::Inner => Branch::Outer,
        };
        self.add(MarkKind::Heel, Some(self.left), -from_middle);
        self.add(MarkKind::Heel, Some(right), from_middle);
    }
}
