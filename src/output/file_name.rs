use crate::records::Day;

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
