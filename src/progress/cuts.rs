use crate::marking::{Facts, Opened, Taken};
use crate::piece::Feature;
use crate::quantity::{Dimension, Exact, Length, Quantity};
use crate::rubric::{Kind, Rubric, Shoe, Slot};

/// What a bar was cut to, and what came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CutPiece {
    /// Length that was cut.
    pub cut: Length,
    /// Greatest width of the finished piece; of a pair the mean of both shoes.
    pub width: Length,
    /// Its greatest length, alike.
    pub length: Length,
}

/// Why a piece says nothing about cutting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoCutPiece {
    /// No cut length was noted.
    NotNoted,
    /// One was noted that cannot be used; why.
    Unread(String),
    /// A finished size was not measured, or only by a gauge.
    NotMeasured {
        /// Whether the width is there.
        has_width: bool,
        /// Whether the length is there.
        has_length: bool,
    },
}

/// What a piece says about cutting: its cut length, and its width and length measured cold.
///
/// *Which readings:* that of `photo = "overall width"` (`"overall length"`), or else the only one
/// of its shoe that has the finished width (length) of the rubric's piece for a target. Repeats
/// count with their mean.
///
/// *Errors:* [`NoCutPiece`].
pub fn cut_piece(rubric: &Rubric, facts: &Facts) -> Result<CutPiece, NoCutPiece> {
    let cut = facts.cut.as_ref().ok_or(NoCutPiece::NotNoted)?;
    let cut = cut.read(rubric.unit).map_err(NoCutPiece::Unread)?;
    let opened = Opened::read(rubric, facts);
    let shoes: Vec<Option<&Shoe>> = match rubric.shoes.as_slice() {
        [_] => vec![None],
        shoes => shoes.iter().map(Some).collect(),
    };
    let of_shoes = shoes
        .into_iter()
        .map(|shoe| Sizes::of(rubric, &opened, shoe));
    let of_shoes: Vec<Sizes> = of_shoes.collect();
    let mean = |size: fn(&Sizes) -> Option<Exact>| {
        let all: Option<Vec<Exact>> = of_shoes.iter().map(size).collect();
        let mean = Exact::mean(&all?)?;
        Length::nearest(Quantity::new(Dimension::Length, mean))
    };
    match (mean(|sizes| sizes.width), mean(|sizes| sizes.length)) {
        (Some(width), Some(length)) => Ok(CutPiece { cut, width, length }),
        (width, length) => Err(NoCutPiece::NotMeasured {
            has_width: width.is_some(),
            has_length: length.is_some(),
        }),
    }
}

/// What was measured of one shoe, in nanometres.
struct Sizes {
    width: Option<Exact>,
    length: Option<Exact>,
}

impl Sizes {
    fn of(rubric: &Rubric, opened: &Opened<'_>, shoe: Option<&Shoe>) -> Self {
        let own = |slot: &Slot<'_>| slot.shoe.map(|shoe| &shoe.id) == shoe.map(|shoe| &shoe.id);
        let slots: Vec<Slot<'_>> = rubric.slots().into_iter().filter(own).collect();
        let finished = &rubric.piece.finished;
        let by_photo = |feature: Feature| {
            let mut slots = slots.iter();
            let slot = slots.find(|slot| slot.photo == Some(feature));
            slot.map(|slot| slot.id.clone())
        };
        let by_target = |asked: Length, other: Option<&str>| {
            let mut ids = aimed_at(rubric, asked);
            ids.retain(|id| slots.iter().any(|slot| &slot.id == id) && Some(id.as_str()) != other);
            match ids.as_slice() {
                [only] => Some(only.clone()),
                _ => None,
            }
        };
        let (width, length) = (
            by_photo(Feature::OverallWidth),
            by_photo(Feature::OverallLength),
        );
        let width = width.or_else(|| by_target(finished.width, length.as_deref()));
        let length = length.or_else(|| by_target(finished.length, width.as_deref()));
        let mean = |id: Option<String>| match opened.taken(&id?)? {
            Taken::Mean(mean, _) => Some(*mean),
            _ => None,
        };
        Self {
            width: mean(width),
            length: mean(length),
        }
    }
}

/// Readings that are held against exactly this length, each once.
fn aimed_at(rubric: &Rubric, asked: Length) -> Vec<String> {
    let mut found = Vec::new();
    for entry in rubric.entries() {
        let Kind::Toleranced(kind) = &entry.criterion.kind else {
            continue;
        };
        let target = kind.scale.target.as_ref();
        let target = target.and_then(crate::rubric::Expression::constant);
        let id = rubric.slot_id(&entry, &kind.reading);
        if target == Some(asked.quantity()) && !found.contains(&id) {
            found.push(id);
        }
    }
    found
}
