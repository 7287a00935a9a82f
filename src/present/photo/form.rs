use super::typed::{dots, length, thickness};
use super::ways::Way;
use crate::gauge::{Dot, Scale};
use crate::job::{Job, PhotoWanted, Topic};
use crate::piece::Section;
use crate::present::scores::Rubrics;
use crate::present::{maker_name, piece_words};
use crate::quantity::{Dimension, Quantity, Unit};
use crate::records::{Ledger, MarkingId};

/// What the page says over a photo, and what it asks.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoHead {
    /// Whose the shoe is.
    pub title: String,
    /// What it is.
    pub about: String,
    /// The shoes of the piece with their names, where there are several.
    pub shoes: Vec<(String, String)>,
    /// The thickness that the piece asks for.
    pub thickness: Quantity,
    /// The same in words.
    pub thickness_words: String,
    /// What a bare number means.
    pub unit: Unit,
    /// Whether the piece asks for a concave section, whose inner edge lies lower.
    pub is_concave: bool,
    /// Whether it asks for clips, on which a shoe does not lie flat.
    pub has_clips: bool,
}

/// What the page of a draft needs before there is a photo; `None` where there is no such draft.
pub fn photo_head(ledger: &Ledger, rubrics: &Rubrics, marking: MarkingId) -> Option<PhotoHead> {
    let marking = ledger.marking(marking)?;
    let piece = ledger.piece(marking.piece)?;
    let rubric = rubrics.get(ledger.rubric(&marking.rubric)?)?;
    let thickness = rubric.piece.finished.thickness.quantity();
    let several = rubric.shoes.len() > 1;
    let shoes = rubric.shoes.iter().filter(|_| several);
    Some(PhotoHead {
        title: maker_name(ledger, piece),
        about: piece_words(ledger, piece),
        shoes: shoes
            .map(|shoe| (shoe.id.clone(), shoe.name.clone()))
            .collect(),
        thickness_words: thickness.print(marking.unit.or_usual(Dimension::Length)),
        thickness,
        unit: marking.unit,
        is_concave: rubric.piece.stock.section == Section::Concave,
        has_clips: !rubric.piece.clips.is_empty(),
    })
}

/// What stands against measuring such a piece in a photo, or a part of it, and what to do; `None`
/// where nothing does.
pub fn photo_caution(head: &PhotoHead) -> Option<&'static str> {
    if head.has_clips {
        Some(
            "This piece has clips: ground side up it rests on them and lies higher than its \
             thickness says, so everything would read too large. It is not measured in a photo; \
             measure it by hand.",
        )
    } else if head.is_concave {
        Some(
            "This piece has a concave section: its inner edge lies lower than the ground face. \
             What rests on that edge is left blank; measure it by hand.",
        )
    } else {
        None
    }
}

/// What is typed and chosen about a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoForm {
    /// What gives the scale.
    pub way: Way,
    /// Whether it shows a drawn outline.
    pub is_drawn: bool,
    /// The thickness as typed; empty is what the piece asks for.
    pub thickness: String,
    /// How far two marks on a ruler are apart, as typed.
    pub length: String,
    /// Dots per inch of a scan, as typed; empty is what the file tells.
    pub dots: String,
    /// Places in pixels that are marked by hand, as many as the way has.
    pub marks: Option<Vec<Dot>>,
}

/// What of a form cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrongField {
    /// Which one.
    pub field: PhotoField,
    /// Why, in words.
    pub text: String,
}

/// A field of the form that is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotoField {
    /// The thickness of the shoe.
    Thickness,
    /// The length between two marks on a ruler.
    Length,
    /// Dots per inch of a scan.
    Dots,
}

impl PhotoForm {
    /// Whether a drawn outline is measured: of a scan nothing else can be.
    pub fn is_drawn(&self) -> bool {
        self.is_drawn || self.way == Way::Scan
    }
}

/// What the worker is to do with a photo.
///
/// *Shape:* `photo` is the file in base 64; `run` counts what was asked on this page. *Errors:*
/// which field is wrong, and why, in words.
pub fn photo_job(
    head: &PhotoHead,
    marking: MarkingId,
    run: u32,
    form: &PhotoForm,
    photo: String,
) -> Result<(Topic, Job), WrongField> {
    let wrong = |field| move |text| WrongField { field, text };
    let (thickness, unsure) = if form.is_drawn() {
        (0.0, 0.0)
    } else {
        thickness(head, &form.thickness).map_err(wrong(PhotoField::Thickness))?
    };
    let scale = match form.way {
        Way::Sheet(sheet) => Scale::Sheet(sheet),
        Way::Ruler => Scale::Ruler {
            ends: form.marks.as_deref().and_then(|ends| ends.try_into().ok()),
            mm: length(head, &form.length).map_err(wrong(PhotoField::Length))?,
        },
        Way::Scan => Scale::Scan(dots(&form.dots).map_err(wrong(PhotoField::Dots))?),
    };
    let corners = form.marks.as_deref().filter(|_| form.way != Way::Ruler);
    let topic = Topic {
        about: format!("photo {marking}"),
        version: run.to_string(),
    };
    let wanted = PhotoWanted {
        photo,
        scale,
        is_drawn: form.is_drawn(),
        thickness,
        unsure,
        corners: corners.and_then(|corners| corners.try_into().ok()),
        is_concave: head.is_concave,
    };
    Ok((topic, Job::Photo(wanted)))
}
