use super::{Lay, SMALL, SMALL_LEADING};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::{hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Strip, bar};
use crate::output::pdf::tags::Role;

/// White between two lines to sign on.
const GUTTER: f32 = 24.0;
/// Room for a signature above its line.
const ROOM: f32 = 30.0;

/// Lines to sign on with what is written under them, two or three side by side, all on one
/// page with the end of what is above them.
pub(super) fn lay(lay: &mut Lay<'_>, signs: &[String]) {
    let mut all: Vec<Strip> = Vec::new();
    let (across, columns) = match signs.len() {
        1 | 2 | 4 => (2, 2.0),
        _ => (3, 3.0),
    };
    let width = (lay.width - GUTTER * (columns - 1.0)) / columns;
    for row in signs.chunks(across) {
        let mut under = Vec::new();
        let mut room = Strip::new(Kind::Signatures, ROOM);
        let mut x = 0.0;
        for sign in row {
            let node = lay.node(lay.root, Role::Paragraph);
            room.marks.push(bar(x, ROOM, width, 0.7, Ink::BLACK));
            under.push(lay.column(&[Span::new(sign, SMALL)], vec![node], x, width));
            x += width + GUTTER;
        }
        all.push(room);
        let mut under = rows(&under, SMALL_LEADING, Kind::Signatures);
        if let Some(first) = under.first_mut() {
            first.above = 3.0;
        }
        all.append(&mut under);
    }
    hold(&mut all, Keep::Wish);
    if let Some(last) = all.last_mut() {
        last.keep = Keep::Free;
    }
    // Nobody signs a page that says nothing.
    if let Some(before) = lay.strips.last_mut() {
        before.keep = before.keep.max(Keep::Wish);
    }
    lay.push(all, 8.0);
}
