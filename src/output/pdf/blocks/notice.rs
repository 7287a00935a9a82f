use super::prose::after_heading;
use super::{BODY, LEADING, Lay, bold, items};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::rows;
use crate::output::pdf::strip::{Keep, Kind, bar};
use crate::output::pdf::tags::Role;
use crate::sheet::{Notice, Weight};

/// How far its text stands in.
const INDENT: f32 = 13.0;
/// White within it, above and below.
const PAD: f32 = 3.0;

/// A notice: a bar beside it and a word before it say how much it weighs, whole on a page
/// where it fits on one.
pub(super) fn lay(lay: &mut Lay<'_>, notice: &Notice) {
    let (word, thick, style) = match notice.weight {
        Weight::Info => ("Note. ", 1.5, BODY),
        Weight::Warn => ("Look here. ", 4.0, BODY),
        Weight::Stop => ("Stop. ", 7.0, bold(BODY)),
    };
    let paragraph = lay.node(lay.root, Role::Paragraph);
    let nodes = vec![
        lay.node(Some(paragraph), Role::Strong),
        lay.node(Some(paragraph), Role::Words),
    ];
    let spans = [Span::new(word, bold(BODY)), Span::new(&notice.text, style)];
    let width = lay.width - INDENT;
    let column = lay.column(&spans, nodes, INDENT, width);
    let mut strips = rows(&[column], LEADING, Kind::Notice);
    if !notice.items.is_empty() {
        strips.append(&mut items::plain(
            lay,
            lay.root,
            &notice.items,
            style,
            INDENT,
        ));
    }
    let last = strips.len().saturating_sub(1);
    let ink = match notice.weight {
        Weight::Info => Ink::HAIR,
        Weight::Warn | Weight::Stop => Ink::BLACK,
    };
    for (at, strip) in strips.iter_mut().enumerate() {
        strip.kind = Kind::Notice;
        if at == 0 {
            strip.height += PAD;
            strip.marks.iter_mut().for_each(|mark| mark.y += PAD);
        }
        if at == last {
            strip.height += PAD;
        } else {
            strip.keep = Keep::Wish;
        }
        strip.marks.push(bar(0.0, 0.0, thick, strip.height, ink));
    }
    lay.push(strips, after_heading(lay));
}
