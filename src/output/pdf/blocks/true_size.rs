use super::drawings::figure;
use super::prose::after_heading;
use super::{Lay, SMALL, SMALL_LEADING};
use crate::chart::{CHECKED_SIZE, Drawing, check_lines, scale_words, tiles};
use crate::output::pdf::line::Span;
use crate::output::pdf::rows::rows;
use crate::output::pdf::strip::{Kind, Mark, Strip, What};
use crate::output::pdf::tags::Role;
use crate::sheet::Oversize;

/// Between a drawing, the check lines and the words, in points.
const BETWEEN: f32 = 6.0;
/// What is written under each sheet.
const PRINT: &str = "Print at 100 %, then measure both lines: 100 mm and 4 in. A sheet on which they \
                     are off is no gauge.";
/// The same where there are several.
const JOIN: &str = "lay its register marks on those of its neighbours.";
/// Room for the words under a sheet, in points.
const WORDS: f32 = 26.0;

/// A drawing in millimetres at its true size.
pub(super) fn lay(lay: &mut Lay<'_>, drawing: &Drawing, otherwise: Oversize) {
    match otherwise {
        Oversize::Sheets => sheets(lay, drawing),
        Oversize::Smaller => smaller(lay, drawing),
        Oversize::SmallerOrChecked => smaller_or_checked(lay, drawing),
    }
}

/// At its true size where that is not wider than the text, or else as wide as that; which of
/// them is said under it.
fn smaller(lay: &mut Lay<'_>, drawing: &Drawing) {
    let above = after_heading(lay);
    let full = lay.points(drawing.width);
    let width = full.min(lay.width);
    let share = f64::from(width) / f64::from(full.max(f32::MIN_POSITIVE));
    let mut strip = figure(lay, lay.root, drawing, 0.0, width);
    let words = format!("{}. {}", drawing.title, scale_words(share));
    write(lay, &mut strip, &words);
    lay.push(vec![strip], above);
}

/// With check lines where it keeps its size; what is drawn smaller bears none, as they would lie.
fn smaller_or_checked(lay: &mut Lay<'_>, drawing: &Drawing) {
    if lay.points(drawing.width) > lay.width || lay.points(check_lines().width) > lay.width {
        return smaller(lay, drawing);
    }
    let above = after_heading(lay);
    let words = format!("{}. {CHECKED_SIZE}", drawing.title);
    let strip = one(lay, drawing, &check_lines(), &words);
    lay.push(vec![strip], above);
}

/// On as many sheets as it takes, each with check lines.
fn sheets(lay: &mut Lay<'_>, drawing: &Drawing) {
    let check = check_lines();
    let below = lay.points(check.height) + 2.0 * BETWEEN + WORDS;
    let mm = f64::from(lay.points(1.0));
    let room = (f64::from(lay.width) / mm, f64::from(lay.page - below) / mm);
    // What no number of sheets holds is no shoe; it stands smaller and says so.
    let Some(cut) = tiles(drawing, room) else {
        return smaller(lay, drawing);
    };
    let count = cut.sheets.len();
    let mut above = after_heading(lay);
    for (number, mut sheet) in (1_u32..).zip(cut.sheets) {
        let mut words = format!("{}. {PRINT}", drawing.title);
        if count > 1 {
            let (row, column) = (
                (number - 1) / cut.columns + 1,
                (number - 1) % cut.columns + 1,
            );
            let place = format!("sheet {number} of {count}, row {row}, column {column}");
            sheet.title = format!("{}, {place}", drawing.title);
            words = format!("{}: {JOIN} {PRINT}", sheet.title);
        }
        let strip = one(lay, &sheet, &check, &words);
        lay.push(vec![strip], above);
        above = BETWEEN;
    }
}

/// A sheet, cut off at its frame, with check lines and words under it.
fn one(lay: &mut Lay<'_>, sheet: &Drawing, check: &Drawing, words: &str) -> Strip {
    let width = lay.points(sheet.width);
    let mut strip = figure(lay, lay.root, sheet, 0.0, width);
    for mark in &mut strip.marks {
        if let What::Figure(inside) = &mut mark.what {
            mark.what = What::Cut {
                inside: std::mem::take(inside),
                size: (width, strip.height),
            };
        }
    }
    let lines = figure(lay, lay.root, check, 0.0, lay.points(check.width));
    let down = strip.height + BETWEEN;
    strip.height = down + lines.height;
    let lines = lines.marks.into_iter();
    strip.marks.extend(lines.map(|mark| Mark {
        y: mark.y + down,
        ..mark
    }));
    write(lay, &mut strip, words);
    strip
}

/// Puts words under what is on a strip.
fn write(lay: &mut Lay<'_>, strip: &mut Strip, words: &str) {
    let node = lay.node(lay.root, Role::Paragraph);
    let column = lay.column(&[Span::new(words, SMALL)], vec![node], 0.0, lay.width);
    let mut down = strip.height + BETWEEN / 2.0;
    for line in rows(&[column], SMALL_LEADING, Kind::Drawings) {
        let marks = line.marks.into_iter();
        strip.marks.extend(marks.map(|mark| Mark {
            y: mark.y + down,
            ..mark
        }));
        down += line.height;
    }
    strip.height = down;
}
