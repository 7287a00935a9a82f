//! The sign that says what is invented.

use evenshod::present::{invented_sign, open_invented, remove_invented};
use evenshod::records::Ledger;

use crate::records::sample::{after, day, stamp, with_draft};

#[test]
fn the_sign_stands_while_anybody_is_invented() {
    let (own, _) = with_draft();
    assert_eq!(invented_sign(&own), None);
    let open = open_invented(&own, day()).unwrap();
    let (both, _) = after(&own, open, &stamp(10));
    let sign = invented_sign(&both).unwrap();
    assert!(
        sign.text
            .starts_with("Wexcombe Forge School (invented) is open"),
        "{}",
        sign.text
    );
    assert_eq!(sign.button, Some("Take it out"));
    let refused = open_invented(&both, day()).unwrap_err();
    assert!(refused.contains("open already"), "{refused}");
    let (left, _) = after(&both, remove_invented(), &stamp(11));
    assert_eq!(invented_sign(&left), None);
    let texts = |ledger: &Ledger| {
        ledger
            .records()
            .map(|record| record.write().unwrap())
            .collect::<Vec<_>>()
    };
    assert_eq!(texts(&left), texts(&own));
}
