//! Toleranced, paired and spread criteria.

use evenshod::marking::mark_in;
use evenshod::quantity::Unit;

use super::{check, criteria, facts};

const WIDTH: &str = r#"
[[sections.criteria]]
id = "width"
name = "Overall width"
kind = "toleranced"
target = "piece.finished.width"
bands = [{ within = "1.5 mm", marks = 4 }, { within = "3 mm", marks = 2, name = "fair" }]
"#;

#[test]
fn on_the_limit_is_inside() {
    let rubric = criteria(WIDTH);
    check(
        &rubric,
        r#"{"readings": {"width": ["130.5"]}}"#,
        "width [valued] 130.5 mm, 1.5 mm over 129 mm, within 1.5 mm: 4 of 4
         4 of 4: pass",
    );
}

#[test]
fn a_nanometre_beyond_the_limit_is_outside_and_says_so() {
    let rubric = criteria(WIDTH);
    check(
        &rubric,
        r#"{"readings": {"width": ["130.501"]}}"#,
        "width [valued] 130.501 mm, 1.501 mm over 129 mm, within 3 mm: 2 of 4
         2 of 4: not yet",
    );
    check(
        &rubric,
        r#"{"readings": {"width": ["130.500001"]}}"#,
        "width [valued] 130.500001 mm, 1.500001 mm over 129 mm, within 3 mm: 2 of 4
         2 of 4: not yet",
    );
}

/// Tenths of an inch: 0.1 + 0.2 is 0.3 here, and is not where numbers are binary.
#[test]
fn inch_fractions_compare_exactly() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "inset"
name = "Inset"
kind = "toleranced"
target = "1/10 in"
bands = [{ within = "2/10 in", marks = 4 }]
"#,
    );
    for (text, expect) in [
        (
            "3/10",
            "inset [valued] 7.6 mm, 5.1 mm over 2.5 mm, within 5.1 mm: 4 of 4
             4 of 4: pass",
        ),
        (
            "0.300001 in",
            "inset [valued] 7.62003 mm, 5.08003 mm over 2.54 mm, outside 5.08 mm: 0 of 4
             0 of 4: not yet",
        ),
    ] {
        let facts = format!(r#"{{"readings": {{"inset": ["{text}"]}}}}"#);
        check(&rubric, &facts, expect);
    }
}

/// What no 64th of an inch says exactly stands in millimetres on a sheet in inches.
#[test]
fn limits_are_said_exactly_on_a_sheet_in_inches() {
    let rubric = criteria(WIDTH);
    let said = |text: &str| {
        let facts = facts(&format!(r#"{{"readings": {{"width": ["{text}"]}}}}"#));
        let marking = mark_in(&rubric, &facts, Unit::Inch64);
        marking.criteria.first().unwrap().reason.clone()
    };
    assert_eq!(
        said("5 1/8"),
        "5 1/8 in, 3/64 in over 129 mm, within 1.5 mm: 4 of 4"
    );
    // 5 9/64 in is 130.571875 mm, which is 1.571875 mm over: a 64th would not tell it from 1.5 mm.
    assert_eq!(
        said("5 9/64"),
        "130.6 mm, 1.6 mm over 129 mm, within 3 mm: 2 of 4"
    );
}

#[test]
fn beyond_every_band_says_outside_which() {
    check(
        &criteria(WIDTH),
        r#"{"readings": {"width": ["125"]}}"#,
        "width [valued] 125.0 mm, 4.0 mm under 129 mm, outside 3 mm: 0 of 4
         0 of 4: not yet",
    );
}

#[test]
fn repeats_count_by_their_exact_mean() {
    // (130.4 + 130.5 + 130.6) / 3 = 130.5, on the limit.
    check(
        &criteria(WIDTH),
        r#"{"readings": {"width": ["130.4", "130.5", "130.6 mm"]}}"#,
        "width [valued] mean of 3 readings 130.5 mm, 1.5 mm over 129 mm, within 1.5 mm: 4 of 4
         4 of 4: pass",
    );
}

#[test]
fn a_gauge_verdict_gives_marks_where_it_decides() {
    let rubric = criteria(WIDTH);
    check(
        &rubric,
        r#"{"readings": {"width": ["within"]}}"#,
        "width [valued] by gauge 127.5 mm to 130.5 mm: 4 of 4
         4 of 4: pass",
    );
    check(
        &rubric,
        r#"{"readings": {"width": ["over fair"]}}"#,
        "width [valued] by gauge over 132 mm: 0 of 4
         0 of 4: not yet",
    );
}

#[test]
fn a_gauge_verdict_asks_for_a_value_where_it_does_not_decide() {
    check(
        &criteria(WIDTH),
        r#"{"readings": {"width": ["over"]}}"#,
        "width [missing] over 130.5 mm lies across 132 mm: write a value to decide it
         0 of 4: incomplete",
    );
}

#[test]
fn an_unknown_limit_names_the_known_ones() {
    check(
        &criteria(WIDTH),
        r#"{"readings": {"width": ["within good"]}}"#,
        "width [missing] there is no limit called `good`; use one of fair, or a value
         0 of 4: incomplete
         ! width: there is no limit called `good`; use one of fair, or a value",
    );
}

const BACK: &str = r#"
[[sections.criteria]]
id = "back"
name = "Back edge"
kind = "toleranced"
bands = [{ at_most = "0.4 mm", marks = 5 }, { at_most = "0.8 mm", marks = 2 }]
stops_outside = { at_most = "2 mm" }
"#;

#[test]
fn a_feeler_interval_includes_its_lower_end_only() {
    // The last feeler that goes and the first that does not: at least 0.3, less than 0.4.
    let rubric = criteria(BACK);
    check(
        &rubric,
        r#"{"readings": {"back": ["0.3..0.4"]}}"#,
        "back [valued] at least 0.3 mm and less than 0.4 mm: 5 of 5
         5 of 5: pass",
    );
    check(
        &rubric,
        r#"{"readings": {"back": ["0.4..0.5"]}}"#,
        "back [missing] at least 0.4 mm and less than 0.5 mm lies across 0.4 mm: write a value to decide it
         0 of 5: incomplete",
    );
    check(
        &rubric,
        r#"{"readings": {"back": ["0.35..0.4"]}}"#,
        "back [valued] at least 0.35 mm and less than 0.4 mm: 5 of 5
         5 of 5: pass",
    );
}

#[test]
fn outside_a_stop_limit_the_award_is_stopped_and_marks_stay() {
    check(
        &criteria(BACK),
        r#"{"readings": {"back": ["2.1"]}}"#,
        "back [valued] 2.1 mm, over 0.8 mm: 0 of 5
         0 of 5: not yet
         stopped by back",
    );
}

#[test]
fn a_hot_reading_is_never_used() {
    check(
        &criteria(BACK),
        r#"{"readings": {"back": [{"text": "0.2", "hot": true}]}}"#,
        "back [missing] taken hot, so not used: measure it cold
         0 of 5: incomplete",
    );
}

#[test]
fn a_target_is_worked_out_from_another_reading() {
    // Two thirds of 9.6 mm is 6.4 mm. Source: Lungwitz and Adams 1913, p. 110 (fuller depth).
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "depth"
name = "Fuller depth"
kind = "toleranced"
target = "2/3 of thickness"
bands = [{ within = "10 %", marks = 6 }, { within = "20 %", marks = 3 }]
[[sections.criteria]]
id = "thickness"
name = "Thickness"
kind = "toleranced"
target = "piece.stock.thickness"
bands = [{ within = "0.5 mm", marks = 2 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"depth": ["5.76"], "thickness": ["9.6"]}}"#,
        "depth [valued] 5.8 mm, 0.6 mm under 6.4 mm, within 0.6 mm: 6 of 6
         thickness [valued] 9.6 mm, 0.1 mm over 9.5 mm, within 0.5 mm: 2 of 2
         8 of 8: pass",
    );
    check(
        &rubric,
        r#"{"readings": {"depth": ["5.76"]}}"#,
        "depth [missing] needs a value of Thickness
         thickness [missing] no reading yet
         0 of 8: incomplete",
    );
}

#[test]
fn a_pair_is_marked_by_its_difference() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "branches"
name = "Branches alike"
kind = "paired"
bands = [{ within = "1.5 mm", marks = 8 }, { within = "3 mm", marks = 6 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"branches-left": ["131"], "branches-right": ["133.4"]}}"#,
        "branches [valued] left 131.0 mm, right 133.4 mm, difference 2.4 mm, within 3 mm: 6 of 8
         6 of 8: pass",
    );
    check(
        &rubric,
        r#"{"readings": {"branches-left": ["131"]}}"#,
        "branches [missing] right side: no reading yet
         0 of 8: incomplete",
    );
    check(
        &rubric,
        r#"{"readings": {"branches-left": [{"text": "131", "hot": true}], "branches-right": ["133.4"]}}"#,
        "branches [missing] left side: taken hot, so not used: measure it cold
         0 of 8: incomplete",
    );
}

#[test]
fn an_intended_difference_is_taken_off() {
    // The outer branch of a base-narrow shoe is a quarter inch longer: Lungwitz and Adams 1913.
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "branches"
name = "Branches"
kind = "paired"
intended = "1/4 in"
bands = [{ within = "1 mm", marks = 3 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"branches-left": ["137.35"], "branches-right": ["131"]}}"#,
        "branches [valued] left 137.4 mm, right 131.0 mm, difference 6.4 mm, as asked for, within 1 mm: 3 of 3
         3 of 3: pass",
    );
}

#[test]
fn a_series_is_marked_by_its_spread_and_wants_all_its_members() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "spacing"
name = "Spacing"
kind = "spread"
count = 3
bands = [{ at_most = "1.5 mm", marks = 4 }, { at_most = "3 mm", marks = 2 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"spacing": [27, 28.4, "30 mm"]}}"#,
        "spacing [valued] 3 readings from 27.0 mm to 30.0 mm, range 3.0 mm, at most 3 mm: 2 of 4
         2 of 4: not yet",
    );
    check(
        &rubric,
        r#"{"readings": {"spacing": [27, 28.4]}}"#,
        "spacing [missing] 2 of 3 readings
         0 of 4: incomplete",
    );
}

#[test]
fn several_shoes_have_an_entry_each_and_a_match_between_them() {
    let rubric = super::rubric(
        r#"
award = { pass = "50 %" }
shoes = [{ id = "near", name = "Near fore" }, { id = "off", name = "Off fore" }]
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
target = "129 mm"
bands = [{ within = "1 mm", marks = 2 }]
[[sections.criteria]]
id = "match"
name = "Match"
kind = "paired"
for = "piece"
left = "near.width"
right = "off.width"
bands = [{ within = "0.5 mm", marks = 4 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"near.width": ["129"], "off.width": ["130"]}}"#,
        "near.width [valued] 129.0 mm, as asked for, within 1 mm: 2 of 2
         off.width [valued] 130.0 mm, 1.0 mm over 129 mm, within 1 mm: 2 of 2
         match [valued] left 129.0 mm, right 130.0 mm, difference 1.0 mm, outside 0.5 mm: 0 of 4
         4 of 8: pass",
    );
}

/// "6, as asked for, 6, within 0" says one thing four times.
#[test]
fn an_exact_count_is_worded_once() {
    let rubric = criteria(
        r#"
[[sections.criteria]]
id = "holes"
name = "Holes"
kind = "toleranced"
measures = "count"
target = "6"
bands = [{ within = "0", marks = 2 }]
"#,
    );
    check(
        &rubric,
        r#"{"readings": {"holes": ["6"]}}"#,
        "holes [valued] 6, as asked for: 2 of 2
         2 of 2: pass",
    );
    check(
        &rubric,
        r#"{"readings": {"holes": ["5"]}}"#,
        "holes [valued] 5, 1 under 6: 0 of 2
         0 of 2: not yet",
    );
}
