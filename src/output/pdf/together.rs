/// Units and signs that stay with the number before them.
const UNITS: [&str; 14] = [
    "mm", "cm", "m", "in", "ft", "kg", "g", "lb", "oz", "h", "min", "s", "°", "%",
];

/// Whether a line may not break between `before`, which ends with a space, and `after`,
/// although the rules of Unicode let it: a number stays with its fraction (`5 1/8`), its
/// unit (`1.5 mm`), what it can be off by (`± 0.03`) and what it is of (`2 of 4`). Nor is
/// a letter or two left alone in the last line.
pub(super) fn belong_together(before: &str, after: &str) -> bool {
    let Some(before) = before.strip_suffix(' ') else {
        return false;
    };
    let word = after.split(' ').next().unwrap_or_default();
    if after.len() <= 2 {
        return true;
    }
    let starts_with_digit = word.starts_with(|c: char| c.is_ascii_digit());
    if before.ends_with('±') {
        return starts_with_digit;
    }
    if let Some(before) = before.strip_suffix(" of") {
        return starts_with_digit && ends_with_digit(before);
    }
    if !ends_with_digit(before) {
        return false;
    }
    let rest = after.strip_prefix(word).unwrap_or_default();
    is_fraction(word) || is_unit(word) || word == "±" || (word == "of" && of_number(rest))
}

fn ends_with_digit(text: &str) -> bool {
    text.ends_with(|c: char| c.is_ascii_digit())
}

fn of_number(rest: &str) -> bool {
    rest.trim_start().starts_with(|c: char| c.is_ascii_digit())
}

/// Two numbers with a stroke between them, whatever follows.
fn is_fraction(word: &str) -> bool {
    word.split_once('/').is_some_and(|(over, under)| {
        ends_with_digit(over)
            && over.chars().all(|c| c.is_ascii_digit())
            && under.starts_with(|c: char| c.is_ascii_digit())
    })
}

/// A unit and whatever sign follows it.
fn is_unit(word: &str) -> bool {
    UNITS.contains(&word.trim_end_matches(|c: char| c.is_ascii_punctuation() && c != '%'))
}
