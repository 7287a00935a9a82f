use num_traits::ToPrimitive;

use super::cells::{PAD, ROW_LEADING, band_width, cell, style};
use super::drawings::figure;
use super::prose::after_heading;
use super::widths::{Need, Text, widths};
use super::{BODY, LEADING, Lay, bold};
use crate::output::pdf::ink::Ink;
use crate::output::pdf::line::{Span, lines};
use crate::output::pdf::rows::{Column, Side, hold, rows};
use crate::output::pdf::strip::{Keep, Kind, Mark, Strip, bar};
use crate::output::pdf::tags::{NodeId, Role};
use crate::output::pdf::words::Measured;
use crate::sheet::{Cell, CellRole, Group, Table};

/// White above and below the text of a row.
const ROW_PAD: f32 = 1.5;
/// The most width of a drawing under a cell's text.
const DRAWING: f32 = 76.0;
/// White between a cell's text and the drawing under it.
const ABOVE_DRAWING: f32 = 0.5;
/// The least width and height of room to write in by hand, 30 by 7 mm.
const ROOM: (f32, f32) = (85.0, 20.0);

/// A table: its head again on every page, no row apart from its head or alone on a page;
/// without its caption where it `repeats` what stands above it.
pub(super) fn lay(lay: &mut Lay<'_>, table: &Table, repeats: bool) {
    let above = after_heading(lay);
    let node = lay.node(lay.root, Role::Table);
    let places = places(lay, table);
    let mut laid = Laying {
        node,
        width: places.iter().map(|(_, width)| width).sum(),
        places,
        rows: Vec::new(),
    };
    let caption = if repeats {
        Vec::new()
    } else {
        laid.caption(lay, &table.caption)
    };
    let head = laid.head(lay, table);
    let body = lay.node(Some(node), Role::TableBody);
    for group in &table.groups {
        laid.group(lay, group, body);
    }
    if !table.foot.is_empty() {
        laid.foot(lay, &table.foot);
    }
    let again = lay.heads.len();
    lay.heads.push(head.clone());
    let mut strips = caption;
    strips.extend(head);
    strips.extend(together(laid.rows, again));
    if let Some(last) = strips.last_mut() {
        last.keep = Keep::Free;
    }
    lay.push(strips, above);
}

/// The strips of all rows: the first row wishes the second one beside it, the last but
/// one the last.
fn together(rows: Vec<Vec<Strip>>, again: usize) -> Vec<Strip> {
    let count = rows.len();
    let mut all = Vec::new();
    for (at, mut row) in rows.into_iter().enumerate() {
        let is_edge = at == 0 || at + 2 == count;
        if let (Some(last), true) = (row.last_mut(), is_edge) {
            last.keep = last.keep.max(Keep::Wish);
        }
        all.extend(row);
    }
    for strip in &mut all {
        strip.head = Some(again);
    }
    all
}

/// The left edge and width of each column.
fn places(lay: &mut Lay<'_>, table: &Table) -> Vec<(f32, f32)> {
    let mut needs = Vec::new();
    for (at, column) in table.columns.iter().enumerate() {
        let title = Cell::new(column.role, &*column.title);
        let head = needed(lay, &title, true);
        let rows = table.groups.iter().flat_map(|group| &group.rows);
        let cells = rows.filter_map(|row| row.get(at));
        let mut cells: Vec<Need> = cells.map(|cell| needed(lay, cell, false)).collect();
        let rows = cells.len();
        // What takes in the empty cells after it does not make its column wider.
        let next = table.foot.get(at + 1);
        let is_alone = next.is_none_or(|next| !next.text.is_empty());
        if let (Some(cell), true) = (table.foot.get(at), is_alone) {
            cells.push(needed(lay, cell, true));
        }
        needs.push(all_of(&head, cells, rows));
    }
    let mut x = 0.0;
    let places = widths(&needs, lay.width).into_iter().map(|width| {
        let place = (x, width);
        x += width;
        place
    });
    places.collect()
}

/// What a cell needs; a number stays in one line, unless it is very long.
fn needed(lay: &mut Lay<'_>, cell: &Cell, is_bold: bool) -> Need {
    let span = Span::new(&cell.text, style(cell.role, is_bold));
    let text = Measured::of(lay.faces, &[span]);
    let (word, line) = (text.word(), text.line());
    let around = band_width(cell) + 2.0 * PAD + 0.1;
    let is_whole = !is_bold && (cell.role == CellRole::Number || cell.band.is_some());
    let whole = if is_whole {
        line.min(lay.width / 4.0)
    } else {
        0.0
    };
    let other = match (cell.role, &cell.drawing) {
        (CellRole::Blank, _) => ROOM.0,
        (_, Some(_)) => DRAWING + 2.0 * PAD + 0.1,
        (_, None) => 0.0,
    };
    Need {
        least: other.max(word.max(whole) + around),
        most: other.max(line + around),
        cells: vec![Text {
            around,
            text,
            under: if cell.drawing.is_some() { 1.0 } else { 0.0 },
        }],
    }
}

/// What a column needs that has this head and these cells, the first `rows` of them in
/// rows of their own.
fn all_of(head: &Need, cells: Vec<Need>, rows: usize) -> Need {
    let larger = |one: f32, other: f32| one.max(other);
    Need {
        least: cells.iter().map(|cell| cell.least).fold(head.least, larger),
        most: cells.iter().map(|cell| cell.most).fold(head.most, larger),
        cells: cells
            .into_iter()
            .take(rows)
            .flat_map(|cell| cell.cells)
            .collect(),
    }
}

struct Laying {
    node: NodeId,
    places: Vec<(f32, f32)>,
    width: f32,
    rows: Vec<Vec<Strip>>,
}

impl Laying {
    fn caption(&self, lay: &mut Lay<'_>, text: &str) -> Vec<Strip> {
        if text.trim().is_empty() {
            return Vec::new();
        }
        let node = lay.node(Some(self.node), Role::Caption);
        let width = lay.width;
        let column = lay.column(&[Span::new(text, bold(BODY))], vec![node], 0.0, width);
        let mut strips = rows(&[column], LEADING, Kind::Caption);
        hold(&mut strips, Keep::Must);
        strips
    }

    fn head(&self, lay: &mut Lay<'_>, table: &Table) -> Vec<Strip> {
        let head = lay.node(Some(self.node), Role::TableHead);
        let row = lay.node(Some(head), Role::Row);
        let mut columns = Vec::new();
        for (column, place) in table.columns.iter().zip(&self.places) {
            let node = lay.node(Some(row), Role::ColumnName);
            let name = Cell::new(column.role, &*column.title);
            columns.push(cell(lay, &name, node, *place, true).0);
        }
        first_left(&mut columns, &self.places);
        // The names stand on the rule under them.
        let most = columns.iter().map(|column| column.lines.len()).max();
        for column in &mut columns {
            let short = most.unwrap_or(0).saturating_sub(column.lines.len());
            column.lines.splice(0..0, vec![Default::default(); short]);
        }
        let mut strips = padded(rows(&columns, ROW_LEADING, Kind::Head));
        hold(&mut strips, Keep::Must);
        rule(&mut strips, self.width, (1.0, Ink::BLACK));
        strips
    }

    fn group(&mut self, lay: &mut Lay<'_>, group: &Group, body: NodeId) {
        let mut heading = self.heading(lay, &group.heading, body);
        for row in &group.rows {
            let node = lay.node(Some(body), Role::Row);
            let cells: Vec<(&Cell, (f32, f32), u32)> = row
                .iter()
                .zip(&self.places)
                .map(|(cell, place)| (cell, *place, 1))
                .collect();
            let strips = set_row(lay, &cells, node, (false, Kind::Row));
            heading.extend(strips);
            self.rows.push(std::mem::take(&mut heading));
        }
        if !heading.is_empty() {
            self.rows.push(heading);
        }
    }

    /// The heading of a group, which stays with its first row.
    fn heading(&self, lay: &mut Lay<'_>, text: &str, body: NodeId) -> Vec<Strip> {
        if text.trim().is_empty() {
            return Vec::new();
        }
        let row = lay.node(Some(body), Role::Row);
        let columns = u32::try_from(self.places.len()).unwrap_or(1);
        let node = lay.node(Some(row), Role::RowName(columns));
        let room = self.width - 2.0 * PAD;
        let spans = [Span::new(text, style(CellRole::Text, true))];
        let column = Column {
            x: PAD,
            width: room,
            side: Side::Left,
            lines: lines(lay.faces, &spans, room),
            nodes: vec![node],
        };
        let mut strips = padded(rows(&[column], ROW_LEADING, Kind::Group));
        hold(&mut strips, Keep::Must);
        for strip in &mut strips {
            let behind = bar(0.0, 0.0, self.width, strip.height, Ink::WASH);
            strip.marks.insert(0, behind);
        }
        strips
    }

    /// The row at the foot: a cell takes the empty ones after it in.
    fn foot(&mut self, lay: &mut Lay<'_>, cells: &[Cell]) {
        let foot = lay.node(Some(self.node), Role::TableFoot);
        let row = lay.node(Some(foot), Role::Row);
        let mut wide: Vec<(&Cell, (f32, f32), u32)> = Vec::new();
        for (cell, place) in cells.iter().zip(&self.places) {
            match wide.last_mut() {
                Some((_, (_, width), columns)) if cell.text.is_empty() => {
                    *width += place.1;
                    *columns += 1;
                }
                _ => wide.push((cell, *place, 1)),
            }
        }
        let mut strips = set_row(lay, &wide, row, (true, Kind::Foot));
        if let Some(first) = strips.first_mut() {
            first
                .marks
                .push(bar(0.0, -0.5, self.width, 1.0, Ink::BLACK));
        }
        self.rows.push(strips);
    }
}

/// A row, a strip for each line.
fn set_row(
    lay: &mut Lay<'_>,
    cells: &[(&Cell, (f32, f32), u32)],
    row: NodeId,
    (is_bold, kind): (bool, Kind),
) -> Vec<Strip> {
    let mut columns = Vec::new();
    let mut signs: Vec<Mark> = Vec::new();
    let mut under: Vec<(usize, Strip)> = Vec::new();
    for (at, (own, place, wide)) in cells.iter().enumerate() {
        // Room to write in names no row.
        let role = if at == 0 && !own.text.is_empty() {
            Role::RowName(*wide)
        } else {
            Role::Value(*wide)
        };
        let node = lay.node(Some(row), role);
        let (column, mut sign) = cell(lay, own, node, *place, is_bold);
        if let Some(drawing) = &own.drawing {
            let room = place.1 - 2.0 * PAD;
            let width = room.min(DRAWING);
            let left = match column.side {
                Side::Left => 0.0,
                Side::Right => room - width,
            };
            let own = figure(lay, Some(node), drawing, place.0 + PAD + left, width);
            under.push((column.lines.len(), own));
        }
        columns.push(column);
        signs.append(&mut sign);
    }
    if let Some((_, place, _)) = cells.first() {
        first_left(&mut columns, &[*place]);
    }
    let mut strips = rows(&columns, ROW_LEADING, kind);
    if let Some(first) = strips.first_mut() {
        first.marks.append(&mut signs);
    }
    draw_under(&mut strips, under);
    let mut strips = padded(strips);
    leave_room(&mut strips, cells);
    if kind == Kind::Row {
        let right = cells.last().map_or(0.0, |(_, (x, width), _)| x + width);
        rule(&mut strips, right, (0.4, Ink::HAIR));
    }
    strips
}

/// Hangs drawings under so many lines of their cells, all on one page with them.
fn draw_under(strips: &mut [Strip], drawings: Vec<(usize, Strip)>) {
    for (lines, drawing) in drawings {
        let down = lines.to_f32().unwrap_or_default() * ROW_LEADING + ABOVE_DRAWING;
        let high: f32 = strips.iter().map(|strip| strip.height).sum();
        let marks = drawing.marks.into_iter();
        let marks = marks.map(|mark| Mark {
            y: mark.y + down,
            ..mark
        });
        if let Some(first) = strips.first_mut() {
            first.marks.extend(marks);
        }
        if let [held @ .., last] = &mut *strips {
            hold(held, Keep::Must);
            last.height += (down + drawing.height - high).max(0.0);
        }
    }
}

/// Makes a row high enough to write in where it has blank cells, each between two rules.
fn leave_room(strips: &mut [Strip], cells: &[(&Cell, (f32, f32), u32)]) {
    let blank = cells
        .iter()
        .filter(|(cell, ..)| cell.role == CellRole::Blank);
    let places: Vec<(f32, f32)> = blank.map(|(_, place, _)| *place).collect();
    let high: f32 = strips.iter().map(|strip| strip.height).sum();
    let (Some(last), false) = (strips.last_mut(), places.is_empty()) else {
        return;
    };
    last.height += (ROOM.1 - high).max(0.0);
    for strip in strips {
        for (x, width) in &places {
            for edge in [*x, x + width - 0.5] {
                strip
                    .marks
                    .push(bar(edge, 0.0, 0.5, strip.height, Ink::STEEL));
            }
        }
    }
}

/// The first column names the rows, even where the names are numbers: it stands left.
fn first_left(columns: &mut [Column], places: &[(f32, f32)]) {
    if let (Some(column), Some((x, _))) = (columns.first_mut(), places.first()) {
        column.side = Side::Left;
        column.x = x + PAD;
    }
}

/// White above the first line and below the last one.
fn padded(mut strips: Vec<Strip>) -> Vec<Strip> {
    if let Some(first) = strips.first_mut() {
        first.height += ROW_PAD;
        first.marks.iter_mut().for_each(|mark| mark.y += ROW_PAD);
    }
    if let Some(last) = strips.last_mut() {
        last.height += ROW_PAD;
    }
    strips
}

/// A rule under the last line.
fn rule(strips: &mut [Strip], width: f32, (thick, ink): (f32, Ink)) {
    if let Some(last) = strips.last_mut() {
        let y = last.height - thick;
        last.marks.push(bar(0.0, y, width, thick, ink));
    }
}
