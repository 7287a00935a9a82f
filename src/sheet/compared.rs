//! Two rubrics compared, and an old piece marked by another rubric than its own.

use crate::conformity::mark_and_decide;
use crate::marking::{Facts, Marking};
use crate::quantity::{Exact, Marks, Unit};
use crate::rubric::Rubric;
use crate::rubric::edit::Difference;

use super::document::{Block, Cell, CellRole, Document, Fact, Group, Item, Table, columns};
use super::scored::heading;
use super::words::capital;

/// What changed from `before` to `after`, both named as people know them.
pub fn compared(before: &str, after: &str, differences: &[Difference]) -> Document {
    let blocks = if differences.is_empty() {
        vec![Block::Paragraph(
            "Nothing differs but comments and order of keys.".to_owned(),
        )]
    } else {
        vec![Block::Table(differences_table(differences))]
    };
    Document {
        title: "What changed".to_owned(),
        about: format!("From {before} to {after}"),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

fn differences_table(differences: &[Difference]) -> Table {
    let mut groups: Vec<Group> = Vec::new();
    for one in differences {
        let heading = one.place.join(", ");
        let said = |side: &Option<String>| match side.as_deref() {
            None => "not there".to_owned(),
            Some("") => "empty".to_owned(),
            Some(text) => text.to_owned(),
        };
        let row = vec![
            Cell::text(capital(&one.what)),
            Cell::text(said(&one.before)),
            Cell::text(said(&one.after)),
        ];
        match groups.last_mut() {
            Some(group) if group.heading == heading => group.rows.push(row),
            _ => groups.push(Group {
                heading,
                rows: vec![row],
            }),
        }
    }
    Table {
        caption: match differences.len() {
            1 => "1 difference".to_owned(),
            count => format!("{count} differences"),
        },
        columns: columns(&[
            ("What", CellRole::Text),
            ("Before", CellRole::Text),
            ("After", CellRole::Text),
        ]),
        groups,
        foot: Vec::new(),
    }
}

/// The facts of a piece marked by `old` and by `new`: what would have changed.
///
/// Entries are matched by their ids. Facts that `new` has no entry for count for nothing;
/// entries that the facts say nothing about have no marks.
pub fn tried(whose: &str, old: &Rubric, new: &Rubric, facts: &Facts, unit: Unit) -> Document {
    let (one, other) = (
        mark_and_decide(old, facts, unit),
        mark_and_decide(new, facts, unit),
    );
    let mut blocks = vec![Block::Facts(vec![
        Fact {
            label: "As it was marked".into(),
            value: total_words(&one),
        },
        Fact {
            label: "By the other rubric".into(),
            value: total_words(&other),
        },
    ])];
    let rows = changed_rows(old, new, &one, &other);
    if rows.is_empty() {
        blocks.push(Block::Paragraph(
            "No criterion would have other marks.".to_owned(),
        ));
    } else {
        blocks.push(Block::Table(Table {
            caption: "Criteria with other marks, the largest change first".to_owned(),
            columns: columns(&[
                ("Criterion", CellRole::Text),
                ("Was", CellRole::Number),
                ("Would be", CellRole::Number),
                ("Why", CellRole::Text),
            ]),
            groups: vec![Group {
                heading: String::new(),
                rows,
            }],
            foot: Vec::new(),
        }));
    }
    let why = other
        .award_reasons
        .iter()
        .map(|reason| Item::plain(capital(reason)));
    blocks.push(heading("The award by the other rubric"));
    blocks.push(Block::Items(why.collect()));
    Document {
        title: format!("{}, tried on {whose}", new.title),
        about: format!(
            "Marked by {}, version {}; tried by {}, version {}. Nothing of it is kept.",
            old.id, old.version, new.id, new.version
        ),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

pub(super) fn total_words(marking: &Marking) -> String {
    let missing = match marking.missing.len() {
        0 => String::new(),
        1 => ", 1 criterion without marks".to_owned(),
        count => format!(", {count} criteria without marks"),
    };
    format!(
        "{} of {}, {}{missing}",
        marking.marks,
        marking.out_of,
        marking.award.word()
    )
}

/// Rows with how much hangs on them.
fn changed_rows(old: &Rubric, new: &Rubric, one: &Marking, other: &Marking) -> Vec<Vec<Cell>> {
    let marks_of = |marking: &Marking, id: &str| {
        marking
            .criterion(id)
            .map(|found| (found.marks, found.out_of))
    };
    let words = |found: Option<(Option<Marks>, Marks)>| match found {
        None => "not in it".to_owned(),
        Some((None, out_of)) => format!("no marks of {out_of}"),
        Some((Some(marks), out_of)) => format!("{marks} of {out_of}"),
    };
    let mut rows: Vec<(Exact, Vec<Cell>)> = Vec::new();
    let entries = new.entries();
    let gone = old.entries();
    let gone = gone
        .iter()
        .filter(|entry| entries.iter().all(|kept| kept.id != entry.id));
    for entry in entries.iter().chain(gone) {
        let (was, is) = (marks_of(one, &entry.id), marks_of(other, &entry.id));
        if was == is {
            continue;
        }
        let marks = |found: Option<(Option<Marks>, Marks)>| {
            found.and_then(|(marks, _)| marks).unwrap_or(Marks::ZERO)
        };
        let size = marks(is)
            .minus(marks(was))
            .map_or(Exact::ZERO, |off| off.0.size());
        let why = other
            .criterion(&entry.id)
            .map_or("", |found| found.reason.as_str());
        rows.push((
            size,
            vec![
                Cell::text(entry.name()),
                Cell::new(CellRole::Number, words(was)),
                Cell::new(CellRole::Number, words(is)),
                Cell::text(why),
            ],
        ));
    }
    rows.sort_by_key(|(size, _)| std::cmp::Reverse(*size));
    rows.into_iter().map(|(_, row)| row).collect()
}
