use std::collections::BTreeMap;

use super::edge_points::edge_note;
use super::form::{PhotoForm, PhotoHead};
use super::outline::kept_outline;
use super::rows::Fill;
use super::ways::{WAYS, Way};
use crate::command::Edit;
use crate::gauge::sheet::Sheet;
use crate::gauge::{Face, Measured, Shown};
use crate::marking::{
    InstrumentFact, OutlineFault, PHOTO_GAUGE, PHOTO_GAUGE_ANGLES, ReadingFact, Stated,
};
use crate::present::start::sentence;
use crate::quantity::Dimension;
use crate::records::Photo;

/// Nothing is told as surer than this, in mm or degrees.
const LEAST: f64 = 0.001;

/// The photo that was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoFile {
    /// SHA-256 of the file that was chosen, in hexadecimal.
    pub digest: String,
    /// Digest of the reduced picture that stays with the piece.
    pub kept: String,
}

/// What the photo shows, as it stands beside it.
pub fn photo_note(head: &PhotoHead, form: &PhotoForm, file: &PhotoFile) -> String {
    let by_hand = if form.marks.is_some() && !form.way.needs_marks() {
        ", corners marked by hand"
    } else {
        ""
    };
    let name = WAYS.iter().find(|(way, ..)| *way == form.way);
    let name = name.map_or("", |(_, name, _)| name);
    let scale = match form.way {
        Way::Sheet(Sheet::Card) => "card beside it".to_owned(),
        Way::Sheet(_) => format!("sheet {name}"),
        Way::Ruler => format!("two marks on a ruler, {} apart", form.length.trim()),
        Way::Scan if form.dots.trim().is_empty() => "scan, as fine as its file tells".to_owned(),
        Way::Scan => format!("scan of {} dots per inch", form.dots.trim()),
    };
    let typed = form.thickness.trim();
    let shows = if form.is_drawn() {
        "a drawn outline".to_owned()
    } else if typed.is_empty() {
        format!("shoe {} thick as asked for", head.thickness_words)
    } else {
        format!("shoe {typed} thick as measured")
    };
    let face = match form.face() {
        Face::Ground => "",
        Face::Foot => ", foot side up",
    };
    let edge = if form.is_over_edge && !form.is_drawn() && head.asks_for_edge(form.shows) {
        ", the clip over the edge of a board"
    } else {
        ""
    };
    let calks = if form.has_calks && !form.is_drawn() {
        ", calks or studs at the heels"
    } else {
        ""
    };
    let points = if form.is_drawn() {
        String::new()
    } else {
        edge_note(form.edge_points.len())
    };
    format!(
        "Measured with the photo gauge: {scale}{by_hand}, {shows}{face}{edge}{calks}{points}. SHA-256 of the photo as it was \
         chosen: {}",
        file.digest
    )
}

/// What is entered when readings are taken from a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Taking {
    /// The readings with the outline that they were read off, then the photo itself.
    pub edits: [Edit; 2],
    /// What is said once it is done.
    pub said: String,
}

/// What is entered when these readings are taken from a photo.
///
/// *Shape:* `shoe` is the id of the shoe, where the piece has several.
pub fn taking(
    note: &str,
    file: &PhotoFile,
    shoe: Option<&str>,
    shown: &Shown,
    fills: &[Fill],
) -> Taking {
    let mut readings = BTreeMap::new();
    let mut instruments = BTreeMap::new();
    for fill in fills {
        let (id, instrument) = gauge(fill.feature.is_angle(), file);
        let unit = match instrument.measures {
            Dimension::Angle => "deg",
            _ => "mm",
        };
        let each = fill.measured.iter();
        let each = each.map(|measured| reading(measured, unit, &id)).collect();
        readings.insert(fill.slot.clone(), each);
        instruments.insert(id, instrument);
    }
    let photo = Photo {
        picture: file.kept.clone(),
        note: note.to_owned(),
    };
    let outline = kept_outline(shown, shoe, &file.kept);
    Taking {
        said: said(fills.len(), outline.as_ref().err()),
        edits: [
            Edit::TakeReadings {
                readings,
                instruments,
                outline: outline.ok(),
            },
            Edit::AddPhoto { photo },
        ],
    }
}

/// That readings are taken, and why the outline is not.
fn said(count: usize, lost: Option<&OutlineFault>) -> String {
    let readings = match count {
        1 => "1 reading is".to_owned(),
        count => format!("{count} readings are"),
    };
    let lost = lost.map(|why| {
        format!(
            " The outline is not kept, so this shoe cannot be laid over another later: {}",
            sentence(&why.to_string())
        )
    });
    format!(
        "{readings} on the mark sheet, and the photo with them.{}",
        lost.unwrap_or_default()
    )
}

fn reading(measured: &Measured, unit: &str, id: &str) -> ReadingFact {
    let shared = measured.shared;
    ReadingFact {
        instrument: Some(id.to_owned()),
        stated: Some(Stated {
            own: format!("{:.3} {unit}", measured.own.max(LEAST)),
            shared: (shared.abs() >= LEAST).then(|| format!("{shared:.3} {unit}")),
        }),
        ..ReadingFact::of(format!("{:.2} {unit}", measured.value))
    }
}

/// The gauge as an instrument, with its id. What its figures say in general counts only where a
/// reading states none of its own.
fn gauge(is_angle: bool, file: &PhotoFile) -> (String, InstrumentFact) {
    let (id, measures, usual) = if is_angle {
        (PHOTO_GAUGE_ANGLES, Dimension::Angle, "0.3 deg")
    } else {
        (PHOTO_GAUGE, Dimension::Length, "0.3 mm")
    };
    let fact = InstrumentFact {
        name: "Photo gauge".to_owned(),
        measures,
        half_width: None,
        shape: None,
        level_share: None,
        standard_uncertainty: Some(usual.to_owned()),
        repeatability: None,
        shared: None,
        source: format!(
            "each reading states its own uncertainty; photo with SHA-256 {}",
            file.digest
        ),
    };
    (id.to_owned(), fact)
}
