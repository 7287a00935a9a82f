//! Sizes where a rubric asks for none: a pair or a series is only held against its
//! own, and a named reading against nothing. They come from the piece.

use crate::piece::{PieceSpecification, Place};
use crate::quantity::{Dimension, Exact, Length};
use crate::rubric::{Entry, Kind, Rubric, Slot};

/// A likely size of what `slot` measures; `entry` is the criterion that measures it,
/// where there is one.
pub(super) fn nominal(rubric: &Rubric, slot: &Slot<'_>, entry: Option<&Entry<'_>>) -> Exact {
    match slot.dimension {
        Dimension::Length => {
            let length = by_words(&rubric.piece, &slot.name)
                .filter(|_| slot.is_named)
                .unwrap_or_else(|| by_place(rubric, slot, entry));
            length.quantity().base
        }
        // Five degrees, as of a nail hole's pitch.
        Dimension::Angle => Exact::whole(5_000_000),
        // Half a kilogram.
        Dimension::Mass => Exact::whole(500_000_000),
        // Ten minutes.
        Dimension::Duration => Exact::whole(600_000),
        Dimension::Count => Exact::whole(6),
    }
}

/// The number of the piece that the reading's name speaks of.
fn by_words(piece: &PieceSpecification, name: &str) -> Option<Length> {
    let name = name.to_lowercase();
    let has = |word: &str| name.contains(word);
    let bar = piece.bar.as_ref();
    if has("thick") {
        Some(piece.finished.thickness)
    } else if has("bar") && has("width") {
        bar.map(|bar| bar.width)
    } else if has("gap") {
        let heels = piece.heels.as_ref().map(|heels| heels.gap);
        heels.or(bar.map(|bar| bar.gap))
    } else if has("web") {
        Some(piece.web.toe)
    } else if has("width") {
        Some(piece.finished.width)
    } else if has("length") {
        Some(piece.finished.length)
    } else {
        None
    }
}

fn by_place(rubric: &Rubric, slot: &Slot<'_>, entry: Option<&Entry<'_>>) -> Length {
    let piece = &rubric.piece;
    let finished = &piece.finished;
    if is_fine(rubric, slot) {
        return finished.thickness;
    }
    let place = entry.and_then(|entry| entry.criterion.place);
    let is_series = entry.is_some_and(|entry| matches!(entry.criterion.kind, Kind::Spread(_)));
    let nails = piece.nails.as_ref();
    let by_part = match place {
        Some(Place::NailHoles) if is_series => nails.map(|nails| nails.spacing),
        Some(Place::NailHoles | Place::Clips) => nails.map(|nails| nails.first),
        Some(Place::Fuller) if is_series => piece.fuller.as_ref().map(|fuller| fuller.inset),
        Some(Place::Fuller) => piece.fuller.as_ref().map(|fuller| fuller.end),
        Some(Place::Bar) => piece.bar.as_ref().map(|bar| bar.width),
        Some(Place::Heels) => Some(piece.web.heel),
        Some(Place::Toe) => Some(piece.web.toe),
        Some(Place::Branches) | None => None,
    };
    by_part.unwrap_or(finished.length)
}

/// Whether it is measured between jaws, as thicknesses are.
fn is_fine(rubric: &Rubric, slot: &Slot<'_>) -> bool {
    let instrument = slot.instrument.and_then(|id| rubric.instrument(id));
    let name = instrument.map(|instrument| instrument.name.to_lowercase());
    name.is_some_and(|name| name.contains("caliper") || name.contains("depth"))
}
