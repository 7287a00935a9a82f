//! JCGM 106:2012, 9.5: risks over many pieces. The resistors' inputs are published; their
//! risks, and what is combined, by SciPy 1.17 (`integrate.quad` of the joint density).

use evenshod::figures::{Made, Within, measured_among, risks};

use super::near::{near, within};

const RESISTORS: Made = Made::Normal {
    mean: 1500.0,
    deviation: 0.12,
};

fn between(low: f64, high: f64) -> Within {
    Within {
        low: Some(low),
        high: Some(high),
    }
}

/// 9.5.3: precision resistors, with a guard band and without.
#[test]
fn resistors_have_their_risks() {
    let tolerance = between(1499.80, 1500.20);
    let guarded = risks(RESISTORS, 0.04, tolerance, between(1499.82, 1500.18)).unwrap();
    near(guarded.conforming, 0.9044192955, 1e-9);
    near(guarded.producer, 0.06902651046, 1e-8);
    near(guarded.consumer, 0.009878291522, 1e-8);
    let simple = risks(RESISTORS, 0.04, tolerance, tolerance).unwrap();
    near(simple.producer, 0.03720780018, 1e-8);
    near(simple.consumer, 0.01894220672, 1e-8);
}

/// 9.5.4: ball bearings, whose radial error is above 0: 4.2 % are beyond 2, 0.8 % of all are
/// accepted although they are, and an acceptance limit of 1.67 makes that 0.1 %.
#[test]
fn bearings_have_the_published_risks() {
    let bearings = Made::Gamma {
        shape: 4.0,
        scale: 0.25,
    };
    let up_to = |high: f64| Within {
        low: None,
        high: Some(high),
    };
    let simple = risks(bearings, 0.25, up_to(2.0), up_to(2.0)).unwrap();
    within(1.0 - simple.conforming, 0.042, 5e-4);
    near(1.0 - simple.conforming, 0.04238011199, 1e-8);
    within(simple.consumer, 0.008, 5e-5);
    near(simple.consumer, 0.008019111884, 1e-6);
    let guarded = risks(bearings, 0.25, up_to(2.0), up_to(1.67182877)).unwrap();
    within(guarded.consumer, 0.001, 1e-7);
}

/// A.4.4, by its own formula.
#[test]
fn earlier_pieces_draw_a_reading_to_their_mean() {
    let (mean, off) = measured_among((1500.0, 0.12), (1500.15, 0.04)).unwrap();
    near(mean, 1500.135, 1e-12);
    near(off, 0.03794733192, 1e-9);
    assert!(measured_among((1500.0, 0.0), (1500.15, 0.04)).is_err());
}

#[test]
fn risks_are_shares_and_a_better_instrument_has_less_of_them() {
    let tolerance = between(1499.9, 1500.1);
    let mut last = f64::INFINITY;
    for uncertainty in [0.2, 0.1, 0.05, 0.01, 0.001] {
        let found = risks(RESISTORS, uncertainty, tolerance, tolerance).unwrap();
        let sum = found.producer + found.consumer;
        assert!(found.producer >= 0.0 && found.consumer >= 0.0 && sum < last);
        last = sum;
    }
    assert!(last < 0.01);
    assert!(risks(RESISTORS, 0.0, tolerance, tolerance).is_err());
    assert!(risks(RESISTORS, 0.1, between(2.0, 1.0), tolerance).is_err());
    let none = Made::Normal {
        mean: 0.0,
        deviation: -1.0,
    };
    assert!(risks(none, 0.1, tolerance, tolerance).is_err());
}
