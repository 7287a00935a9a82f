//! Published judging schemes, each a rubric of its own in tests/data/schemes,
//! with what goes in and what must come out. Scales are never merged: what one
//! scheme calls a pass says nothing about another.

use std::fs;
use std::path::{Path, PathBuf};

use evenshod::marking::{Facts, Marking, mark};
use evenshod::quantity::{Duration, Marks};
use evenshod::rubric::{Rubric, read_rubric};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/schemes")
}

fn text_of(name: &str) -> String {
    fs::read_to_string(folder().join(name).with_extension("toml")).unwrap()
}

#[track_caller]
fn rubric_of(text: &str) -> Rubric {
    let checked = read_rubric(text);
    let found: Vec<_> = checked
        .diagnostics
        .iter()
        // A published scheme says how marks are given, not what to practise.
        .filter(|found| !found.what.starts_with("nothing to practise"))
        .map(ToString::to_string)
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
    checked.rubric.unwrap()
}

#[track_caller]
fn scheme(name: &str) -> Rubric {
    rubric_of(&text_of(name))
}

#[track_caller]
fn mark_with(rubric: &Rubric, json: &str) -> Marking {
    let facts: Facts = serde_json::from_str(json).unwrap();
    mark(rubric, &facts)
}

/// Marks these facts and compares `award marks grade stopped-by`; a dash where
/// there is none.
#[track_caller]
fn check(rubric: &Rubric, json: &str, expect: &str) {
    let marking = mark_with(rubric, json);
    let stopped = marking.stopped_by.join(",");
    let found = [
        marking.award.word(),
        &marking.marks.to_string(),
        marking.grade.as_deref().unwrap_or("-"),
        if stopped.is_empty() { "-" } else { &stopped },
    ];
    assert_eq!(found.join(" | "), expect, "{json}");
    assert_eq!(marking.complete, marking.award.word() != "incomplete");
}

/// What cannot be given is said, and counts for nothing.
#[track_caller]
fn check_rejected(rubric: &Rubric, json: &str, entry: &str) {
    let marking = mark_with(rubric, json);
    assert!(marking.missing.iter().any(|id| id == entry), "{json}");
    assert!(
        marking.problems.iter().any(|problem| problem.id == entry),
        "{json}"
    );
    assert_eq!(marking.award.word(), "incomplete", "{json}");
}

#[test]
fn every_scheme_reads_and_names_its_source() {
    let mut count = 0;
    for file in fs::read_dir(folder()).unwrap() {
        let path = file.unwrap().path();
        let rubric = rubric_of(&fs::read_to_string(&path).unwrap());
        assert!(!rubric.source.is_empty(), "{}", path.display());
        assert_eq!(path.file_stem().unwrap(), rubric.id.as_str());
        count += 1;
    }
    assert_eq!(count, 14);
}

fn four_categories(marks: [i32; 4], faults: &str) -> String {
    let [feet, shoe, fit, finish] = marks;
    format!(
        r#"{{"levels": {{"foot-preparation": {feet}, "shoe-quality": {shoe}, "shoe-fit": {fit},
            "finish": {finish}}}, "faults": {{{faults}}}}}"#
    )
}

/// Source: Farrier International Testing System, judging the practical shoeing:
/// 1 to 10 each, 28 of 40 passes, no minimum for a category, automatic fails.
#[test]
fn four_categories_pass_at_28_of_40() {
    let rubric = scheme("fits-four-categories");
    assert_eq!(rubric.examiners, 2);
    assert_eq!(rubric.out_of(), Some(Marks::whole(40)));
    check(
        &rubric,
        &four_categories([7, 7, 7, 7], ""),
        "pass | 28 | - | -",
    );
    check(
        &rubric,
        &four_categories([6, 8, 7, 7], ""),
        "pass | 28 | - | -",
    );
    check(
        &rubric,
        &four_categories([10, 9, 5, 3], ""),
        "not yet | 27 | - | -",
    );
    check(
        &rubric,
        &four_categories([10, 10, 4, 4], ""),
        "pass | 28 | - | -",
    );
}

/// Source: as above, the automatic fails.
#[test]
fn an_uncovered_heel_fails_whatever_the_composite() {
    let rubric = scheme("fits-four-categories");
    let full = |faults: &str| four_categories([10, 10, 10, 10], faults);
    check(&rubric, &full(""), "pass | 40 | - | -");
    check(
        &rubric,
        &full(r#""shoe-fit": ["heel-uncovered"]"#),
        "not yet | 40 | - | shoe-fit",
    );
    for fault in ["sole-pressure", "blood"] {
        check(
            &rubric,
            &full(&format!(r#""foot-preparation": ["{fault}"]"#)),
            "not yet | 40 | - | foot-preparation",
        );
    }
}

/// Source: as above, scale 1 to 10.
#[test]
fn the_scale_of_four_categories_has_no_0_and_no_11() {
    let rubric = scheme("fits-four-categories");
    for outside in [0, 11, -1] {
        check_rejected(
            &rubric,
            &four_categories([7, 7, outside, 7], ""),
            "shoe-fit",
        );
    }
    for inside in 1..=10 {
        let marking = mark_with(&rubric, &four_categories([7, 7, inside, 7], ""));
        assert!(marking.complete && marking.problems.is_empty(), "{inside}");
    }
}

/// Source: American Farrier's Association, Certification Guide 2022, pp. 51-53.
#[test]
fn five_values_and_no_other() {
    let rubric = scheme("afa-five-values");
    let of = |value: &str| format!(r#"{{"levels": {{"clip": "{value}", "nail-line": 10}}}}"#);
    for (value, sum) in [("10", 20), ("8", 18), ("6", 16), ("4", 14), ("3", 13)] {
        check(&rubric, &of(value), &format!("pass | {sum} | - | -"));
    }
    for value in ["9", "7", "5", "0", "1", "2", "3.5", "11", "ten"] {
        check_rejected(&rubric, &of(value), "clip");
    }
}

fn score(per_cent: u32) -> String {
    format!(r#"{{"levels": {{"score": {per_cent}}}}}"#)
}

/// Source: American Farrier's Association, Certification Study Guide 2015, and
/// the menu of levels: 80 per cent certifies, 70 counts for Classification.
#[test]
fn a_written_79_does_not_certify_but_counts_for_classification() {
    let rubric = scheme("afa-written");
    check(&rubric, &score(69), "not yet | 69 | - | -");
    check(&rubric, &score(70), "not yet | 70 | Classification | -");
    check(&rubric, &score(79), "not yet | 79 | Classification | -");
    check(&rubric, &score(80), "pass | 80 | Certified | -");
}

/// Source: account of the UK Diploma examination of October 2012: 65 % is C and
/// passes, "85 plus" is A.
#[test]
fn the_diploma_passes_at_65_and_is_an_a_from_85() {
    let rubric = scheme("uk-diploma-2012-theory");
    check(&rubric, &score(64), "not yet | 64 | - | -");
    check(&rubric, &score(65), "pass | 65 | C | -");
    check(&rubric, &score(84), "pass | 84 | C | -");
    check(&rubric, &score(85), "pass | 85 | A | -");
}

/// Source: Association of Farrier Trainers of Canada, levels 1 to 3: practical
/// 70 %, written 80 %.
#[test]
fn canada_passes_practical_at_70_and_written_at_80() {
    let practical = scheme("canada-practical");
    check(&practical, &score(69), "not yet | 69 | - | -");
    check(&practical, &score(70), "pass | 70 | - | -");
    let written = scheme("canada-written");
    check(&written, &score(79), "not yet | 79 | - | -");
    check(&written, &score(80), "pass | 80 | - | -");
}

fn time(seconds: u32) -> String {
    format!(r#"{{"tallies": {{"time": "{seconds} s"}}}}"#)
}

/// Source: accounts of the Journeyman test (35 min); Farrier International
/// Testing System, professional (100 min) and advanced level (2 h 30, 2 h 50).
/// What counts exactly on the limit is not published: it is a setting.
#[test]
fn time_limits_to_the_second() {
    for (name, seconds) in [
        ("afa-journeyman-bar", 2100),
        ("fits-professional", 6000),
        ("fits-advanced-straight-or-egg-bar", 9000),
        ("fits-advanced-heart-bar", 10_200),
    ] {
        let rubric = scheme(name);
        let limit = rubric.time.as_ref().map(|rule| rule.limit);
        assert_eq!(
            limit,
            Some(Duration::from_base(i64::from(seconds) * 1000)),
            "{name}"
        );
        check(&rubric, &time(seconds - 1), "pass | 1 | - | -");
        check(&rubric, &time(seconds), "pass | 1 | - | -");
        check(&rubric, &time(seconds + 1), "not yet | 0 | - | -");

        let text = text_of(name);
        let over = r#"on_the_limit = "over""#;
        let strict = rubric_of(&text.replace(r#"on_the_limit = "inside""#, over));
        check(&strict, &time(seconds - 1), "pass | 1 | - | -");
        check(&strict, &time(seconds), "not yet | 0 | - | -");
    }
}

/// Source: a California perpetual draft-shoeing competition, 2017.
#[test]
fn a_fifth_heat_breaks_the_rule_of_four() {
    let rubric = scheme("draft-four-heats");
    let heats = |count: u32| format!(r#"{{"tallies": {{"heats": {count}}}}}"#);
    check(&rubric, &heats(3), "pass | 1 | - | -");
    check(&rubric, &heats(4), "pass | 1 | - | -");
    check(&rubric, &heats(5), "not yet | 0 | - | heats");
}

/// Source: England, Level 3 farrier end-point assessment: a board of typically 8
/// to 12 shoes.
#[test]
fn a_board_of_7_is_refused_and_of_13_is_warned_about() {
    let rubric = scheme("england-shoe-board");
    let shoes = |count: u32| format!(r#"{{"readings": {{"shoes": ["{count}"]}}}}"#);
    check(&rubric, &shoes(7), "not yet | 0 | - | shoes");
    check(&rubric, &shoes(8), "pass | 1 | - | -");
    check(&rubric, &shoes(12), "pass | 1 | - | -");
    check(&rubric, &shoes(13), "pass | 1 | - | -");
    let warned = |count| mark_with(&rubric, &shoes(count)).warnings.len();
    assert_eq!([8, 12, 13].map(warned), [0, 0, 1]);
}

/// Source: Queensland farriers' association: sections are summed, contests are
/// won by a quarter of a point.
#[test]
fn quarter_marks_add_up_without_rounding() {
    let rubric = scheme("queensland-quarters");
    let of = |drawing: &str| {
        format!(
            r#"{{"levels": {{"drawing": "{drawing}", "finish": "7.25", "level": "7 1/4",
                "holes": "7,25"}}}}"#
        )
    };
    check(&rubric, &of("7.25"), "pass | 29 | - | -");
    let sum = mark_with(&rubric, &of("7.25")).marks;
    assert_eq!(sum.exact_text(), "29");
    let next = mark_with(&rubric, &of("7.5")).marks;
    assert_eq!(next.minus(sum), "1/4".parse().ok());
    check_rejected(&rubric, &of("7.3"), "drawing");
}

/// Source: Lincolnshire Show 2025, farriery classes: no safety glasses,
/// disqualified.
#[test]
fn no_eye_protection_is_disqualified_whatever_the_score() {
    let rubric = scheme("lincolnshire-apprentice");
    let of = |score: u32, fault: &str| {
        format!(r#"{{"levels": {{"score": {score}}}, "faults": {{"safety": [{fault}]}}}}"#)
    };
    check(&rubric, &of(100, ""), "pass | 100 | - | -");
    for score in [0, 65, 100] {
        check(
            &rubric,
            &of(score, r#""no-glasses""#),
            &format!("not yet | {score} | - | safety"),
        );
    }
}
