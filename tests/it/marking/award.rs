//! Sections, weights, minima, caps, pass mark, grades.

use evenshod::marking::{Award, mark};
use evenshod::quantity::Marks;

use super::{check, facts, rubric};

fn two_sections(first: &str, second: &str, award: &str) -> evenshod::rubric::Rubric {
    let criterion = |id: &str| {
        format!(
            r#"
[[sections.criteria]]
id = "{id}"
name = "{id}"
kind = "judged"
numbers = {{ least = 0, most = 10, step = "1/4" }}
not_applicable = "rescale"
"#
        )
    };
    rubric(&format!(
        r#"
award = {{ {award} }}
[[sections]]
id = "one"
name = "One"
{first}
{}
[[sections]]
id = "two"
name = "Two"
{second}
{}
"#,
        criterion("a"),
        criterion("b")
    ))
}

#[test]
fn a_section_weight_scales_exactly() {
    // 7.25 of 10 scaled to 30 is 21.75; 5 of 10 scaled to 70 is 35.
    let rubric = two_sections("weight = 30", "weight = 70", r#"pass = "50 %""#);
    let marking = mark(&rubric, &facts(r#"{"levels": {"a": "7.25", "b": 5}}"#));
    assert_eq!(marking.marks.exact_text(), "227/4");
    assert_eq!(marking.out_of, Marks::whole(100));
    assert_eq!(marking.award, Award::Pass);
}

#[test]
fn a_cap_holds_and_a_minimum_stands_against_the_award() {
    let rubric = two_sections("cap = 6", "minimum = \"50 %\"", "pass = 8");
    let marking = mark(&rubric, &facts(r#"{"levels": {"a": 9, "b": "4.75"}}"#));
    assert_eq!(marking.marks, "10.75".parse().unwrap());
    assert_eq!(marking.out_of, Marks::whole(16));
    assert!(marking.sections[0].capped);
    assert_eq!(marking.award, Award::NotYet);
    assert!(
        marking
            .award_reasons
            .contains(&"Two has 4.75, its minimum is 5".to_owned())
    );
    let marking = mark(&rubric, &facts(r#"{"levels": {"a": 9, "b": 5}}"#));
    assert_eq!(marking.award, Award::Pass, "exactly the minimum is enough");
}

#[test]
fn the_pass_mark_is_compared_exactly_and_only_the_display_rounds() {
    // 12.75 of 20 is 63.75 %: it shows as 63.8 %, and 63.8 % is not reached.
    let rubric = two_sections("", "", r#"pass = "63.8 %""#);
    check(
        &rubric,
        r#"{"levels": {"a": "7.75", "b": 5}}"#,
        "a [valued] given 7.75: 7.75 of 10
         b [valued] given 5: 5 of 10
         12.75 of 20: not yet",
    );
}

#[test]
fn a_pass_mark_in_marks_shrinks_with_the_total() {
    let rubric = two_sections("", "", "pass = 13");
    let all = mark(&rubric, &facts(r#"{"levels": {"a": 6, "b": 6}}"#));
    assert_eq!(all.award, Award::NotYet);
    // Half the total is left: 6.5 of 10 pass.
    let half = r#"{"levels": {"a": "6.5"}, "states": {"b": "not applicable"}}"#;
    let half = mark(&rubric, &facts(half));
    assert_eq!(
        (half.pass_mark, half.award),
        ("6.5".parse().unwrap(), Award::Pass)
    );
}

#[test]
fn a_grade_may_lie_below_the_pass_and_the_highest_counts() {
    let award = r#"pass = "80 %", grades = [{ id = "c", name = "Counts", from = "70 %" }, { id = "a", name = "A", from = "90 %" }]"#;
    let rubric = two_sections("", "", award);
    let grade = |a: u32, b: u32| {
        let json = format!(r#"{{"levels": {{"a": {a}, "b": {b}}}}}"#);
        let marking = mark(&rubric, &facts(&json));
        (marking.award.word(), marking.grade)
    };
    assert_eq!(grade(10, 8), ("pass", Some("A".to_owned())));
    assert_eq!(grade(8, 8), ("pass", Some("Counts".to_owned())));
    assert_eq!(grade(7, 8), ("not yet", Some("Counts".to_owned())));
    assert_eq!(grade(7, 6), ("not yet", None));
}

#[test]
fn what_is_missing_leaves_the_award_open() {
    let rubric = two_sections("", "", "pass = 10");
    let marking = mark(&rubric, &facts(r#"{"levels": {"a": 10}}"#));
    assert_eq!(marking.award, Award::Incomplete);
    assert_eq!(marking.missing, ["b"]);
    assert_eq!(
        (marking.marks, marking.marked_out_of),
        (Marks::whole(10), Marks::whole(10))
    );
}
