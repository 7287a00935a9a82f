use super::prose::after_heading;
use super::{BODY, LEADING, Lay, bold};
use crate::output::pdf::line::{Run, Span, Style};
use crate::output::pdf::rows::{base_line, flowing, hold};
use crate::output::pdf::strip::{Keep, Kind, Mark, Strip, What};
use crate::output::pdf::tags::{NodeId, Role};
use crate::sheet::Item;

/// How far an item's text stands in.
const INDENT: f32 = 11.0;
/// An item of so many lines stays whole.
const WHOLE: usize = 7;

/// A list with discs.
pub(super) fn lay(lay: &mut Lay<'_>, items: &[Item]) {
    let list = lay.node(lay.root, Role::List { has_discs: true });
    let mut above = after_heading(lay);
    for item in items {
        let body = begin(lay, list);
        let mut strips = match item.lines.as_slice() {
            [line] if !item.lead.is_empty() => run_in(lay, &item.lead, line, body.node),
            lines => under(lay, &item.lead, lines, body.node),
        };
        body.disc_on(&mut strips, 0.0);
        let is_short = strips.len() <= WHOLE;
        if let ([short @ .., _], true) = (strips.as_mut_slice(), is_short) {
            hold(short, Keep::Wish);
        }
        lay.push(strips, above);
        above = 2.0;
    }
}

/// The lead, and its lines below it.
fn under(lay: &mut Lay<'_>, lead: &str, lines: &[String], body: NodeId) -> Vec<Strip> {
    let mut strips = Vec::new();
    if !lead.is_empty() {
        let node = lay.node(Some(body), Role::Strong);
        strips = lay.flow(lead, bold(BODY), LEADING, node, INDENT);
        if let (Some(last), false) = (strips.last_mut(), lines.is_empty()) {
            last.keep = Keep::Must;
        }
    }
    for line in lines {
        let node = lay.node(Some(body), Role::Paragraph);
        strips.append(&mut lay.flow(line, BODY, LEADING, node, INDENT));
    }
    strips
}

/// A lead and its only line in one paragraph.
fn run_in(lay: &mut Lay<'_>, lead: &str, line: &str, body: NodeId) -> Vec<Strip> {
    let nodes = [Role::Strong, Role::Paragraph].map(|role| lay.node(Some(body), role));
    let lead = format!("{lead}: ");
    let spans = [Span::new(&lead, bold(BODY)), Span::new(line, BODY)];
    let width = lay.width - INDENT;
    let column = lay.column(&spans, nodes.to_vec(), INDENT, width);
    flowing(&column, LEADING, Kind::Text)
}

/// A list of one text an item, from `x` on, as a notice has it.
pub(super) fn plain(
    lay: &mut Lay<'_>,
    parent: Option<NodeId>,
    items: &[String],
    style: Style,
    x: f32,
) -> Vec<Strip> {
    let list = lay.node(parent, Role::List { has_discs: true });
    let mut all = Vec::new();
    for item in items {
        let body = begin(lay, list);
        let mut strips = lay.flow(item, style, LEADING, body.node, x + INDENT);
        body.disc_on(&mut strips, x);
        all.append(&mut strips);
    }
    all
}

struct Begun {
    disc: NodeId,
    run: Run,
    node: NodeId,
}

fn begin(lay: &mut Lay<'_>, list: NodeId) -> Begun {
    let item = lay.node(Some(list), Role::Item);
    Begun {
        disc: lay.node(Some(item), Role::Label),
        run: Run::of(lay.faces, "• ", BODY),
        node: lay.node(Some(item), Role::Body),
    }
}

impl Begun {
    /// Sets the disc beside the first line, or on a line of its own if there is none.
    fn disc_on(self, strips: &mut Vec<Strip>, x: f32) {
        if strips.is_empty() {
            strips.push(Strip::new(Kind::Text, LEADING));
        }
        if let Some(first) = strips.first_mut() {
            first.marks.push(Mark {
                x,
                y: base_line(LEADING, self.run.style.size),
                node: Some(self.disc),
                what: What::Words {
                    run: self.run,
                    has_halo: false,
                },
            });
        }
    }
}
