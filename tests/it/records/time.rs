use evenshod::records::{Day, Device, LAST_MILLISECOND, MarkingId, Moment, PieceId, Stamp};
use proptest::prelude::*;

use super::sample::{NOW_MS, device, now, stamp};

#[test]
fn moments_print_as_people_write_them_and_rest_as_rfc_3339() {
    assert_eq!(now().to_string(), "25 Nov 2026 11:42");
    assert_eq!(now().rfc3339(), "2026-11-25T11:42:00.000+01:00");
    assert_eq!(now().day().to_string(), "25 Nov 2026");
    let west = Moment::new(0, -90);
    assert_eq!(west.to_string(), "31 Dec 1969 22:30");
    assert_eq!(west.rfc3339().parse(), Ok(west));
}

#[test]
fn texts_that_are_no_time_are_refused_with_what_to_write() {
    for text in ["", "2026-11-25", "2026-11-25T25:00:00Z", "soon"] {
        let error = text.parse::<Moment>().unwrap_err();
        assert!(error.to_string().contains("write it like"), "{error}");
    }
    for text in [
        "",
        "2026-02-30",
        "25 Nov 2026",
        "2026-1-05",
        "2026-11-25x",
        "0000-01-01",
        "+026-11-25",
    ] {
        let error = text.parse::<Day>().unwrap_err();
        assert!(error.to_string().contains("write it like"), "{error}");
    }
    assert_eq!("2026-11-25".parse(), Ok(now().day()));
}

#[test]
fn a_clock_set_back_makes_no_stamp_go_back() {
    let before = stamp(100);
    let next = Stamp::next(&before, NOW_MS - 1_000_000, device(1));
    assert!(next > before);
    assert_eq!((next.time, next.counter), (before.time, 1));
}

#[test]
fn a_clock_set_years_ahead_does_not_win_for_ever() {
    let wrong = Stamp::first(NOW_MS + 100_000_000_000, device(1));
    let right = Stamp::next(&wrong, NOW_MS, device(2));
    assert!(
        right > wrong,
        "whoever has seen the wrong stamp goes on from it"
    );
    let again = Stamp::next(&right, NOW_MS, device(1));
    assert!(again > right);
}

#[test]
fn the_last_counter_is_followed_by_the_next_millisecond() {
    let full = Stamp {
        counter: u32::MAX,
        ..stamp(0)
    };
    let next = Stamp::next(&full, 0, device(1));
    assert_eq!((next.time, next.counter), (full.time + 1, 0));
}

#[test]
fn a_stamp_after_an_older_one_stays_as_it_is() {
    assert_eq!(stamp(2).after(&stamp(1)), stamp(2));
    let pushed = stamp(1).after(&stamp(2));
    assert!(pushed > stamp(2));
    assert_eq!(pushed.device, device(1));
}

#[test]
fn stamps_past_the_year_9999_are_refused() {
    let json = |time: u64| format!(r#"{{"time":{time},"counter":0,"device":"x"}}"#);
    assert!(serde_json::from_str::<Stamp>(&json(LAST_MILLISECOND)).is_ok());
    assert!(serde_json::from_str::<Stamp>(&json(LAST_MILLISECOND + 1)).is_err());
}

#[test]
fn devices_of_one_name_differ_by_their_random_part() {
    let (one, other) = (
        Device::new(" Anvil ~ 2 ", [1; 8]),
        Device::new("Anvil ~ 2", [2; 8]),
    );
    assert_ne!(one, other);
    assert_eq!(one.name(), "Anvil ~ 2");
    assert_eq!(one.text(), "Anvil ~ 2~0101010101010101");
}

#[test]
fn ids_are_version_7_repeat_for_a_stamp_and_sort_as_made() {
    let id = MarkingId::made_by(&stamp(0), 4);
    assert_eq!(id, MarkingId::made_by(&stamp(0), 4));
    assert_ne!(id, MarkingId::made_by(&stamp(0), 5));
    assert_ne!(id, MarkingId::made_by(&super::sample::stamp_of(2, 0), 4));
    let text = id.to_string();
    assert_eq!(text.parse::<MarkingId>().ok(), Some(id));
    assert_eq!((text.len(), &text[14..15]), (36, "7"));
    assert_eq!(
        u64::from_str_radix(&text.replace('-', "")[..12], 16),
        Ok(NOW_MS)
    );

    let mut last = stamp(0);
    for _ in 0..300 {
        let next = Stamp::next(&last, NOW_MS, device(1));
        assert!(PieceId::made_by(&last, 0) < PieceId::made_by(&next, 0));
        last = next;
    }
}

proptest! {
    #[test]
    fn every_moment_reads_back(ms in any::<i64>(), offset in any::<i16>()) {
        let moment = Moment::new(ms, offset);
        prop_assert_eq!(moment.rfc3339().parse(), Ok(moment));
        prop_assert_eq!(moment.day().iso().parse(), Ok(moment.day()));
    }

    #[test]
    fn the_next_stamp_is_always_later(
        time in 0..LAST_MILLISECOND,
        counter in any::<u32>(),
        now in any::<u64>(),
        tab in any::<u8>(),
    ) {
        let last = Stamp { time, counter, device: device(255) };
        let next = Stamp::next(&last, now, device(tab));
        prop_assert!(next > last);
        prop_assert!(next.time <= LAST_MILLISECOND);
    }
}

#[test]
fn months_are_counted_whole() {
    let on = |year, month, day| Day::new(year, month, day).unwrap();
    let from = on(2026, 1, 31);
    for (day, months) in [
        (on(2026, 1, 31), 0),
        (on(2026, 2, 28), 0),
        (on(2026, 3, 31), 2),
        (on(2027, 1, 30), 11),
        (on(2027, 1, 31), 12),
        (on(2026, 1, 30), -1),
    ] {
        assert_eq!(day.months_since(from), months, "{day}");
    }
}
