//! Two groups held against published examples.

use evenshod::figures::{Lacking, newcombe, welch};

/// Newcombe, Statist. Med. 17 (1998) 873, table II, method 10: examples (a) and (b), and (g),
/// where nobody of either group has it.
#[test]
fn shares_differ_as_published() {
    for (one, other, low, high) in [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((0, 10), (0, 10), -0.2775, 0.2775),
    ] {
        let found = newcombe(one, other, 0.95).unwrap();
        assert!((found.interval.low - low).abs() < 5e-5, "{found:?}");
        assert!((found.interval.high - high).abs() < 5e-5, "{found:?}");
        let back = newcombe(other, one, 0.95).unwrap();
        assert!((back.interval.low + found.interval.high).abs() < 1e-15);
    }
    assert!(newcombe((0, 0), (1, 2), 0.95).is_err());
}

/// Extra hours of sleep with two drugs (Cushny and Peebles 1905, as Student, Biometrika 6,
/// 1908, 20, prints them). Welch's range without pairing, as general statistics programs
/// give it (from memory): -3.3654832 to 0.2054832 with 17.776 degrees of freedom.
#[test]
fn means_differ_as_known() {
    let one = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
    let other = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    let found = welch(&one, &other, 0.95).unwrap();
    assert!((found.difference + 1.58).abs() < 1e-12, "{found:?}");
    assert!((found.interval.low + 3.365_483_2).abs() < 5e-8, "{found:?}");
    assert!(
        (found.interval.high - 0.205_483_2).abs() < 5e-8,
        "{found:?}"
    );
}

#[test]
fn what_has_no_difference_says_why() {
    assert!(matches!(
        welch(&[1.0], &[1.0, 2.0], 0.95),
        Err(Lacking::TooFew { .. })
    ));
    assert!(matches!(
        welch(&[1.0, 1.0], &[2.0, 2.0], 0.95),
        Err(Lacking::NoSpread(_))
    ));
    assert!(welch(&[1.0, f64::NAN], &[1.0, 2.0], 0.95).is_err());
}
