use super::{BODY, GAP, LEADING, Lay, SMALL, SMALL_LEADING, bold};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Span, Style};
use crate::output::pdf::rows::{flowing, hold, rows};
use crate::output::pdf::strip::{Keep, Kind, bar};
use crate::output::pdf::tags::Role;

/// The title with the line under it.
pub(super) fn title(lay: &mut Lay<'_>, title: &str, about: &str) {
    let style = Style {
        size: 17.0,
        ..bold(BODY)
    };
    if !title.trim().is_empty() {
        headed(lay, 1, title, style, 21.0, 0.0);
    }
    if !about.trim().is_empty() {
        let node = lay.node(lay.root, Role::Paragraph);
        let strips = lay.flow(
            about,
            Style {
                ink: Ink::QUIET,
                ..BODY
            },
            LEADING,
            node,
            0.0,
        );
        lay.push(strips, 2.0);
    }
}

/// A heading; level 2 has a rule under it.
pub(super) fn heading(lay: &mut Lay<'_>, level: u8, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    if level > 2 {
        let style = Style {
            size: 10.0,
            ..bold(BODY)
        };
        headed(lay, 3, text, style, 13.5, 10.0);
        return;
    }
    let style = Style {
        size: 12.5,
        ..bold(BODY)
    };
    headed(lay, 2, text, style, 16.0, 9.0);
    let width = lay.width;
    if let Some(last) = lay.strips.last_mut() {
        last.marks
            .push(bar(0.0, last.height + 1.5, width, 0.8, Ink::BLACK));
        last.height += 2.5;
    }
}

fn headed(lay: &mut Lay<'_>, level: u16, text: &str, style: Style, leading: f32, above: f32) {
    let title = text.to_owned();
    let node = lay.node(lay.root, Role::Heading { level, title });
    let width = lay.width;
    let column = lay.column(&[Span::new(text, style)], vec![node], 0.0, width);
    let mut strips = rows(&[column], leading, Kind::Heading);
    hold(&mut strips, Keep::Must);
    lay.push(strips, above);
}

/// A paragraph.
pub(super) fn paragraph(lay: &mut Lay<'_>, text: &str) {
    let node = lay.node(lay.root, Role::Paragraph);
    let strips = lay.flow(text, BODY, LEADING, node, 0.0);
    lay.push(strips, after_heading(lay));
}

/// A long code: what it is, and its groups.
pub(super) fn code(lay: &mut Lay<'_>, label: &str, groups: &[String]) {
    let paragraph = lay.node(lay.root, Role::Paragraph);
    let nodes = vec![
        lay.node(Some(paragraph), Role::Words),
        lay.node(Some(paragraph), Role::Words),
    ];
    let spans = [
        Span::new(&format!("{label} "), SMALL),
        Span::new(
            &groups.join(" "),
            Style {
                ink: Ink::BLACK,
                ..SMALL
            },
        ),
    ];
    let width = lay.width;
    let column = lay.column(&spans, nodes, 0.0, width);
    let strips = flowing(&column, SMALL_LEADING, Kind::Text);
    lay.push(strips, after_heading(lay));
}

/// White above a block: less where a heading is above it.
pub(super) fn after_heading(lay: &Lay<'_>) -> f32 {
    match lay.strips.last() {
        Some(strip) if strip.kind == Kind::Heading => 4.0,
        _ => GAP,
    }
}
