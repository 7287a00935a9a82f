//! Agreement of raters. `tests/reference/agreement.py` wrote what other programs say.

use evenshod::figures::agreement::Ratings;

mod lacking;
mod other_programs;
mod props;
mod published;
mod within;

/// Within so much of what is expected, in proportion; near 0 within a hundredth of that.
#[track_caller]
fn near(what: &str, found: f64, expected: f64, relative: f64) {
    let allowed = relative * (expected.abs() + 0.01);
    let off = (found - expected).abs();
    assert!(
        off <= allowed,
        "{what}: {found}, expected {expected}, off by {off:e}"
    );
}

fn whole(rows: &[&[f64]]) -> Ratings {
    let rows: Vec<Vec<f64>> = rows.iter().map(|row| row.to_vec()).collect();
    Ratings::whole(&rows).unwrap()
}
