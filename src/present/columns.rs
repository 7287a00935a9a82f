//! The columns of tables as a text that a person changes: a line each, `key = name`.

use crate::records::{Layout, Ledger, NamedColumn, column_faults};

/// How the text is written.
pub const HOW_COLUMNS: &str = "A line for each column: its key, = and the name it gets. The order \
    of the lines is that of the columns; a line taken out leaves its column out. A college’s own \
    names stay in this ledger, for every table of this kind.";

/// What is said of the criteria of a wide table besides.
pub const HOW_CRITERIA: &str = "The line marks stands for all criteria, and * in its name for the \
    id of each. One criterion gets a name of its own by a line such as marks.width = Width.";

/// The columns of tables as they are kept, as text.
pub fn columns_text(ledger: &Ledger, layout: Layout) -> String {
    let own = ledger.columns(layout);
    if own.is_empty() {
        usual_text(layout)
    } else {
        as_text(own)
    }
}

/// The usual columns as text.
pub fn usual_text(layout: Layout) -> String {
    as_text(&layout.usual())
}

fn as_text(columns: &[NamedColumn]) -> String {
    let lines = columns.iter();
    let lines = lines.map(|column| format!("{} = {}", column.key, column.name));
    lines.collect::<Vec<_>>().join("\n")
}

/// Reads what [`columns_text`] wrote and a person changed. Empty lines say nothing; a line
/// without `=` is a key that is its own name.
///
/// *Errors:* what stands against each line, with its number and what to do; and where no
/// line is left.
pub fn read_columns(layout: Layout, text: &str) -> Result<Vec<NamedColumn>, Vec<String>> {
    let lines = (1usize..).zip(text.lines());
    let lines = lines.filter(|(_, line)| !line.trim().is_empty());
    let (numbers, columns): (Vec<usize>, Vec<NamedColumn>) =
        lines.map(|(number, line)| (number, column(line))).unzip();
    if columns.is_empty() {
        return Err(vec![
            "No column is left: write a line for at least one, or take the usual names.".to_owned(),
        ]);
    }
    let faults = column_faults(layout, &columns).into_iter();
    let said: Vec<String> = faults
        .map(|(at, fault)| {
            let number = numbers.get(at).copied().unwrap_or_default();
            format!("Line {number}: {fault}.")
        })
        .collect();
    if said.is_empty() {
        Ok(columns)
    } else {
        Err(said)
    }
}

fn column(line: &str) -> NamedColumn {
    let (key, name) = line.split_once('=').unwrap_or((line, line));
    NamedColumn {
        key: key.trim().to_owned(),
        name: name.trim().to_owned(),
    }
}

/// The keys that no line of `text` has, to choose from; empty where all are there.
pub fn left_out(layout: Layout, text: &str) -> String {
    let there: Vec<String> = text.lines().map(|line| column(line).key).collect();
    let keys = layout.keys().iter();
    let left = keys.filter(|key| !there.iter().any(|own| own == *key));
    left.copied().collect::<Vec<_>>().join(", ")
}
