//! Scatter within groups, by hand.

use evenshod::figures::Lacking;
use evenshod::figures::agreement::within;

use super::near;

#[test]
fn groups_of_any_size_are_pooled() {
    // Sums of squares 2, 0 and 2 on 1, 1 and 2 degrees of freedom; the group of one is nothing.
    let groups = [
        vec![1.0, 3.0],
        vec![2.0, 2.0],
        vec![5.0, 6.0, 7.0],
        vec![9.0],
    ];
    let found = within(&groups, 0.95).unwrap();
    near("deviation", found.deviation, 1.0, 1e-12);
    near("df", found.df, 4.0, 1e-12);
    near("limit", found.limit, 2.771_859, 1e-6);
    // Chi-squared of 4 degrees of freedom at 0.975 and 0.025: 11.143 and 0.484 (NIST/SEMATECH
    // e-Handbook of Statistical Methods, 1.3.6.7.4).
    near("low", found.interval.low, (4.0_f64 / 11.143).sqrt(), 1e-4);
    near("high", found.interval.high, (4.0_f64 / 0.484).sqrt(), 1e-3);
}

#[test]
fn neither_order_nor_level_of_a_group_matters() {
    let one = within(&[vec![1.0, 3.0, 2.5], vec![4.0, 4.5]], 0.9).unwrap();
    let other = within(&[vec![104.5, 104.0], vec![-0.5, -2.0, 0.0]], 0.9).unwrap();
    near("deviation", other.deviation, one.deviation, 1e-12);
    near("high", other.interval.high, one.interval.high, 1e-12);
}

#[test]
fn what_does_not_exist_is_told() {
    assert!(matches!(
        within(&[vec![1.0]], 0.95),
        Err(Lacking::TooFew { .. })
    ));
    let odd = [vec![1.0, f64::NAN]];
    assert!(matches!(within(&odd, 0.95), Err(Lacking::NotANumber(_))));
    let even = [vec![1.0, 2.0]];
    assert!(matches!(within(&even, 1.0), Err(Lacking::NotANumber(_))));
    let same = within(&[vec![2.0, 2.0]], 0.95).unwrap();
    assert!(same.deviation == 0.0 && same.interval.high == 0.0);
}
