use super::hidden::hidden;
use super::typed::{dots, length, thickness};
use super::ways::Way;
use crate::gauge::{Dot, Face, Scale};
use crate::job::{Job, PhotoWanted, Topic};
use crate::piece::{ClipPlace, Foot, Section};
use crate::present::scores::Rubrics;
use crate::present::{maker_name, piece_words};
use crate::quantity::{Dimension, Quantity, Unit};
use crate::records::{Ledger, MarkingId};

/// What a photo shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shows {
    /// A shoe whose ground side lies up.
    Ground,
    /// One whose foot side does.
    Foot,
    /// A drawn outline.
    Drawing,
}

/// What a photo may show, each with its name and more about it.
pub const SHOWS: [(Shows, &str, &str); 3] = [
    (
        Shows::Ground,
        "The shoe, ground side up",
        "with fuller and nail holes",
    ),
    (
        Shows::Foot,
        "The shoe, foot side up",
        "outlines and bar only",
    ),
    (
        Shows::Drawing,
        "A drawn outline",
        "a pencil line on white paper",
    ),
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
    /// The clips that it asks for, on which a shoe does not lie flat ground side up.
    pub clips: Vec<ClipPlace>,
    /// The feet that the shoes are for, by their ids, as far as they are named.
    pub feet: Vec<(String, Foot)>,
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
        clips: rubric.piece.clips.iter().map(|clip| clip.place).collect(),
        feet: rubric
            .shoes
            .iter()
            .filter_map(|shoe| Some((shoe.id.clone(), shoe.foot?)))
            .collect(),
    })
}

/// What stands against measuring such a piece in a photo, or a part of it, and what to do.
pub fn photo_caution(head: &PhotoHead) -> Vec<&'static str> {
    let clips = (!head.clips.is_empty()).then_some(if head.may_hang() {
        "This piece has a clip: ground side up it rests on it, unless that hangs over the edge \
             of a board. Foot side up it lies flat. Either way what rests on the edge at the clip \
             is left blank; measure that by hand. To let it hang, lay a long side of the sheet \
             along the edge of the board, 1 mm or so from it, and the toe over both, 8 to 12 mm."
    } else {
        "This piece has clips: ground side up it rests on them. Foot side up it lies flat. What \
             rests on the edge at the clips is left blank; measure that by hand."
    });
    let concave = head.is_concave.then_some(
        "This piece has a concave section: its inner edge lies lower than the ground face. \
         What rests on that edge is left blank; measure it by hand.",
    );
    clips.into_iter().chain(concave).collect()
}

/// What is typed and chosen about a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoForm {
    /// What gives the scale.
    pub way: Way,
    /// What it shows.
    pub shows: Shows,
    /// The thickness as typed; empty is what the piece asks for.
    pub thickness: String,
    /// How far two marks on a ruler are apart, as typed.
    pub length: String,
    /// Dots per inch of a scan, as typed; empty is what the file tells.
    pub dots: String,
    /// Places in pixels that are marked by hand, as many as the way has.
    pub marks: Option<Vec<Dot>>,
    /// Whether its clips are said to hang over the edge of a board, so that it lies flat.
    pub is_over_edge: bool,
    /// Whether it is said to have calks or studs at the heels.
    pub has_calks: bool,
    /// Places of the edge that were put right by hand, in pixels.
    pub edge_points: Vec<Dot>,
    /// See [`PhotoHead::outer_is_right`].
    pub outer_is_right: Option<bool>,
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
    /// Whether its clips hang over an edge.
    OverEdge,
    /// Whether it has calks or studs.
    Calks,
}

impl PhotoForm {
    /// Whether a drawn outline is measured: of a scan nothing else can be.
    pub fn is_drawn(&self) -> bool {
        self.shows == Shows::Drawing || self.way == Way::Scan
    }

    /// The face of the shoe that lies up; a drawing is taken for one of the ground face.
    pub fn face(&self) -> Face {
        if self.shows == Shows::Foot && !self.is_drawn() {
            Face::Foot
        } else {
            Face::Ground
        }
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
    let hidden = hidden(head, form)?;
    let corners = form.marks.as_deref().filter(|_| form.way != Way::Ruler);
    let topic = Topic {
        about: format!("photo {marking}"),
        version: run.to_string(),
    };
    let wanted = PhotoWanted {
        photo,
        scale,
        face: form.face(),
        is_drawn: form.is_drawn(),
        thickness,
        unsure,
        corners: corners.and_then(|corners| corners.try_into().ok()),
        is_concave: head.is_concave,
        hidden,
        edge_points: if form.is_drawn() {
            Vec::new()
        } else {
            form.edge_points.clone()
        },
    };
    Ok((topic, Job::Photo(wanted)))
}
