//! Scores from CSV text, or what is wrong with it and on which line.

use std::collections::BTreeMap;

use evenshod::figures::agreement::Ratings;

const COLUMNS: [&str; 3] = ["target", "rater", "score"];

/// By target and rater, the line of a score and the score.
type Cells = BTreeMap<(String, String), (u64, Option<f64>)>;

/// The table of the file, with its targets and raters in the order of their names.
pub fn read(text: &str) -> Result<Ratings, String> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let told = |fault: csv::Error| told(text, &fault);
    let order = order(reader.headers().map_err(told)?)?;
    let mut cells = Cells::new();
    for record in reader.records() {
        let record = record.map_err(told)?;
        let line = record.position().map_or(1, |position| line(text, position));
        let field = |at: usize| record.get(at).unwrap_or_default();
        let [target, rater, score] = order.map(field);
        for (name, field) in [("target", target), ("rater", rater)] {
            if field.is_empty() {
                return Err(format!("line {line}: the {name} is missing"));
            }
        }
        let score = read_score(score).map_err(|fault| format!("line {line}: {fault}"))?;
        let cell = (target.to_owned(), rater.to_owned());
        if let Some((before, _)) = cells.insert(cell, (line, score)) {
            return Err(format!(
                "line {line}: rater {rater} scored target {target} on line {before} already"
            ));
        }
    }
    table(&cells)
}

/// Where each of the columns stands.
fn order(header: &csv::StringRecord) -> Result<[usize; 3], String> {
    let known = "the first line names the columns target, rater and score";
    if let Some(name) = header.iter().find(|name| !COLUMNS.contains(name)) {
        return Err(format!("line 1: there is no column `{name}`; {known}"));
    }
    let mut order = [0; 3];
    for (place, column) in order.iter_mut().zip(COLUMNS) {
        let mut found = header
            .iter()
            .enumerate()
            .filter(|(_, name)| *name == column);
        *place = match (found.next(), found.next()) {
            (Some((at, _)), None) => at,
            (None, _) => return Err(format!("line 1: the column `{column}` is missing; {known}")),
            _ => {
                return Err(format!(
                    "line 1: the column `{column}` is there twice; {known}"
                ));
            }
        };
    }
    Ok(order)
}

fn read_score(text: &str) -> Result<Option<f64>, String> {
    if text.is_empty() {
        return Ok(None);
    }
    match text.parse::<f64>() {
        Ok(score) if score.is_finite() => Ok(Some(score)),
        _ => Err(format!(
            "`{text}` is not a number; write a score as 3 or 3.5, or leave it empty"
        )),
    }
}

fn told(text: &str, fault: &csv::Error) -> String {
    let line = fault.position().map_or(1, |position| line(text, position));
    match fault.kind() {
        csv::ErrorKind::UnequalLengths {
            expected_len, len, ..
        } => format!("line {line}: {len} fields instead of {expected_len}"),
        _ => format!("line {line}: {fault}"),
    }
}

/// The line of what begins there. The reader stands where the record before ended, which may
/// be ahead of empty lines.
fn line(text: &str, position: &csv::Position) -> u64 {
    let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let ahead = text.bytes().skip(from);
    let empty = ahead.take_while(|byte| matches!(byte, b'\r' | b'\n'));
    position.line() + empty.map(|byte| u64::from(byte == b'\n')).sum::<u64>()
}

fn table(cells: &Cells) -> Result<Ratings, String> {
    let mut raters: Vec<&String> = cells.keys().map(|(_, rater)| rater).collect();
    raters.sort_unstable();
    raters.dedup();
    let mut targets: Vec<&String> = cells.keys().map(|(target, _)| target).collect();
    targets.dedup();
    if targets.is_empty() {
        return Err("line 2: there are no scores below the header".to_owned());
    }
    let cell = |target: &String, rater: &String| {
        let found = cells.get(&(target.clone(), rater.clone()));
        found.and_then(|(_, score)| *score)
    };
    let row = |target| raters.iter().map(|rater| cell(target, rater)).collect();
    let rows: Vec<Vec<Option<f64>>> = targets.into_iter().map(row).collect();
    Ratings::new(&rows).map_err(|lacking| lacking.to_string())
}
