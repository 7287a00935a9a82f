//! New rubrics from old ones.

use std::collections::BTreeSet;

use crate::rubric::edit::{Edit, Outline, Path, Written, change};

/// A rubric to start from where none is near: one criterion, and what to write next.
pub const BLANK: &str = include_str!("blank.toml");

/// A copy of `text` under an id that is not in `taken`.
pub fn copy_of(text: &str, taken: &BTreeSet<String>) -> String {
    let Ok(outline) = Outline::of(text) else {
        return text.to_owned();
    };
    let said = |key: &str| outline.text(&Path::root().key(key)).unwrap_or_default();
    let id = free(
        &format!("own-{}", said("id").trim_start_matches("own-")),
        taken,
    );
    let title = format!("{}, our own", said("title").trim_end_matches(", our own"));
    let text = with(text, "id", &id);
    let text = with(&text, "version", "1");
    with(&text, "title", &title)
}

/// `text` with the version that follows its own and is not in `taken`.
pub fn next_version(text: &str, taken: &BTreeSet<String>) -> String {
    let Ok(outline) = Outline::of(text) else {
        return text.to_owned();
    };
    let old = outline.text(&Path::root().key("version"));
    with(text, "version", &after(&old.unwrap_or_default(), taken))
}

/// `3` after `2`, `1.10` after `1.9`, `draft-2` after `draft`.
fn after(old: &str, taken: &BTreeSet<String>) -> String {
    let digits = old.len() - old.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    let (head, number) = old.split_at(old.len() - digits);
    let (head, mut number) = match number.parse::<u64>() {
        Ok(number) => (head.to_owned(), number),
        Err(_) if old.is_empty() => (String::new(), 0),
        Err(_) => (format!("{old}-"), 1),
    };
    loop {
        number = number.saturating_add(1);
        let next = format!("{head}{number}");
        if !taken.contains(&next) || number == u64::MAX {
            return next;
        }
    }
}

fn free(id: &str, taken: &BTreeSet<String>) -> String {
    if !taken.contains(id) {
        return id.to_owned();
    }
    let mut numbered = (2_u64..).map(|number| format!("{id}-{number}"));
    numbered
        .find(|id| !taken.contains(id))
        .unwrap_or_else(|| id.to_owned())
}

fn with(text: &str, key: &str, value: &str) -> String {
    let edit = Edit::Set {
        at: Path::root().key(key),
        to: Written::Text(value.to_owned()),
    };
    change(text, &edit).unwrap_or_else(|_| text.to_owned())
}
