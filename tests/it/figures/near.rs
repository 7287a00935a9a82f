/// Holds `found` to `known` within a share of it.
#[track_caller]
pub fn near(found: f64, known: f64, share: f64) {
    let off = (found - known).abs();
    assert!(
        off <= share * known.abs().max(1e-300),
        "{found} is not {known}"
    );
}

/// Holds `found` to `known` within so much.
#[track_caller]
pub fn within(found: f64, known: f64, most: f64) {
    assert!(
        (found - known).abs() <= most,
        "{found} is not {known} ± {most}"
    );
}
