//! Counts, durations and the time rule.

use super::{check, criteria, rubric};

#[test]
fn each_started_unit_beyond_the_allowance_costs() {
    let rubric = rubric(
        r#"
award = { pass = "65 %" }
heats = [{ part = "toe", count = 1 }, { part = "bar", count = 3 }, { part = "weld", count = 2, weld = true }]
[[sections]]
id = "work"
name = "Work"
[[sections.criteria]]
id = "heats"
name = "Heats"
kind = "tally"
marks = 5
allowance = "planned heats"
deduct = "1/2"
hard_limit = 12
"#,
    );
    check(
        &rubric,
        r#"{"tallies": {"heats": 6}}"#,
        "heats [valued] 6, 6 allowed: 5 of 5
         5 of 5: pass",
    );
    check(
        &rubric,
        r#"{"tallies": {"heats": "9"}}"#,
        "heats [valued] 9, 6 allowed, 3 over, 1/2 off for each 1 started: 3.5 of 5
         3.5 of 5: pass"
            .replace("1/2 off", "0.5 off")
            .as_str(),
    );
    check(
        &rubric,
        r#"{"tallies": {"heats": 13}}"#,
        "heats [valued] 13, 6 allowed, past the hard limit of 12: 0 of 5
         0 of 5: not yet
         stopped by heats",
    );
    check(
        &rubric,
        r#"{"tallies": {"heats": "two"}}"#,
        "heats [missing] `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2
         0 of 5: incomplete
         ! heats: `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
    );
}

fn timed(rule: &str) -> evenshod::rubric::Rubric {
    rubric(&format!(
        r#"
award = {{ pass = "65 %" }}
time = {{ limit = "35 min", {rule} }}
[[sections]]
id = "work"
name = "Work"
[[sections.criteria]]
id = "time"
name = "Time"
kind = "tally"
marks = 4
time_rule = true
"#
    ))
}

#[test]
fn time_over_the_limit_is_deducted_by_started_minutes_to_a_hard_stop() {
    let rubric = timed(r#"after = "deduct", deduct = 1, grace = "1 min", hard_stop = "45 min""#);
    check(
        &rubric,
        r#"{"tallies": {"time": "36 min"}}"#,
        "time [valued] 36 min, 36 min allowed: 4 of 4
         4 of 4: pass",
    );
    check(
        &rubric,
        r#"{"tallies": {"time": "37 min 1 s"}}"#,
        "time [valued] 37 min 1 s, 36 min allowed, 1 min 1 s over, 1 off for each 1 min started: 2 of 4
         2 of 4: not yet",
    );
    check(
        &rubric,
        r#"{"tallies": {"time": "45 min 1 s"}}"#,
        "time [valued] 45 min 1 s, 36 min allowed, past the hard limit of 45 min: 0 of 4
         0 of 4: not yet
         stopped by time",
    );
}

#[test]
fn exactly_on_the_limit_is_a_setting() {
    let over = timed(r#"after = "deduct", deduct = 1, on_the_limit = "over""#);
    check(
        &over,
        r#"{"tallies": {"time": "35"}}"#,
        "time [valued] 35 min, 35 min allowed, exactly on the limit, which counts as over, 1 off for each 1 min started: 3 of 4
         3 of 4: pass",
    );
    let inside = timed(r#"after = "deduct", deduct = 1, on_the_limit = "inside""#);
    check(
        &inside,
        r#"{"tallies": {"time": "35"}}"#,
        "time [valued] 35 min, 35 min allowed: 4 of 4
         4 of 4: pass",
    );
}

#[test]
fn pauses_and_extra_time_count_with_their_reasons() {
    let rubric = timed(r#"after = "mark as it stands""#);
    check(
        &rubric,
        r#"{"tallies": {"time": "44 min"}, "pauses": [{"duration": "4 min", "reason": "gas ran out"}],
            "extra_time": {"duration": "5 min", "reason": "agreed before"}}"#,
        "time [valued] 40 min without pauses of 4 min, 40 min allowed with 5 min extra time: 4 of 4
         4 of 4: pass",
    );
    check(
        &rubric,
        r#"{"tallies": {"time": "36 min"}}"#,
        "time [valued] 36 min, 35 min allowed, 1 min over; marked as it stood at the limit: 0 of 4
         0 of 4: not yet",
    );
}

#[test]
fn a_pause_without_reason_is_refused() {
    check(
        &timed(r#"after = "mark as it stands""#),
        r#"{"tallies": {"time": "36 min"}, "pauses": [{"duration": "4 min", "reason": " "}]}"#,
        "time [missing] a pause or extra time needs its reason; write why
         0 of 4: incomplete
         ! time: a pause or extra time needs its reason; write why",
    );
}

#[test]
fn numbers_that_cannot_be_given_are_refused_with_the_range() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "finish"
name = "Finish"
kind = "judged"
numbers = { least = 1, most = 10 }
descriptors = [{ at = 7, text = "sound" }]
"#,
    );
    check(
        &rubric,
        r#"{"levels": {"finish": 11}}"#,
        "finish [missing] `11` cannot be given; use 1 to 10 in steps of 1
         0 of 10: incomplete
         ! finish: `11` cannot be given; use 1 to 10 in steps of 1",
    );
    check(
        &rubric,
        r#"{"levels": {"finish": 7}}"#,
        "finish [valued] given 7, sound: 7 of 10
         7 of 10: pass",
    );
}
