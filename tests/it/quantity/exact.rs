//! Exact numbers held against those of a general library, which has no short way for small
//! ones.

use std::cmp::Ordering;

use evenshod::quantity::Exact;
use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul};
use proptest::prelude::*;

/// Parts of a number: small, about the end of 64 bits, and far beyond it.
fn part() -> impl Strategy<Value = i128> {
    let end = i128::from(i64::MAX);
    prop_oneof![
        4 => -1_000_i128..1_000,
        2 => any::<i64>().prop_map(i128::from),
        2 => (-3_i128..=3).prop_map(move |off| end + off),
        2 => (-3_i128..=3).prop_map(move |off| -end + off),
        1 => -(1_i128 << 100)..(1_i128 << 100),
    ]
}

fn number() -> impl Strategy<Value = Ratio<i128>> {
    let parts = (part(), part()).prop_filter("a denominator", |(_, below)| *below != 0);
    parts.prop_map(|(above, below)| Ratio::new(above, below))
}

fn exact(of: &Ratio<i128>) -> Exact {
    Exact::fraction(*of.numer(), *of.denom()).unwrap()
}

/// As the library has it; nothing where that is lost and the library knows no better.
fn check(ours: Option<Exact>, theirs: Option<Ratio<i128>>) -> Result<(), TestCaseError> {
    if let Some(theirs) = theirs {
        let ours = ours.map(|ours| (ours.numerator(), ours.denominator()));
        prop_assert_eq!(ours, Some((*theirs.numer(), *theirs.denom())));
    }
    Ok(())
}

proptest! {
    #[test]
    fn sums_products_quotients_and_order_are_those_of_the_library(a in number(), b in number()) {
        let (one, other) = (exact(&a), exact(&b));
        check(one.plus(other), a.checked_add(&b))?;
        check(one.times(other), a.checked_mul(&b))?;
        check(one.over(other), a.checked_div(&b))?;
        prop_assert_eq!(one.cmp(&other), a.cmp(&b));
        prop_assert_eq!(one.cmp(&one), Ordering::Equal);
    }
}
