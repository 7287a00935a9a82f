//! Figures held against published worked examples and against other programs' results.

mod agreement;
mod difference;
mod gauge;
mod general;
mod items;
mod near;
mod passmark;
mod risk;
mod severity;
mod share;
mod theory_props;
mod theory_reference;
mod trend;

/// Whether two numbers agree to `tolerance`, relative where they are above 1.
#[track_caller]
fn close(found: f64, wanted: f64, tolerance: f64) {
    let off = (found - wanted).abs() / wanted.abs().max(1.0);
    assert!(off <= tolerance, "{found} for {wanted}");
}

/// The same of several.
#[track_caller]
fn all_close(found: &[f64], wanted: &[f64], tolerance: f64) {
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(wanted) {
        close(*found, *wanted, tolerance);
    }
}

/// Numbers of a text, line by line.
fn rows(text: &str) -> Vec<Vec<f64>> {
    let numbers = |line: &str| {
        line.split_whitespace()
            .map(|n| n.parse().unwrap())
            .collect()
    };
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.map(numbers).collect()
}
