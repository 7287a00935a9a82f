//! Worked examples of papers and books. Where a value was not seen in its source but in a text
//! that quotes it, or is from memory, the test says so.

mod categories;
mod differences;
mod tables;

/// The value as printed, within half of its last digit.
#[track_caller]
fn within(what: &str, found: f64, printed: f64, half_a_digit: f64) {
    let off = (found - printed).abs();
    assert!(off <= half_a_digit, "{what}: {found}, printed {printed}");
}
