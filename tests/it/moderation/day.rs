//! Who marks what: balanced, and all tied together.

use std::collections::BTreeSet;

use evenshod::moderation::{DayFault, DayPlan, least_each, plan_day};
use proptest::prelude::*;

/// Whether from each examiner one comes to each other one.
fn is_connected(plan: &DayPlan, examiners: usize) -> bool {
    let mut reached = BTreeSet::from([0]);
    loop {
        let before = reached.len();
        for by in &plan.pieces {
            if by.iter().any(|one| reached.contains(one)) {
                reached.extend(by);
            }
        }
        if reached.len() == before {
            return reached.len() == examiners;
        }
    }
}

fn check(examiners: usize, pieces: usize, each: usize) {
    let case = format!("{examiners} examiners, {pieces} pieces, {each} each");
    let plan = match plan_day(examiners, pieces, each) {
        Ok(plan) => plan,
        Err(fault) => {
            // What each piece can tie together at most.
            assert!(pieces * (each - 1) < examiners - 1, "{case}: {fault}");
            return;
        }
    };
    assert_eq!(plan.pieces.len(), pieces, "{case}");
    for by in &plan.pieces {
        let distinct: BTreeSet<_> = by.iter().collect();
        assert_eq!((by.len(), distinct.len()), (each, each), "{case}");
        assert!(by.iter().all(|one| *one < examiners), "{case}");
    }
    let loads: Vec<usize> = plan.orders.iter().map(Vec::len).collect();
    assert_eq!(loads.len(), examiners, "{case}");
    let (least, most) = (loads.iter().min().unwrap(), loads.iter().max().unwrap());
    assert!(most - least <= 1, "{case}: {loads:?}");
    for (examiner, order) in plan.orders.iter().enumerate() {
        let own = (0..pieces).filter(|piece| plan.pieces[*piece].contains(&examiner));
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, own.collect::<Vec<_>>(), "{case}");
    }
    assert!(is_connected(&plan, examiners), "{case}: {plan:?}");
}

#[test]
fn every_small_day_is_balanced_and_connected() {
    for examiners in 2..=9 {
        for pieces in 1..=14 {
            for each in 2..=examiners {
                check(examiners, pieces, each);
            }
        }
    }
}

proptest! {
    #[test]
    fn larger_days_are_too(examiners in 2..40usize, pieces in 1..80usize, each in 2..6usize) {
        check(examiners, pieces, each.min(examiners));
    }
}

#[test]
fn what_cannot_be_is_told() {
    assert_eq!(plan_day(1, 6, 2), Err(DayFault::Examiners(1)));
    let each = |each| DayFault::Each { each, examiners: 3 };
    assert_eq!(plan_day(3, 6, 1), Err(each(1)));
    assert_eq!(plan_day(3, 6, 4), Err(each(4)));
    let few = DayFault::Pieces {
        pieces: 2,
        needs: 4,
        examiners: 5,
    };
    assert_eq!(plan_day(5, 2, 2), Err(few));
    assert_eq!(least_each(5, 2), Some(3));
    assert_eq!(least_each(5, 0), None);
    assert_eq!(least_each(3, 2), Some(2));
}

#[test]
fn examiners_begin_at_different_pieces() {
    let plan = plan_day(3, 6, 3).unwrap();
    let first: BTreeSet<usize> = plan.orders.iter().map(|order| order[0]).collect();
    assert_eq!(first.len(), 3, "{plan:?}");
}
