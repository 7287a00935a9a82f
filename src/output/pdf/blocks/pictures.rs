use imagesize::blob_size;

use super::drawings::{GUTTER, stood};
use super::prose::after_heading;
use super::{Lay, SMALL};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Run, Span};
use crate::output::pdf::rows::base_line;
use crate::output::pdf::strip::{Kind, Mark, Outline, Pen, Strip, What};
use crate::output::pdf::tags::Role;
use crate::records::Media;
use crate::sheet::Pictured;

/// Height of the frame that stands for a picture.
const FRAME: f32 = 30.0;
/// What it says.
const NOT_HERE: &str = "not in this file";
/// No picture is higher: two rows of them go on a page.
const HIGHEST: f32 = 300.0;

/// Pictures two by two, whole and unturned, with what is written under each. A document
/// names them; a frame stands for one that is not at hand or cannot be opened.
pub(super) fn lay(lay: &mut Lay<'_>, pictures: &[Pictured]) {
    let width = (lay.width - GUTTER) / 2.0;
    let mut above = after_heading(lay);
    for row in pictures.chunks(2) {
        let mut set = Vec::new();
        let (mut x, mut high) = (0.0, 0.0f32);
        for picture in row {
            let alt = match picture.alt.trim() {
                "" => "A picture".to_owned(),
                alt => alt.to_owned(),
            };
            let node = lay.node(lay.root, Role::Figure { alt });
            let (what, height) = shown(lay, &picture.digest, width);
            let mut strip = Strip::new(Kind::Pictures, height);
            strip.marks.push(Mark {
                x,
                y: 0.0,
                node: Some(node),
                what,
            });
            let under = lay.node(lay.root, Role::Paragraph);
            let spans = [Span::new(&picture.caption, SMALL)];
            set.push((strip, lay.column(&spans, vec![under], x, width)));
            x += width + GUTTER;
            high = high.max(height);
        }
        lay.push(stood(set, high, Kind::Pictures), above);
        above = 10.0;
    }
}

/// The picture, or the frame that stands for it, at most so wide; with its height.
fn shown(lay: &mut Lay<'_>, digest: &str, width: f32) -> (What, f32) {
    let found = lay.at_hand.get(digest);
    let found = found.and_then(|bytes| Some((bytes, fitted(bytes, width)?)));
    match found {
        Some((bytes, size)) => {
            let bytes = bytes.clone();
            (What::Picture { bytes, size }, size.1)
        }
        None => (What::Figure(frame(lay, width)), FRAME),
    }
}

/// Width and height in points of a picture that is to be at most `width` wide and
/// [`HIGHEST`] high; `None` where its head cannot be read.
fn fitted(bytes: &[u8], width: f32) -> Option<(f32, f32)> {
    Media::of(bytes)?;
    let size = blob_size(bytes).ok()?;
    let side = |pixels: usize| u16::try_from(pixels).ok().filter(|side| *side > 0);
    let (own_width, own_height) = (f32::from(side(size.width)?), f32::from(side(size.height)?));
    let scale = (width / own_width).min(HIGHEST / own_height);
    Some((own_width * scale, own_height * scale))
}

fn frame(lay: &mut Lay<'_>, width: f32) -> Vec<Mark> {
    let rect = kurbo::Rect::new(0.0, 0.0, f64::from(width), f64::from(FRAME));
    let run = Run::of(lay.faces, NOT_HERE, SMALL);
    let mark = |x, y, what| Mark {
        x,
        y,
        node: None,
        what,
    };
    vec![
        mark(
            0.0,
            0.0,
            What::Shape(Outline {
                path: kurbo::Shape::to_path(&rect, 0.1),
                fill: None,
                pen: Some(Pen::new(Ink::HAIR, 0.5)),
            }),
        ),
        mark(
            (width - run.width()) / 2.0,
            base_line(FRAME, SMALL.size),
            What::Words {
                run,
                has_halo: false,
            },
        ),
    ]
}
