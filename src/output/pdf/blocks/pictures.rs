use super::drawings::{GUTTER, stood};
use super::prose::after_heading;
use super::{Lay, SMALL};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Run, Span};
use crate::output::pdf::rows::base_line;
use crate::output::pdf::strip::{Kind, Mark, Outline, Pen, Strip, What};
use crate::output::pdf::tags::Role;
use crate::sheet::Pictured;

/// Height of the frame that stands for a picture.
const FRAME: f32 = 30.0;
/// What it says.
const NOT_HERE: &str = "not in this file";

/// Pictures side by side. A document names them and does not hold them, so a frame stands
/// for each, with what is written under it.
pub(super) fn lay(lay: &mut Lay<'_>, pictures: &[Pictured]) {
    let width = (lay.width - GUTTER) / 2.0;
    let mut above = after_heading(lay);
    for row in pictures.chunks(2) {
        let mut set = Vec::new();
        let mut x = 0.0;
        for picture in row {
            let alt = match picture.alt.trim() {
                "" => "A picture".to_owned(),
                alt => alt.to_owned(),
            };
            let node = lay.node(lay.root, Role::Figure { alt });
            let mut strip = Strip::new(Kind::Pictures, FRAME);
            strip.marks.push(Mark {
                x,
                y: 0.0,
                node: Some(node),
                what: What::Figure(frame(lay, width)),
            });
            let under = lay.node(lay.root, Role::Paragraph);
            let spans = [Span::new(&picture.caption, SMALL)];
            set.push((strip, lay.column(&spans, vec![under], x, width)));
            x += width + GUTTER;
        }
        lay.push(stood(set, FRAME, Kind::Pictures), above);
        above = 10.0;
    }
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
