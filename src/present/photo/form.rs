use crate::gauge::Dot;
use crate::gauge::sheet::Sheet;
use crate::job::{Job, PhotoWanted, Topic};
use crate::piece::Section;
use crate::present::scores::Rubrics;
use crate::present::{maker_name, piece_words};
use crate::quantity::{Dimension, Quantity, Unit, read_quantity};
use crate::records::{Ledger, MarkingId};

/// The standard uncertainty of a thickness that was measured, in mm, as callipers give it on
/// forged steel; common practice, no source.
const MEASURED: f64 = 0.05;
/// That of one taken from what the piece asks for, in mm: a shoe in tolerance; common practice,
/// no source.
const AS_ASKED: f64 = 0.4;
/// No shoe is thinner or thicker, in mm.
const THICKNESS: (f64, f64) = (2.0, 40.0);

/// The sheets that a shoe may lie on, each with its name.
pub const SHEETS: [(Sheet, &str, &str); 2] = [
    (Sheet::A4, "A4", "210 × 297 mm"),
    (Sheet::Letter, "US Letter", "8 1/2 × 11 in"),
];

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
    /// The sheet.
    pub sheet: Sheet,
    /// The thickness as typed; empty is what the piece asks for.
    pub thickness: String,
    /// Corners of the sheet in pixels, where they are marked by hand.
    pub corners: Option<[Dot; 4]>,
}

/// What the worker is to do with a photo.
///
/// *Shape:* `photo` is the file in base 64; `run` counts what was asked on this page. *Errors:*
/// what is wrong with the thickness, in words.
pub fn photo_job(
    head: &PhotoHead,
    marking: MarkingId,
    run: u32,
    form: &PhotoForm,
    photo: String,
) -> Result<(Topic, Job), String> {
    let (thickness, unsure) = thickness(head, &form.thickness)?;
    let topic = Topic {
        about: format!("photo {marking}"),
        version: run.to_string(),
    };
    let wanted = PhotoWanted {
        photo,
        scale: crate::gauge::Scale::Sheet(form.sheet),
        is_drawn: false,
        thickness,
        unsure,
        corners: form.corners,
        is_concave: head.is_concave,
    };
    Ok((topic, Job::Photo(wanted)))
}

/// The thickness and its standard uncertainty, in mm.
fn thickness(head: &PhotoHead, typed: &str) -> Result<(f64, f64), String> {
    let unit = head.unit.or_usual(Dimension::Length);
    let (quantity, unsure) = if typed.trim().is_empty() {
        (head.thickness, AS_ASKED)
    } else {
        let read = read_quantity(typed, Dimension::Length, unit);
        (read.map_err(|fault| fault.to_string())?, MEASURED)
    };
    let mm = quantity.base.to_f64() / 1e6;
    let (least, most) = THICKNESS;
    if (least..=most).contains(&mm) {
        Ok((mm, unsure))
    } else {
        Err(format!(
            "No shoe is that thick; write {least} mm to {most} mm."
        ))
    }
}
