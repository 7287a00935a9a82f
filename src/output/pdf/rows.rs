use super::line::Line;
use super::strip::{Keep, Kind, Mark, Strip, What};
use super::tags::NodeId;

/// Where text stands in its column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// At its left edge.
    Left,
    /// At its right edge.
    Right,
}

/// Lines in a column.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Column {
    /// Left edge of the column, in points.
    pub(super) x: f32,
    /// Width of the column, in points.
    pub(super) width: f32,
    /// Where the lines stand in it.
    pub(super) side: Side,
    /// The lines.
    pub(super) lines: Vec<Line>,
    /// What each span of the lines is a part of; the last one holds for those after it.
    pub(super) nodes: Vec<NodeId>,
}

impl Column {
    fn node(&self, span: usize) -> Option<NodeId> {
        self.nodes.get(span).or(self.nodes.last()).copied()
    }
}

/// Columns side by side, a strip for each line, which wish to stay together. The strips
/// are at least one.
pub(super) fn rows(columns: &[Column], leading: f32, kind: Kind) -> Vec<Strip> {
    let count = columns.iter().map(|column| column.lines.len()).max();
    let mut strips = Vec::new();
    for at in 0..count.unwrap_or(0).max(1) {
        let mut strip = Strip::new(kind, leading);
        strip.keep = Keep::Wish;
        for column in columns {
            let Some(line) = column.lines.get(at) else {
                continue;
            };
            strip.marks.extend(words(column, line, leading));
        }
        strips.push(strip);
    }
    if let Some(last) = strips.last_mut() {
        last.keep = Keep::Free;
    }
    strips
}

/// The lines of a paragraph: neither the first nor the last one alone on a page.
pub(super) fn flowing(column: &Column, leading: f32, kind: Kind) -> Vec<Strip> {
    let mut strips = rows(std::slice::from_ref(column), leading, kind);
    let count = strips.len();
    for (at, strip) in strips.iter_mut().enumerate() {
        let is_edge = at == 0 || at + 2 == count;
        if !is_edge {
            strip.keep = Keep::Free;
        }
    }
    strips
}

fn words<'a>(column: &'a Column, line: &'a Line, leading: f32) -> impl Iterator<Item = Mark> + 'a {
    let mut x = match column.side {
        Side::Left => column.x,
        Side::Right => column.x + (column.width - line.width).max(0.0),
    };
    let sizes = line.runs.iter().map(|run| run.style.size);
    let y = base_line(leading, sizes.fold(0.0, f32::max));
    line.runs.iter().map(move |run| {
        let mark = Mark {
            x,
            y,
            node: column.node(run.span),
            what: What::Words {
                run: run.clone(),
                has_halo: false,
            },
        };
        x += run.width();
        mark
    })
}

/// Where the base line stands so that capitals are in the middle of a line; they are
/// 0.714 em high.
pub(super) fn base_line(leading: f32, size: f32) -> f32 {
    (leading + 0.714 * size) / 2.0
}

/// Lets every strip stay with the next one, the last one too.
pub(super) fn hold(strips: &mut [Strip], keep: Keep) {
    for strip in strips {
        strip.keep = strip.keep.max(keep);
    }
}
