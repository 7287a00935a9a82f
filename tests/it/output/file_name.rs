use evenshod::output::file_base;
use evenshod::records::Day;
use proptest::prelude::*;

fn day() -> Day {
    Day::new(2026, 11, 25).unwrap()
}

#[test]
fn day_person_and_rubric_in_order() {
    assert_eq!(
        file_base(day(), "Ada Smith", "straight-bar-shoe"),
        "2026-11-25_ada-smith_straight-bar-shoe"
    );
    assert_eq!(
        file_base(day(), "ticket 14/B", "front"),
        "2026-11-25_ticket-14-b_front"
    );
    assert_eq!(file_base(day(), "../..", "con"), "2026-11-25_con");
    assert_eq!(
        file_base(day(), "Łucja Źdźbło", "x"),
        "2026-11-25_łucja-źdźbło_x"
    );
}

proptest! {
    /// No system takes any of it for a folder, an ending, a device or too long.
    #[test]
    fn any_texts_give_a_safe_name(whose in any::<String>(), rubric in any::<String>()) {
        let name = file_base(day(), &whose, &rubric);
        prop_assert!(name.starts_with("2026-11-25"), "{name}");
        prop_assert!(name.len() <= 200, "{name}");
        prop_assert!(!name.ends_with(['-', '_', '.', ' ']), "{name}");
        let plain = |c: char| c.is_alphanumeric() || c == '-' || c == '_';
        prop_assert!(name.chars().all(plain), "{name}");
    }
}
