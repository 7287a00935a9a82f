use evenshod::present::{Saving, long_day, when, when_clock};
use evenshod::records::{Day, Moment};

use crate::records::sample::{day, now};

#[test]
fn days_near_by_are_called_so() {
    let calls = |month, date| when(Day::new(2026, month, date).unwrap(), day());
    assert_eq!(calls(11, 25), "today");
    assert_eq!(calls(11, 24), "yesterday");
    assert_eq!(calls(11, 23), "23 Nov 2026");
    assert_eq!(calls(11, 26), "26 Nov 2026");
    assert_eq!(long_day(day()), "Wednesday 25 Nov 2026");
}

#[test]
fn moments_are_told_by_local_clocks() {
    let minutes = |minutes: i64| Moment::new(now().utc_ms() - 60_000 * minutes, 60);
    assert_eq!(when_clock(minutes(0), now()), "11:42");
    assert_eq!(when_clock(minutes(12 * 60), now()), "yesterday 23:42");
    assert_eq!(when_clock(minutes(48 * 60), now()), "23 Nov 2026 11:42");
}

#[test]
fn what_is_stored_is_said_in_words() {
    assert_eq!(Saving::Untouched.words(), "");
    assert_eq!(Saving::Saved(now()).words(), "Saved 11:42");
    assert_eq!(Saving::NotSaved.words(), "Not saved");
    assert!(Saving::NotSaved.is_unsafe_to_close());
    assert!(Saving::OnlyHere.is_unsafe_to_close());
    assert!(Saving::Saving.is_unsafe_to_close());
}
