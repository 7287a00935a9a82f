//! Newcombe, Statist. Med. 17 (1998) 857, Table I (values from memory), and SciPy 1.17.

use evenshod::figures::{Interval, Lacking, clopper_pearson, wilson};

use super::near::{near, within};

/// Both intervals of so many of so many: as printed, then as statsmodels 0.15 gives them.
#[test]
fn intervals_of_shares_are_newcombes() {
    let cases = [
        (
            81,
            263,
            [0.2553, 0.3662, 0.2527, 0.3676],
            [0.2552885199, 0.366209577, 0.2527367456, 0.3676219226],
        ),
        (
            15,
            148,
            [0.0624, 0.1605, 0.0578, 0.1617],
            [0.06238639953, 0.1604872417, 0.05784401008, 0.1616504903],
        ),
        (
            0,
            20,
            [0.0, 0.1611, 0.0, 0.1684],
            [0.0, 0.1611251581, 0.0, 0.168433471],
        ),
        (
            1,
            29,
            [0.0061, 0.1718, 0.0009, 0.1776],
            [0.006113214293, 0.1717552188, 0.0008726468836, 0.1776442955],
        ),
    ];
    for (some, of, printed, known) in cases {
        let ends = |one: Interval| [one.low, one.high];
        let found = [
            ends(wilson(some, of, 0.95).unwrap()),
            ends(clopper_pearson(some, of, 0.95).unwrap()),
        ];
        for ((found, printed), known) in found.concat().into_iter().zip(printed).zip(known) {
            within(found, printed, 6e-5);
            within(found, known, 1e-9);
        }
    }
}

#[test]
fn all_and_none_stay_within_0_and_1() {
    for level in [0.5, 0.95, 0.999] {
        let all = wilson(7, 7, level).unwrap();
        let none = wilson(0, 7, level).unwrap();
        near(all.high, 1.0, 1e-12);
        near(1.0 - all.low, none.high, 1e-12);
        assert_eq!(clopper_pearson(7, 7, level).unwrap().high, 1.0);
    }
    assert_eq!(
        wilson(0, 0, 0.95),
        Err(Lacking::TooFew {
            what: "cases",
            has: 0,
            needs: 1
        })
    );
    assert!(wilson(3, 2, 0.95).is_err() && clopper_pearson(1, 2, 1.0).is_err());
}
