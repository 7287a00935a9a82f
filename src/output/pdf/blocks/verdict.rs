use super::{BODY, GAP, LEADING, Lay, bold, drawings};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Span, Style};
use crate::output::pdf::rows::{Side, rows};
use crate::output::pdf::strip::{Keep, Kind, Strip, bar};
use crate::output::pdf::tags::Role;
use crate::output::pdf::words::Measured;
use crate::sheet::Verdict;

/// The award and the marks.
const LARGE: Style = Style {
    size: 19.0,
    ..bold(BODY)
};
/// Height of their line.
const LARGE_LEADING: f32 = 24.0;
/// From a rule to what is below it.
const PAD: f32 = 4.0;

/// The award in large letters, the marks at the right, what decides it below, and the
/// marks on a ruler; all on one page.
pub(super) fn lay(lay: &mut Lay<'_>, verdict: &Verdict) {
    let mut strips = head(lay, verdict);
    let node = lay.node(lay.root, Role::Paragraph);
    strips.append(&mut lay.flow(&verdict.rest, BODY, LEADING, node, 0.0));
    let width = lay.width;
    if let Some(first) = strips.first_mut() {
        first.marks.iter_mut().for_each(|mark| mark.y += PAD);
        first.height += PAD;
        first.marks.push(bar(0.0, 0.0, width, 2.0, Ink::BLACK));
    }
    if let Some(last) = strips.last_mut() {
        let y = last.height + PAD;
        last.marks.push(bar(0.0, y, width, 2.0, Ink::BLACK));
        last.height = y + 2.0;
    }
    let mut ruler = drawings::figure(lay, lay.root, &verdict.ruler, 0.0, width);
    ruler.above = 7.0;
    strips.push(ruler);
    let last = strips.len().saturating_sub(1);
    for (at, strip) in strips.iter_mut().enumerate() {
        strip.kind = Kind::Verdict;
        strip.keep = if at < last { Keep::Wish } else { Keep::Free };
    }
    lay.push(strips, GAP + 3.0);
}

fn head(lay: &mut Lay<'_>, verdict: &Verdict) -> Vec<Strip> {
    let award = lay.node(lay.root, Role::Paragraph);
    let marks = lay.node(lay.root, Role::Paragraph);
    let nodes = vec![
        lay.node(Some(marks), Role::Strong),
        lay.node(Some(marks), Role::Words),
    ];
    let quiet = Style {
        ink: Ink::QUIET,
        size: 11.0,
        ..BODY
    };
    let given = [
        Span::new(&format!("{} ", verdict.marks), LARGE),
        Span::new(&verdict.out_of, quiet),
    ];
    let right = Measured::of(lay.faces, &given).line().min(lay.width / 2.0) + 1.0;
    let left = lay.width - right - 12.0;
    let spans = [Span::new(&verdict.award, LARGE)];
    let award = lay.column(&spans, vec![award], 0.0, left);
    let mut marks = lay.column(&given, nodes, left + 12.0, right);
    marks.side = Side::Right;
    rows(&[award, marks], LARGE_LEADING, Kind::Verdict)
}
