//! Faults, states, cause groups.

use super::{check, criteria, rubric};

const SAFETY: &str = r#"
[[sections.criteria]]
id = "safety"
name = "Safety"
kind = "faults"
marks = 4
faults = [
  { id = "glasses", name = "No eye protection", effect = "stop" },
  { id = "floor", name = "Hot steel on the floor", effect = "warn", deduct = 1 },
  { id = "tongs", name = "Loose tongs", effect = "deduct", deduct = 2, most = 3 },
]
[[sections.criteria]]
id = "weld"
name = "Weld"
kind = "judged"
stops_below = 1
not_applicable = "rescale"
levels = [
  { id = "closed", name = "Closed", marks = 6 },
  { id = "open", name = "Open", marks = 0 },
]
faults = [{ id = "wld4", name = "Flux pits", effect = "deduct", deduct = 1 }]
"#;

#[test]
fn an_untouched_list_is_missing_and_an_empty_one_is_not() {
    let rubric = criteria(SAFETY);
    check(
        &rubric,
        r#"{"levels": {"weld": "closed"}}"#,
        "safety [missing] not looked at yet
         weld [valued] Closed: 6 of 6
         6 of 10: incomplete",
    );
    check(
        &rubric,
        r#"{"levels": {"weld": "closed"}, "faults": {"safety": []}}"#,
        "safety [valued] no faults: 4 of 4
         weld [valued] Closed: 6 of 6
         10 of 10: pass",
    );
}

#[test]
fn faults_cost_up_to_their_own_most() {
    check(
        &criteria(SAFETY),
        r#"{"levels": {"weld": "closed"}, "faults": {"safety": ["tongs", "tongs"], "weld": ["wld4"]}}"#,
        "safety [valued] faults seen; Loose tongs 2 times, 3 off: 1 of 4
         weld [valued] Closed; Flux pits, 1 off: 5 of 6
         6 of 10: not yet",
    );
}

#[test]
fn the_weight_is_told_where_it_changes_the_marks() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "weld"
name = "Weld"
kind = "judged"
weight = "3/2"
stops_below = 1
levels = [
  { id = "closed", name = "Closed", marks = 6 },
  { id = "open", name = "Open", marks = 0 },
]
faults = [{ id = "wld4", name = "Flux pits", effect = "deduct", deduct = 1 }]
"#,
    );
    check(
        &rubric,
        r#"{"levels": {"weld": "closed"}, "faults": {"weld": ["wld4"]}}"#,
        "weld [valued] Closed; Flux pits, 1 off; 5 before the weight of 1.5: 7.5 of 9
         7.5 of 9: pass",
    );
}

#[test]
fn a_stop_records_all_marks_whatever_the_score() {
    check(
        &criteria(SAFETY),
        r#"{"levels": {"weld": "closed"}, "faults": {"safety": ["glasses"]}}"#,
        "safety [valued] faults seen; No eye protection: 4 of 4
         weld [valued] Closed: 6 of 6
         10 of 10: not yet
         stopped by safety",
    );
}

#[test]
fn the_second_warning_stops() {
    let rubric = criteria(SAFETY);
    check(
        &rubric,
        r#"{"levels": {"weld": "closed"}, "faults": {"safety": ["floor"]}}"#,
        "safety [valued] faults seen; Hot steel on the floor, 1 off: 3 of 4
         weld [valued] Closed: 6 of 6
         9 of 10: pass",
    );
    check(
        &rubric,
        r#"{"levels": {"weld": "closed"}, "faults": {"safety": ["floor", "floor"]}}"#,
        "safety [valued] faults seen; Hot steel on the floor 2 times, 2 off: 2 of 4
         weld [valued] Closed: 6 of 6
         8 of 10: not yet
         stopped by safety",
    );
}

#[test]
fn only_a_named_chief_examiner_with_a_reason_lifts_a_stop() {
    let rubric = criteria(SAFETY);
    let lifted = |by: &str, reason: &str| {
        format!(
            r#"{{"levels": {{"weld": "open"}}, "faults": {{"safety": []}},
                "lifts": [{{"entry": "weld", "by": "{by}", "reason": "{reason}"}}]}}"#
        )
    };
    check(
        &rubric,
        &lifted("", "break test held"),
        "safety [valued] no faults: 4 of 4
         weld [valued] Open: 0 of 6
         4 of 10: not yet
         stopped by weld",
    );
    check(
        &rubric,
        &lifted("A. Chief", "break test held"),
        "safety [valued] no faults: 4 of 4
         weld [valued] Open: 0 of 6
         4 of 10: not yet",
    );
}

#[test]
fn states_are_one_of_five() {
    let rubric = criteria(SAFETY);
    check(
        &rubric,
        r#"{"states": {"safety": "not made", "weld": {"state": "can't be measured", "reason": "bar broken off", "marks": "1/2"}}}"#,
        "safety [not made] not made: 0 of 4
         weld [can't be measured] can't be measured (bar broken off), by the examiner's decision: 0.5 of 6
         0.5 of 10: not yet
         stopped by weld",
    );
    check(
        &rubric,
        r#"{"faults": {"safety": []}, "states": {"weld": {"state": "can't be measured", "reason": "bar broken off", "marks": "two"}}}"#,
        "safety [valued] no faults: 4 of 4
         weld [can't be measured] `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2
         4 of 10: incomplete
         ! weld: `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
    );
    check(
        &rubric,
        r#"{"faults": {"safety": []}, "states": {"weld": {"state": "can't be measured", "reason": "bar broken off", "marks": 7}}}"#,
        "safety [valued] no faults: 4 of 4
         weld [can't be measured] 7 marks cannot be given; use 0 to 6
         4 of 10: incomplete
         ! weld: 7 marks cannot be given; use 0 to 6",
    );
    check(
        &rubric,
        r#"{"faults": {"safety": []}, "states": {"weld": "not applicable"}}"#,
        "safety [valued] no faults: 4 of 4
         weld [not applicable] not applicable: its marks leave the total
         4 of 4: pass",
    );
    check(
        &rubric,
        r#"{"states": {"safety": "not applicable", "weld": "can't be measured"}}"#,
        "safety [missing] the rubric does not allow not applicable here; use not made, or can't be measured
         weld [can't be measured] can't be measured: write the reason
         0 of 10: incomplete
         ! safety: the rubric does not allow not applicable here; use not made, or can't be measured
         ! weld: can't be measured: write the reason",
    );
}

#[test]
fn one_error_is_charged_once_the_largest_loss_first() {
    let criterion = |id: &str, marks: u32| {
        format!(
            r#"
[[sections.criteria]]
id = "{id}"
name = "{id}"
kind = "judged"
cause = "short"
levels = [{{ id = "good", name = "Good", marks = {marks} }}, {{ id = "bad", name = "Bad", marks = 0 }}]
"#
        )
    };
    let rubric = rubric(&format!(
        r#"
award = {{ pass = "65 %" }}
causes = [{{ id = "short", name = "short stock", most = 5 }}]
[[sections]]
id = "all"
name = "All"
{}{}{}
"#,
        criterion("length", 4),
        criterion("heels", 3),
        criterion("fit", 3)
    ));
    // Lost 4 + 3 + 3 = 10, charged 5: 4 for length, 1 of heels, nothing of fit.
    check(
        &rubric,
        r#"{"levels": {"length": "bad", "heels": "bad", "fit": "bad"}}"#,
        "length [valued] Bad: 0 of 4
         heels [valued] Bad: 0 of 3; 2 given back, charged once for short stock
         fit [valued] Bad: 0 of 3; 3 given back, charged once for short stock
         5 of 10: not yet",
    );
}
