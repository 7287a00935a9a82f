use crate::piece::{Foot, PieceSpecification, Section, ShoeKind};
use crate::quantity::{Exact, Length, Mass, Unit};

use super::cut::Method;
use super::fault::PlanFault;
use super::sizes::{EIGHTH, INCH, check_cut, check_measured};

/// What a plan needs to know beside the piece itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Inputs {
    /// The foot that the shoe is for.
    pub foot: Foot,
    /// The unit in which a plan's words give lengths.
    pub unit: Unit,
    /// The hoof; `None` for a piece that no horse will wear.
    pub hoof: Option<Hoof>,
    /// A soft tape from buttress round the toe to buttress.
    pub tape: Option<Length>,
    /// Distance between the heels of the foot, for the tape rule; the piece's own where it is not
    /// given.
    pub between_heels: Option<Length>,
    /// How far the scarfs of the weld lie over each other.
    pub lap: Length,
    /// How much shorter the bar gets when its toe is bumped.
    pub toe_bump: Length,
    /// Share of the metal pushed aside by the fuller that makes the bar longer, not wider.
    pub fuller_lengthens: Exact,
    /// Share of the mass that is lost as scale in each heat.
    pub scale_loss: Exact,
    /// In how many heats the piece is made.
    pub heats: u32,
    /// A weighed length of the bar; concave bar needs one.
    pub sample: Option<Sample>,
    /// Earlier pieces of who makes this one.
    pub record: Vec<PastPiece>,
    /// Which length the layout is made for.
    pub choice: Choice,
}

impl Inputs {
    /// What is usual for a piece where nothing else is known.
    ///
    /// *Source:* the toe bump of a fullered bar shoe, the lap, the heats: common practice, no
    /// source. One per cent of scale a heat: from memory (1 to 2 % of what is heated; half of a
    /// bar is, more or less). A quarter of the fuller's metal into length: told on two published
    /// cuts (Michigan Horseshoers Association, contest divisions and rules: 12 in and 11 1/2 in
    /// of 3/8 by 3/4 in), which come within 1.2 % so.
    pub fn usual(piece: &PieceSpecification, foot: Foot) -> Self {
        let has_weld = piece.kind != ShoeKind::OpenHeeled;
        let inches = |eighths: i64| Length::from_base(eighths * EIGHTH);
        Self {
            foot,
            unit: Unit::Millimetre,
            hoof: None,
            tape: None,
            between_heels: None,
            lap: if has_weld { inches(3) } else { inches(0) },
            toe_bump: if has_weld { inches(4) } else { inches(0) },
            fuller_lengthens: Exact::fraction(1, 4).unwrap_or(Exact::ZERO),
            scale_loss: Exact::fraction(1, 100).unwrap_or(Exact::ZERO),
            heats: if has_weld { 9 } else { 6 },
            sample: None,
            record: Vec::new(),
            choice: Choice::Usual,
        }
    }
}

/// A hoof as it is measured for a shoe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hoof {
    /// Point of the toe to the buttress.
    pub length: Length,
    /// Greatest width.
    pub width: Length,
    /// Thickness of the wall, where it was measured.
    pub wall: Option<Length>,
}

/// A piece of the bar that was weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sample {
    /// How long it is.
    pub length: Length,
    /// What it weighs.
    pub mass: Mass,
}

/// What a finished piece was cut from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PastPiece {
    /// Kind of shoe.
    pub kind: ShoeKind,
    /// Profile of the bar.
    pub section: Section,
    /// Width of the bar.
    pub stock_width: Length,
    /// Thickness of the bar.
    pub stock_thickness: Length,
    /// Whether it was fullered.
    pub is_fullered: bool,
    /// Length that was cut.
    pub cut: Length,
    /// Greatest width, as it came out.
    pub width: Length,
    /// Greatest length, as it came out.
    pub length: Length,
}

impl PastPiece {
    /// What a piece of this specification was cut from, and how wide and long it came out.
    pub fn of(piece: &PieceSpecification, cut: Length, width: Length, length: Length) -> Self {
        Self {
            kind: piece.kind,
            section: piece.stock.section,
            stock_width: piece.stock.width,
            stock_thickness: piece.stock.thickness,
            is_fullered: piece.fuller.is_some(),
            cut,
            width,
            length,
        }
    }

    /// Whether its sizes are those of a bar and a shoe.
    ///
    /// *Errors:* [`PlanFault::Size`].
    pub fn check(&self) -> Result<(), PlanFault> {
        check_cut("the cut length of an earlier piece", self.cut)?;
        check_measured("the width of an earlier piece", self.width)?;
        check_measured("the length of an earlier piece", self.length)
    }

    /// Whether it says something about a piece: the same kind and stock, fullered or not alike.
    pub fn is_like(&self, piece: &PieceSpecification) -> bool {
        let stock = &piece.stock;
        self.kind == piece.kind
            && self.section == stock.section
            && near(self.stock_width, stock.width)
            && near(self.stock_thickness, stock.thickness)
            && self.is_fullered == piece.fuller.is_some()
    }
}

/// Whether two sizes of bar are one: 20 mm is no 3/4 in, 19 mm is. Within 1/64 in, common
/// practice, no source.
pub(super) fn near(one: Length, other: Length) -> bool {
    one.base().abs_diff(other.base()) <= INCH.unsigned_abs() / 64
}

/// Which length the layout is made for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Choice {
    /// That of the piece where it gives one; or else the learner's own record, or else the
    /// developed length.
    #[default]
    Usual,
    /// What a method comes to.
    Method(Method),
    /// Another length.
    Own(Length),
}
