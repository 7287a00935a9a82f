//! Sizes between whole nanometres and millimetres as floats, and which of them are taken.

use num_traits::ToPrimitive as _;

use super::fault::PlanFault;
use super::inputs::Inputs;
use crate::piece::PieceSpecification;
use crate::quantity::{Exact, Length};

/// Nanometres in an inch.
pub(super) const INCH: i64 = 25_400_000;
/// Nanometres in an eighth of an inch.
pub(super) const EIGHTH: i64 = INCH / 8;
/// Nanometres in a millimetre.
const MM: i64 = 1_000_000;

/// A length from millimetres; `None` for what no length holds.
pub(super) fn from_mm(mm: f64) -> Option<Length> {
    (mm * 1e6).round().to_i64().map(Length::from_base)
}

/// A length from exact nanometres, the nearest whole one.
pub(super) fn from_exact(nanometres: Exact) -> Option<Length> {
    let whole = nanometres.rounded_to(Exact::ONE)?.numerator();
    i64::try_from(whole).ok().map(Length::from_base)
}

/// A size to be looked at: what it is, how large, and the millimetres that it must lie between.
type Size = (&'static str, Length, (i64, i64));

/// The first size that lies outside.
fn check(sizes: &[Size], place: &'static str) -> Result<(), PlanFault> {
    let outside = sizes.iter().find_map(|(what, given, (least, most))| {
        let (least, most) = (Length::from_base(least * MM), Length::from_base(most * MM));
        let is_outside = *given < least || *given > most;
        is_outside.then_some(PlanFault::Size {
            what,
            given: *given,
            least,
            most,
            place,
        })
    });
    outside.map_or(Ok(()), Err)
}

/// Whether the sizes of a piece are those of a shoe: from a foal's to more than a draught's.
/// What lies between these and does not go together is told by the shape.
///
/// *Errors:* [`PlanFault::Size`].
pub(super) fn check_piece(piece: &PieceSpecification) -> Result<(), PlanFault> {
    let mut sizes: Vec<Size> = vec![
        ("the width of the stock", piece.stock.width, (3, 100)),
        ("the thickness of the stock", piece.stock.thickness, (1, 60)),
        ("the finished width", piece.finished.width, (20, 600)),
        ("the finished length", piece.finished.length, (20, 600)),
        ("the finished thickness", piece.finished.thickness, (1, 60)),
        ("the web at the toe", piece.web.toe, (3, 150)),
        ("the web at the quarters", piece.web.quarter, (3, 150)),
        ("the web at the heels", piece.web.heel, (3, 150)),
        (
            "what the outer branch is fuller by",
            piece.outer_fuller_by,
            (-100, 100),
        ),
    ];
    let stock = piece.stock.length;
    sizes.extend(stock.map(|length| ("the cut length", length, (50, 3_000))));
    let toe = [
        ("the toe radius", piece.toe.radius),
        ("the depth of the roll", piece.toe.depth),
        ("the edge of the roll", piece.toe.edge),
        ("the straight part of the toe", piece.toe.set_width),
    ];
    let toe = toe.into_iter();
    sizes.extend(toe.filter_map(|(what, size)| Some((what, size?, (0, 1_000)))));
    if let Some(heels) = &piece.heels {
        sizes.push(("the distance between the heels", heels.gap, (1, 600)));
    }
    if let Some(bar) = &piece.bar {
        sizes.push(("the width of the bar", bar.width, (3, 150)));
        sizes.push(("the thickness of the bar", bar.thickness, (1, 60)));
        sizes.push(("the distance between the heels", bar.gap, (1, 600)));
        let plate = [bar.behind, bar.plate_length, bar.plate_width];
        let plate = plate.into_iter().flatten();
        sizes.extend(plate.map(|size| ("a size of the bar", size, (0, 600))));
    }
    if let Some(fuller) = &piece.fuller {
        sizes.push(("the start of the fuller", fuller.start, (0, 1_500)));
        sizes.push(("the end of the fuller", fuller.end, (0, 1_500)));
        sizes.push(("the width of the fuller", fuller.width, (0, 100)));
        sizes.push(("the depth of the fuller", fuller.depth, (0, 60)));
        sizes.push(("the inset of the fuller", fuller.inset, (0, 150)));
    }
    if let Some(nails) = &piece.nails {
        sizes.push(("the place of the first nail", nails.first, (0, 1_500)));
        sizes.push(("the spacing of the nails", nails.spacing, (0, 500)));
        sizes.push(("the inset of the nails", nails.inset, (0, 150)));
    }
    for clip in &piece.clips {
        sizes.push(("the width of a clip", clip.width, (0, 200)));
        sizes.push(("the height of a clip", clip.height, (0, 200)));
        sizes.push(("the thickness of a clip", clip.thickness, (0, 60)));
    }
    check(&sizes, "in the piece")?;
    check_together(piece)
}

/// Whether nothing is cut deeper than the shoe is thick.
fn check_together(piece: &PieceSpecification) -> Result<(), PlanFault> {
    let thick = piece.finished.thickness;
    let fuller = piece.fuller.as_ref().map(|fuller| fuller.depth);
    if let Some(depth) = fuller.filter(|depth| *depth >= thick) {
        return Err(PlanFault::Contradicts {
            what: "a fuller {} deep cuts through a shoe {} thick".to_owned(),
            lengths: vec![depth, thick],
            remedy: "make it shallower or the shoe thicker in the piece",
        });
    }
    let edge = piece.toe.edge.filter(|edge| *edge > thick);
    edge.map_or(Ok(()), |edge| {
        Err(PlanFault::Contradicts {
            what: "a rolled edge of {} is thicker than the shoe, {}".to_owned(),
            lengths: vec![edge, thick],
            remedy: "make it thinner in the piece",
        })
    })
}

/// Whether what shapes the developed length, the loss and the layout can be.
///
/// *Errors:* [`PlanFault::Size`], or [`PlanFault::Contradicts`] for a share that is none.
pub(super) fn check_inputs(inputs: &Inputs) -> Result<(), PlanFault> {
    let sizes = [
        ("the lap of the weld", inputs.lap, (0, 100)),
        ("what bumping takes in", inputs.toe_bump, (0, 100)),
    ];
    check(&sizes, "in the plan")?;
    let share = |share: Exact, most: i128| {
        !share.is_negative() && Exact::fraction(1, most).is_some_and(|most| share <= most)
    };
    if !share(inputs.fuller_lengthens, 1) {
        return Err(PlanFault::Contradicts {
            what: "the share of the fuller's metal that goes into length is no share".to_owned(),
            lengths: Vec::new(),
            remedy: "give 0 to 100 %",
        });
    }
    if !share(inputs.scale_loss, 5) || inputs.heats > 100 {
        return Err(PlanFault::Contradicts {
            what: "no piece loses that much to scale".to_owned(),
            lengths: Vec::new(),
            remedy: "give 0 to 20 % a heat, and at most 100 heats",
        });
    }
    Ok(())
}

/// Whether a measured size is one of a hoof, or of a tape round one.
///
/// *Errors:* [`PlanFault::Size`].
pub(super) fn check_measured(what: &'static str, size: Length) -> Result<(), PlanFault> {
    check(&[(what, size, (10, 2_000))], "where it was measured")
}

/// Whether a length can be cut for a shoe.
///
/// *Errors:* [`PlanFault::Size`].
pub(super) fn check_cut(what: &'static str, size: Length) -> Result<(), PlanFault> {
    check(&[(what, size, (50, 3_000))], "in the plan")
}
