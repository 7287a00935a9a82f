//! What is asked at a first look.

use super::numbers::stepped;
use super::table::{Source, Table};
use crate::quantity::Marks;
use crate::rubric::model::{FirstImpression, Kind, Rubric};

const ASK: &str = "How good is this piece, at a first look?";
const MOST: i64 = 10;

/// Keys of a scale of its own.
const OF_ITS_OWN: [&str; 4] = ["ask", "least", "most", "step"];

pub(super) fn read_first_impression(table: Table<'_>) -> FirstImpression {
    let impression = if table.has("counts_as") {
        read_counted(&table)
    } else {
        read_apart(&table)
    };
    table.finish();
    impression
}

fn read_counted(table: &Table<'_>) -> FirstImpression {
    // Each is asked for, so that none is called unknown as well.
    let own: Vec<&str> = OF_ITS_OWN
        .into_iter()
        .filter(|key| table.has(key))
        .collect();
    if let Some(first) = own.first() {
        let what = format!(
            "the criterion that it counts as has its own question and numbers, and `{first}` gives others"
        );
        let remedy = format!("leave out {}, or counts_as", own.join(", "));
        table.error("counts_as", what, remedy);
    }
    FirstImpression::Counts {
        criterion: table.id("counts_as").unwrap_or_default(),
    }
}

fn read_apart(table: &Table<'_>) -> FirstImpression {
    let ask = match table.has("ask") {
        true => table.needed_text("ask"),
        false => ASK.to_owned(),
    };
    let least = table.positive_marks("least").unwrap_or(Marks::ZERO);
    let most = table
        .positive_marks("most")
        .unwrap_or_else(|| Marks::whole(MOST));
    if least >= most {
        let what = format!("from {least} to {most} there is nothing to choose");
        table.error("most", what, "write a most above the least");
        // Asked for, so that it is not called unknown as well.
        table.has("step");
        return FirstImpression::Apart {
            ask,
            allowed: Vec::new(),
        };
    }
    FirstImpression::Apart {
        ask,
        allowed: stepped(table, least, most),
    }
}

/// The criterion that a first impression counts as is there, is judged and has one entry.
pub(super) fn check_first_impression(source: &Source<'_>, rubric: &Rubric) {
    let Some(FirstImpression::Counts { criterion: id }) = &rubric.first_impression else {
        return;
    };
    let entries = rubric.entries();
    let mut own = entries.iter().filter(|entry| &entry.criterion.id == id);
    let (what, remedy) = match (own.next(), own.next()) {
        // A text that is no id is told where it is read.
        (None, _) if id.is_empty() => return,
        (None, _) => (
            format!("there is no criterion `{id}`"),
            "use the id of a judged criterion",
        ),
        (Some(entry), _) if !matches!(entry.criterion.kind, Kind::Judged(_)) => (
            format!("`{id}` is not judged by eye"),
            "use the id of a criterion with kind = \"judged\"",
        ),
        (Some(_), Some(_)) => (
            format!("`{id}` is judged for each shoe, and a first impression is of the whole piece"),
            "write for = \"piece\" at that criterion, or use another",
        ),
        (Some(_), None) => return,
    };
    let at = source.place("`first_impression`", "counts_as");
    source.error(
        at,
        format!("{what} (`counts_as` of `first_impression`)"),
        remedy,
    );
}
