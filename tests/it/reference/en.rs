//! En scores (ISO 13528:2022, 9.7: En = (x - X) / sqrt(U² + U²), U = 2u; from memory),
//! worked by hand.

use evenshod::conformity::{Uncertain, en_score};

fn value(value: f64, own: f64, shared: &[(&str, f64)]) -> Uncertain {
    let shared = shared.iter().map(|(id, size)| ((*id).to_owned(), *size));
    Uncertain {
        value,
        own,
        shared: shared.collect(),
    }
}

#[track_caller]
fn en(one: &Uncertain, other: &Uncertain, expect: f64) {
    let found = en_score(one, other).unwrap();
    assert!((found - expect).abs() < 1e-12, "{found} is not {expect}");
    let back = en_score(other, one).unwrap();
    assert!((found + back).abs() < 1e-12, "the other way round {back}");
}

#[test]
fn the_difference_is_held_against_both_expanded_uncertainties() {
    // U is 0.6 and 0.8, together 1.0.
    en(&value(10.5, 0.3, &[]), &value(10.0, 0.4, &[]), 0.5);
    en(&value(12.0, 0.3, &[]), &value(10.0, 0.4, &[]), 2.0);
    en(&value(10.0, 0.0, &[]), &value(10.0, 0.5, &[]), 0.0);
}

#[test]
fn what_both_took_with_one_instrument_does_not_tell_them_apart() {
    let caliper: &[_] = &[("caliper", 0.7)];
    en(&value(10.5, 0.3, caliper), &value(10.0, 0.4, caliper), 0.5);
    // Unlike instruments: u² = 0.09 + 0.16 + 0.36 + 0.64 = 1.25.
    let one = value(11.0, 0.3, &[("caliper", 0.6)]);
    let other = value(10.0, 0.4, &[("rule", 0.8)]);
    en(&one, &other, 1.0 / (2.0 * 1.25_f64.sqrt()));
    // One took both sides of a pair with it, so that its zero left their difference.
    let pair = value(0.5, 0.3, &[]);
    en(&pair, &value(0.0, 0.0, &[("caliper", 0.4)]), 0.5);
}

#[test]
fn without_any_uncertainty_there_is_nothing_to_hold_it_against() {
    let exact = value(10.0, 0.0, &[("caliper", 0.7)]);
    let other = value(11.0, 0.0, &[("caliper", 0.7)]);
    assert_eq!(en_score(&exact, &other), None);
    assert_eq!(en_score(&value(1.0, 0.0, &[]), &value(2.0, 0.0, &[])), None);
}
