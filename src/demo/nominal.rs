//! Sizes where a rubric asks for none: a pair or a series is only held against its own,
//! and a named reading against nothing. They come from the piece, by what the sheet
//! says in words and by the part of the shoe. A poor guess costs a likely look, never a
//! mark: marks come from differences.

use crate::piece::{ClipPlace, Fuller, NailHoles, PieceSpecification, Place};
use crate::quantity::{Dimension, Exact, Length};
use crate::rubric::{Entry, Kind, Rubric, Slot};

use super::amount::{add, less, share};

/// A likely size of what `slot` measures; `entry` is a criterion that measures it, where
/// there is one.
pub(super) fn nominal(rubric: &Rubric, slot: &Slot<'_>, entry: Option<&Entry<'_>>) -> Exact {
    match slot.dimension {
        Dimension::Length => {
            let guess = Guess::of(rubric, slot, entry);
            guess.by_words().unwrap_or_else(|| guess.by_place())
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

struct Guess<'a> {
    piece: &'a PieceSpecification,
    /// What it is called, and how it is taken, in small letters.
    name: String,
    note: String,
    place: Option<Place>,
    is_named: bool,
    is_series: bool,
    /// Measured between jaws, as thicknesses are.
    is_fine: bool,
}

impl<'a> Guess<'a> {
    fn of(rubric: &'a Rubric, slot: &Slot<'_>, entry: Option<&Entry<'_>>) -> Self {
        let criterion = entry.map(|entry| entry.criterion);
        let said = |own: &str, of_entry: Option<&str>| {
            format!("{own} {}", of_entry.unwrap_or_default()).to_lowercase()
        };
        let instrument = slot.instrument.and_then(|id| rubric.instrument(id));
        let instrument = instrument.map(|instrument| instrument.name.to_lowercase());
        Self {
            piece: &rubric.piece,
            name: said(
                &slot.name,
                criterion.map(|criterion| criterion.name.as_str()),
            ),
            note: said(
                slot.note,
                criterion.map(|criterion| criterion.note.as_str()),
            ),
            place: criterion.and_then(|criterion| criterion.place),
            is_named: slot.is_named,
            is_series: criterion.is_some_and(|c| matches!(c.kind, Kind::Spread(_))),
            is_fine: instrument
                .is_some_and(|name| name.contains("caliper") || name.contains("depth")),
        }
    }

    fn by_words(&self) -> Option<Exact> {
        let named = |word: &str| self.name.contains(word);
        let noted = |word: &str| named(word) || self.note.contains(word);
        let piece = self.piece;
        let finished = &piece.finished;
        if named("thick") {
            Some(base(finished.thickness))
        } else if noted("edge outside") || self.is_fine && noted("wall") && noted("outer edge") {
            piece.fuller.as_ref().map(rim)
        } else if named("diagonal") {
            Some(base(finished.length))
        } else if noted("middle line") {
            Some(share(base(finished.width), 500))
        } else if named("gap") {
            let heels = piece.heels.as_ref().map(|heels| heels.gap);
            heels.or(piece.bar.as_ref().map(|bar| bar.gap)).map(base)
        } else if named("bar") && named("width") {
            piece.bar.as_ref().map(|bar| base(bar.width))
        } else if named("web") {
            Some(base(piece.web.toe))
        } else if self.is_named && named("width") {
            Some(base(finished.width))
        } else if self.is_named && named("length") {
            Some(base(finished.length))
        } else {
            None
        }
    }

    fn by_place(&self) -> Exact {
        let piece = self.piece;
        if self.is_fine {
            return base(piece.finished.thickness);
        }
        let noted = |word: &str| self.name.contains(word) || self.note.contains(word);
        let nails = piece.nails.as_ref();
        let fuller = piece.fuller.as_ref();
        let by_part = match self.place {
            Some(Place::NailHoles) if self.is_series => nails.map(|nails| base(nails.spacing)),
            Some(Place::NailHoles) if noted("toe hole") => nails.map(|nails| base(nails.first)),
            Some(Place::NailHoles) => nails.map(heel_hole),
            Some(Place::Clips) => nails.map(|nails| self.clip(nails)),
            Some(Place::Fuller) if self.is_series => fuller.map(|fuller| base(fuller.inset)),
            Some(Place::Fuller) if noted("start") && !noted("end") => {
                fuller.map(|fuller| base(fuller.start))
            }
            Some(Place::Fuller) => fuller.map(|fuller| base(fuller.end)),
            Some(Place::Bar) => piece.bar.as_ref().map(|bar| base(bar.width)),
            Some(Place::Toe) => Some(base(piece.web.toe)),
            Some(Place::Branches | Place::Heels) | None => None,
        };
        by_part.unwrap_or(base(piece.finished.length))
    }

    /// Along the edge: from a toe clip to the toe hole, or from the toe to a side clip.
    fn clip(&self, nails: &NailHoles) -> Exact {
        let first = base(nails.first);
        match self.piece.clips.first() {
            Some(clip) if clip.place == ClipPlace::Toe => less(first, share(base(clip.width), 500)),
            _ => add(first, share(base(nails.spacing), 500)),
        }
    }
}

fn base(length: Length) -> Exact {
    length.quantity().base
}

/// Outer edge of the shoe to the groove's outer wall.
fn rim(fuller: &Fuller) -> Exact {
    less(base(fuller.inset), share(base(fuller.width), 500))
}

/// From the middle of the toe to the last hole.
fn heel_hole(nails: &NailHoles) -> Exact {
    let gaps = nails.outer.min(nails.inner).saturating_sub(1);
    let along = base(nails.spacing).times(Exact::whole(gaps.into()));
    add(base(nails.first), along.unwrap_or(Exact::ZERO))
}
