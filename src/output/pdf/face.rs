use std::collections::HashMap;
use std::rc::Rc;

use harfrust::{BufferFlags, Direction, FontRef, ShaperData, UnicodeBuffer};
use num_traits::ToPrimitive;

use super::PdfError;

/// The regular face as TrueType.
pub(super) const REGULAR: &[u8] = include_bytes!("../fonts/noto-sans-regular.ttf");
/// The bold face as TrueType.
pub(super) const BOLD: &[u8] = include_bytes!("../fonts/noto-sans-bold.ttf");

/// Stands in both faces for a character that they lack.
const BOX: &str = "\u{fffd}";

/// One of the two faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Face {
    /// Noto Sans Regular.
    Regular,
    /// Noto Sans Bold.
    Bold,
}

/// A glyph as it stands in a text; measures are in ems.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Glyph {
    /// Its number in the face.
    pub(super) id: u32,
    /// How far the next one is.
    pub(super) advance: f32,
    /// How far it stands to the right of its place.
    pub(super) right: f32,
    /// How far it stands above its place.
    pub(super) up: f32,
    /// First byte of the text that it shows.
    pub(super) start: usize,
    /// The byte after the text that it shows.
    pub(super) end: usize,
    /// Whether it is the box of a character that the face lacks.
    pub(super) is_box: bool,
}

/// Both faces, and the words that were shaped already.
pub(super) struct Faces {
    regular: Shaper,
    bold: Shaper,
}

struct Shaper {
    font: FontRef<'static>,
    data: ShaperData,
    box_glyph: u32,
    known: HashMap<String, Rc<[Glyph]>>,
}

impl Faces {
    /// Reads both faces.
    ///
    /// *Errors:* [`PdfError::Face`] where a built-in file is broken.
    pub(super) fn new() -> Result<Self, PdfError> {
        Ok(Self {
            regular: Shaper::new(REGULAR)?,
            bold: Shaper::new(BOLD)?,
        })
    }

    /// The glyphs of a text without line ends, from left to right.
    pub(super) fn shape(&mut self, face: Face, text: &str) -> Rc<[Glyph]> {
        let shaper = match face {
            Face::Regular => &mut self.regular,
            Face::Bold => &mut self.bold,
        };
        shaper.shape(text)
    }

    /// How wide a text is at this size, in points.
    pub(super) fn width(&mut self, face: Face, size: f32, text: &str) -> f32 {
        let glyphs = self.shape(face, text);
        glyphs.iter().map(|glyph| glyph.advance * size).sum()
    }

    /// The characters of `text` that the faces lack; both hold the same ones.
    pub(super) fn lacks(&mut self, text: &str) -> Vec<char> {
        let mut bytes = [0; 4];
        let lacks = |c: &char| {
            let glyphs = self.shape(Face::Regular, c.encode_utf8(&mut bytes));
            glyphs.iter().any(|glyph| glyph.is_box)
        };
        text.chars().filter(lacks).collect()
    }
}

impl Shaper {
    fn new(bytes: &'static [u8]) -> Result<Self, PdfError> {
        let font = FontRef::new(bytes).map_err(|error| PdfError::Face(error.to_string()))?;
        let mut shaper = Self {
            data: ShaperData::new(&font),
            font,
            box_glyph: 0,
            known: HashMap::new(),
        };
        let sign = shaper.shape(BOX);
        shaper.box_glyph = sign.first().map_or(0, |glyph| glyph.id);
        shaper.known.clear();
        Ok(shaper)
    }

    fn shape(&mut self, text: &str) -> Rc<[Glyph]> {
        if let Some(known) = self.known.get(text) {
            return known.clone();
        }
        let glyphs: Rc<[Glyph]> = self.shaped(text).into();
        self.known.insert(text.to_owned(), glyphs.clone());
        glyphs
    }

    fn shaped(&self, text: &str) -> Vec<Glyph> {
        let shaper = self.data.shaper(&self.font).build();
        let em = shaper.units_per_em().to_f32().unwrap_or(1000.0);
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_flags(BufferFlags::REMOVE_DEFAULT_IGNORABLES);
        let shaped = shaper.shape(buffer, &[]);
        let ems = |units: i32| units.to_f32().unwrap_or(0.0) / em;
        let mut glyphs: Vec<Glyph> = Vec::new();
        let (mut start, mut end) = (text.len(), text.len());
        let placed = shaped.glyph_infos().iter().zip(shaped.glyph_positions());
        for (info, position) in placed.rev() {
            let own = usize::try_from(info.cluster).unwrap_or(start);
            if own < start {
                (start, end) = (own, start);
            }
            let is_box = info.glyph_id == 0 || info.glyph_id == self.box_glyph;
            glyphs.push(Glyph {
                id: if is_box {
                    self.box_glyph
                } else {
                    info.glyph_id
                },
                advance: if is_box { 1.0 } else { ems(position.x_advance) },
                right: ems(position.x_offset),
                up: ems(position.y_offset),
                start,
                end,
                is_box,
            });
        }
        glyphs.reverse();
        // What is not drawn at the start of a text belongs to the first glyph.
        let first = glyphs.first().map_or(0, |glyph| glyph.start);
        for glyph in glyphs.iter_mut().take_while(|glyph| glyph.start == first) {
            glyph.start = 0;
        }
        glyphs
    }
}
