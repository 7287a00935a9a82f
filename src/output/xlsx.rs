//! Workbooks as Office Open XML has them (ISO/IEC 29500-1, SpreadsheetML).
//!
//! Each cell has the type of what it holds: numbers are numbers, days and moments are dates,
//! and every text is written as a text, so that none is a formula or a link whatever it
//! begins with. Heads are bold, frozen and have a filter. The same workbook gives the same
//! bytes.
//!
//! *Limits.* A cell holds 32,767 UTF-16 units: the rest of a longer text goes on in a sheet
//! of its own, so nothing is lost. A day before 1900 is a text, as the format counts from
//! there. A workbook has no time zones: a moment is that of the clock where it was.

use std::iter;

use chrono::Datelike as _;
use rust_xlsxwriter::{
    ColNum, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, RowNum,
    Workbook as File, Worksheet, XlsxError as Fault,
};
use thiserror::Error;

use crate::records::{Day, Moment};
use crate::sheet::{Field, Rows, Workbook};

/// Why no workbook could be written.
#[derive(Debug, Error)]
#[error(
    "the workbook could not be written: {0}; save the marks as CSV instead, and report this, it \
     is a fault of the program"
)]
pub struct XlsxError(#[from] Fault);

/// Most UTF-16 units of a text in one cell (ECMA-376 leaves it open; the limit is that of the
/// writer and of common readers, from memory).
const MOST_UNITS: usize = 32_767;
/// What ends a text that goes on elsewhere.
const GOES_ON: &str = " … (goes on in Long texts)";
/// The sheet that long texts go on in.
const LONG_TEXTS: &str = "Long texts";

/// `workbook` as the bytes of a file.
///
/// *Errors:* [`XlsxError`] where it has more rows or columns than the format holds.
pub fn write(workbook: &Workbook) -> Result<Vec<u8>, XlsxError> {
    let mut file = File::new();
    file.set_properties(&properties(workbook));
    let looks = Looks::new();
    let mut long = Rows {
        columns: ["Sheet", "Cell", "Part", "Text"]
            .map(str::to_owned)
            .to_vec(),
        rows: Vec::new(),
    };
    for sheet in &workbook.sheets {
        let rows = cut(sheet.name, &sheet.rows, &mut long);
        fill(file.add_worksheet().set_name(sheet.name)?, &rows, &looks)?;
    }
    if !long.rows.is_empty() {
        fill(file.add_worksheet().set_name(LONG_TEXTS)?, &long, &looks)?;
    }
    Ok(file.save_to_buffer()?)
}

fn properties(workbook: &Workbook) -> DocProperties {
    let properties = DocProperties::new()
        .set_title(&workbook.title)
        // The writer has no place for the language of the whole file but this.
        .set_custom_property("Language", workbook.language);
    // Not the hour of writing: the same markings give the same file.
    let made = workbook.made.map_or(0, |made| made.utc_ms() / 1_000);
    match ExcelDateTime::from_timestamp(made) {
        Ok(made) => properties.set_creation_datetime(&made),
        Err(_) => properties,
    }
}

/// How cells look.
struct Looks {
    head: Format,
    text: Format,
    day: Format,
    moment: Format,
}

impl Looks {
    fn new() -> Self {
        let top = || Format::new().set_align(FormatAlign::Top);
        Self {
            head: top()
                .set_bold()
                .set_text_wrap()
                .set_border_bottom(FormatBorder::Thin),
            text: top().set_text_wrap(),
            day: top().set_num_format("yyyy-mm-dd"),
            moment: top().set_num_format("yyyy-mm-dd hh:mm:ss"),
        }
    }
}

/// `rows` with no text longer than a cell; what is cut off goes to `long`.
fn cut(sheet: &str, rows: &Rows, long: &mut Rows) -> Rows {
    let mut cut = rows.clone();
    // The first row is the head.
    for (row, fields) in (2..).zip(&mut cut.rows) {
        for (column, field) in fields.iter_mut().enumerate() {
            let Field::Text(text) = field else { continue };
            let mut parts = parts(text).into_iter();
            let (Some(first), Some(second)) = (parts.next(), parts.next()) else {
                continue;
            };
            let cell = format!("{}{row}", column_letters(column));
            for (number, part) in (2..).zip(iter::once(second).chain(parts)) {
                long.rows.push(vec![
                    Field::Text(sheet.to_owned()),
                    Field::Text(cell.clone()),
                    Field::Number(i32::to_string(&number)),
                    Field::Text(part),
                ]);
            }
            *text = format!("{first}{GOES_ON}");
        }
    }
    cut
}

/// A text in parts that fit into a cell with what is put behind the first; together they are
/// the text. One where it fits as it is.
fn parts(text: &str) -> Vec<String> {
    if text.encode_utf16().count() <= MOST_UNITS {
        return vec![text.to_owned()];
    }
    let most = MOST_UNITS - GOES_ON.encode_utf16().count();
    let mut parts = vec![String::new()];
    let mut units = 0;
    for letter in text.chars() {
        units += letter.len_utf16();
        if units > most {
            units = letter.len_utf16();
            parts.push(String::new());
        }
        if let Some(part) = parts.last_mut() {
            part.push(letter);
        }
    }
    parts
}

/// `A`, `B`, …, `Z`, `AA`: a column from 0 as formulas write it.
fn column_letters(column: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = column + 1;
    while rest > 0 {
        let letter = u8::try_from((rest - 1) % 26).unwrap_or_default();
        letters.push(char::from(b'A' + letter));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect()
}

fn fill(sheet: &mut Worksheet, rows: &Rows, looks: &Looks) -> Result<(), Fault> {
    for (column, name) in (0..).zip(&rows.columns) {
        sheet.write_string_with_format(0, column, name, &looks.head)?;
        sheet.set_column_width(column, width(rows, usize::from(column)))?;
    }
    for (row, fields) in (1..).zip(&rows.rows) {
        for (column, field) in (0..).zip(fields) {
            write_field(sheet, row, column, field, looks)?;
        }
    }
    sheet.set_freeze_panes(1, 1)?;
    let last = ColNum::try_from(rows.columns.len()).unwrap_or(ColNum::MAX);
    let foot = RowNum::try_from(rows.rows.len()).unwrap_or(RowNum::MAX);
    if let Some(last) = last.checked_sub(1) {
        sheet.autofilter(0, 0, foot, last)?;
    }
    sheet.set_landscape();
    sheet.set_print_fit_to_pages(1, 0);
    sheet.set_repeat_rows(0, 0)?;
    Ok(())
}

fn write_field(
    sheet: &mut Worksheet,
    row: RowNum,
    column: ColNum,
    field: &Field,
    looks: &Looks,
) -> Result<(), Fault> {
    let date = match field {
        Field::Text(text) if text.is_empty() => return Ok(()),
        Field::Number(number) => {
            if let Some(number) = number.parse::<f64>().ok().filter(|one| one.is_finite()) {
                sheet.write_number_with_format(row, column, number, &looks.text)?;
                return Ok(());
            }
            None
        }
        Field::Day(day) => date_of(*day).map(|date| (date, &looks.day)),
        Field::Moment(moment) => moment_of(*moment).map(|date| (date, &looks.moment)),
        Field::Text(_) => None,
    };
    match date {
        Some((date, look)) => sheet.write_datetime_with_format(row, column, &date, look)?,
        None => sheet.write_string_with_format(row, column, field.words(), &looks.text)?,
    };
    Ok(())
}

/// The day as the format counts; `None` where it does not reach back so far.
fn date_of(day: Day) -> Option<ExcelDateTime> {
    let date = day.date();
    let year = u16::try_from(date.year())
        .ok()
        .filter(|year| *year >= 1900)?;
    let month = u8::try_from(date.month()).ok()?;
    ExcelDateTime::from_ymd(year, month, u8::try_from(date.day()).ok()?).ok()
}

fn moment_of(moment: Moment) -> Option<ExcelDateTime> {
    let (hour, minute, second) = moment.time_of_day();
    date_of(moment.day())?.and_hms(hour, minute, second).ok()
}

/// Narrowest and widest that a column is made, in characters.
const WIDTHS: (usize, usize) = (8, 50);

/// A width that holds what stands in the column, unless that is long: then its lines wrap.
fn width(rows: &Rows, column: usize) -> f64 {
    let head = rows
        .columns
        .get(column)
        .map_or(0, |name| longest_line(name));
    let cells = rows.rows.iter().filter_map(|row| row.get(column));
    let cells = cells.map(|field| longest_line(&field.words()));
    // A filter's arrow covers the end of a heading.
    let wanted = cells.max().unwrap_or(0).max(head + 3);
    let wanted = wanted.clamp(WIDTHS.0, WIDTHS.1);
    f64::from(u32::try_from(wanted).unwrap_or(u32::MAX))
}

/// How many characters are in the longest line; wide signs count twice.
fn longest_line(text: &str) -> usize {
    let wide = |letter: char| 1 + usize::from(letter >= '\u{1100}');
    let lines = text.lines().map(|line| line.chars().map(wide).sum());
    lines.max().unwrap_or(0)
}
