//! When a first impression is locked, and what is said against one.

use evenshod::marking::{
    Facts, impression_is_locked, impression_number, is_counted_first, mark, numbers_words,
};
use evenshod::quantity::Marks;
use proptest::prelude::*;

use super::facts;
use crate::rubric::impression::rubric;

#[test]
fn it_is_locked_by_what_is_seen_of_the_finished_piece() {
    let asks = rubric("");
    let is_locked = |json: &str| impression_is_locked(Some(&asks), &facts(json));
    for open in [
        "{}",
        r#"{"impression": "7"}"#,
        // Instruments that lie ready, and one chosen before anything is typed.
        r#"{"readings": {"width": [{"text": " ", "instrument": "caliper"}]}}"#,
        // What is noted while the shoe is made.
        r#"{"faults": {"safety": []}}"#,
        r#"{"states": {"safety": "not made"}}"#,
        r#"{"lifts": [{"entry": "safety", "by": "C. Reed", "reason": "seen by both"}]}"#,
        r#"{"pauses": [{"duration": "4", "reason": "fire"}]}"#,
        r#"{"extra_time": {"duration": "4", "reason": "arranged"}}"#,
    ] {
        assert!(!is_locked(open), "{open}");
    }
    for locked in [
        r#"{"readings": {"width": ["130"]}}"#,
        r#"{"readings": {"width": [{"text": "130", "hot": true}]}}"#,
        r#"{"levels": {"weld": "sound"}}"#,
        r#"{"faults": {"weld": []}}"#,
        r#"{"states": {"width": "can't be measured"}}"#,
        r#"{"tallies": {"heats": "9"}}"#,
        r#"{"lifts": [{"entry": "weld", "by": "C. Reed", "reason": "seen by both"}]}"#,
    ] {
        assert!(is_locked(locked), "{locked}");
    }
    // Of a rubric that nobody can read all is something.
    assert!(impression_is_locked(
        None,
        &facts(r#"{"faults": {"safety": []}}"#)
    ));
    assert!(!impression_is_locked(
        None,
        &facts(r#"{"impression": "7"}"#)
    ));
}

#[test]
fn the_level_that_it_counts_as_does_not_lock_it_and_every_other_does() {
    let counts = rubric("counts_as = \"weld\"");
    let is_locked = |json: &str| impression_is_locked(Some(&counts), &facts(json));
    assert!(!is_locked(
        r#"{"levels": {"weld": "sound"}, "impression": "sound"}"#
    ));
    assert!(!is_locked(r#"{"levels": {"weld": "sound"}}"#));
    assert!(is_locked(r#"{"levels": {"whole": "7"}}"#));
    assert!(is_locked(r#"{"faults": {"weld": []}}"#));
}

#[test]
fn it_was_given_first_where_it_stands_twice() {
    let counts = rubric("counts_as = \"weld\"");
    let is_first = |json: &str| is_counted_first(&counts, &facts(json));
    assert!(is_first(
        r#"{"levels": {"weld": "sound"}, "impression": "sound"}"#
    ));
    assert!(!is_first(r#"{"levels": {"weld": "sound"}}"#));
    assert!(!is_first(
        r#"{"levels": {"weld": "open"}, "impression": "sound"}"#
    ));
    assert!(!is_first(r#"{"impression": "sound"}"#));
    assert!(!is_first("{}"));
    // A level of another criterion is no first impression.
    let apart = facts(r#"{"levels": {"weld": "sound"}, "impression": "sound"}"#);
    assert!(!is_counted_first(&rubric(""), &apart));
}

#[test]
fn what_cannot_be_one_is_told() {
    let told = |table: &str, json: &str| {
        let problems = mark(&rubric(table), &facts(json)).problems.into_iter();
        problems.map(|problem| problem.message).collect::<Vec<_>>()
    };
    assert!(told("", r#"{"impression": "7"}"#).is_empty());
    assert_eq!(
        told("", r#"{"impression": "7.5"}"#),
        ["first impression: `7.5` cannot be given; use 0 to 10 in steps of 1"]
    );
    assert_eq!(
        told("counts_as = \"weld\"", r#"{"impression": "sound"}"#),
        [
            "the first impression `sound` is not what was given for `weld`, which counts; give one \
          level at both, or take `impression` out"
        ]
    );
    let none = super::criteria(
        "[[sections.criteria]]\nid = \"a\"\nname = \"A\"\nkind = \"judged\"\nnumbers = { least = 0, \
         most = 5 }\n",
    );
    let problems = mark(&none, &facts(r#"{"impression": 7}"#)).problems;
    assert_eq!(
        problems[0].message,
        "the rubric asks for no first impression, and here is `7`; take `impression` out"
    );
}

/// Seals and files of before have no such key, and stay as they are.
#[test]
fn facts_without_one_are_written_as_before() {
    let text = serde_json::to_string(&Facts::default()).unwrap();
    assert!(!text.contains("impression"), "{text}");
    let with = facts(r#"{"impression": "7"}"#);
    let text = serde_json::to_string(&with).unwrap();
    assert!(text.ends_with(r#""impression":"7"}"#), "{text}");
    assert_eq!(facts(&text), with);
}

proptest! {
    #[test]
    fn any_text_is_a_number_of_the_scale_or_refused(text in "\\PC{0,12}", most in 1_i64..30) {
        let allowed: Vec<Marks> = (0..=most).map(Marks::whole).collect();
        match impression_number(&allowed, &text) {
            Ok(given) => prop_assert!(allowed.contains(&given)),
            Err(why) => prop_assert!(why.ends_with(&numbers_words(&allowed)), "{}", why),
        }
    }
}
