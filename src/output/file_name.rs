use crate::records::{Day, Role};
use crate::sheet::Scored;

/// Most bytes that one part of a name takes: all three fit where 255 are the limit,
/// with room for an ending and a browser's `(2)`.
const MOST_BYTES: usize = 60;

/// A file's name without its ending: day, whose piece it is, and what it was marked
/// by, as in `2026-11-25_ada-smith_straight-bar-shoe`.
///
/// *What is guaranteed:* lower-case letters and digits of any script, `-` and `_`, so
/// no system takes a part of it for a folder, an ending or a device; never empty, and
/// at most 200 bytes.
pub fn file_base(day: Day, whose: &str, rubric: &str) -> String {
    let parts = [day.iso(), part(whose), part(rubric)];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("_")
}

/// What a file of a marking's sheet is called, without its ending, as [`file_base`] has it.
pub fn sheet_base(scored: &Scored<'_>) -> String {
    let parts = &scored.parts;
    let ticket = parts
        .piece
        .ticket
        .as_ref()
        .map(|ticket| format!("ticket {ticket}"));
    let whose = scored.learner().map(str::to_owned).or(ticket);
    let base = file_base(
        parts.sitting.day,
        whose.as_deref().unwrap_or("piece"),
        &parts.rubric.rubric_id,
    );
    // Files of several markings of a piece may lie in one folder.
    match parts.marking.role {
        Role::First => base,
        role => format!(
            "{base}_{}",
            if role == Role::Own {
                "own"
            } else {
                role.word()
            }
        ),
    }
}

fn part(text: &str) -> String {
    let mut name = String::new();
    for letter in text.chars().flat_map(char::to_lowercase) {
        let letter = if letter.is_alphanumeric() {
            letter
        } else {
            '-'
        };
        if letter == '-' && (name.is_empty() || name.ends_with('-')) {
            continue;
        }
        if name.len() + letter.len_utf8() > MOST_BYTES {
            break;
        }
        name.push(letter);
    }
    name.trim_end_matches('-').to_owned()
}
