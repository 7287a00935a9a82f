//! What a rubric asks at a first look.

use evenshod::quantity::Marks;
use evenshod::rubric::edit::compare;
use evenshod::rubric::{FirstImpression, Rubric, read_rubric};
use proptest::prelude::*;

use super::sample::{read, said_of, with_root};

/// A rubric with `table` for a first look, two criteria by eye and one of width, in that
/// order `whole`, `weld`, `width`, and one that is noted while the shoe is made, `safety`.
pub fn text(table: &str) -> String {
    with_root(&format!(
        r#"
[first_impression]
{table}

[[sections]]
id = "all"
name = "All"

[[sections.criteria]]
id = "whole"
name = "Overall impression"
kind = "judged"
numbers = {{ least = 0, most = 10 }}

[[sections.criteria]]
id = "weld"
name = "Weld"
kind = "judged"
levels = [
  {{ id = "sound", name = "Sound", text = "No line.", marks = 4 }},
  {{ id = "open", name = "Open", text = "It gives.", marks = 0 }},
]

[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
target = "130 mm"
bands = [{{ within = "1.5 mm", marks = 4 }}]

[[sections.criteria]]
id = "safety"
name = "Safety"
kind = "faults"
marks = 2
when = "during"
seen_from = "at the anvil"
faults = [{{ id = "eyes", name = "No eye protection", effect = "warn" }}]
"#
    ))
}

pub fn rubric(table: &str) -> Rubric {
    read(&text(table))
}

fn apart(table: &str) -> (String, Vec<String>) {
    match rubric(table).first_impression.unwrap() {
        FirstImpression::Apart { ask, allowed } => {
            (ask, allowed.iter().map(Marks::to_string).collect())
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn without_keys_it_is_a_number_up_to_ten() {
    let (ask, allowed) = apart("");
    assert_eq!(ask, "How good is this piece, at a first look?");
    assert_eq!(
        allowed,
        ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10"]
    );
    assert!(read(&with_root("")).first_impression.is_none());
}

#[test]
fn each_key_counts() {
    let (ask, allowed) = apart("ask = \"Well?\"\nleast = 1\nmost = 3\nstep = \"1/2\"");
    assert_eq!(ask, "Well?");
    assert_eq!(allowed, ["1", "1.5", "2", "2.5", "3"]);
}

#[test]
fn it_may_be_a_judged_criterion() {
    let rubric = rubric("counts_as = \"weld\"");
    assert_eq!(rubric.counted_impression().unwrap().id, "weld");
    assert!(self::rubric("").counted_impression().is_none());
}

#[track_caller]
fn wrong(text: &str, expect: &[&str]) {
    let checked = read_rubric(text);
    let found = said_of(&checked).into_iter().map(ToString::to_string);
    assert_eq!(found.collect::<Vec<_>>(), expect, "in\n{text}");
}

#[test]
fn what_is_wrong_is_told_with_its_place() {
    let cases: [(&str, &[&str]); 10] = [
        (
            "asks = \"Well?\"",
            &["line 7, column 1: `first_impression` has no key `asks`; did you mean `ask`?"],
        ),
        (
            "ask = 3",
            &[
                "line 7, column 7: this is an integer (`ask` of `first_impression`); write a text \
               in quotes",
            ],
        ),
        (
            "ask = \" \"",
            &[
                "line 7, column 7: this text is empty (`ask` of `first_impression`); write what \
               people should read",
            ],
        ),
        (
            "least = 10",
            &[
                "line 6, column 1: from 10 to 10 there is nothing to choose (`most` of \
               `first_impression`); write a most above the least",
            ],
        ),
        (
            "least = 7\nmost = 5\nstep = -1",
            &[
                "line 8, column 8: from 7 to 5 there is nothing to choose (`most` of \
               `first_impression`); write a most above the least",
            ],
        ),
        (
            "most = 7\nstep = 2",
            &[
                "line 8, column 8: the steps do not end on the most (`step` of \
               `first_impression`); choose a step that leads from least to most",
            ],
        ),
        (
            "least = -1",
            &[
                "line 7, column 9: marks below zero (`least` of `first_impression`); write zero \
               or more",
            ],
        ),
        (
            "counts_as = \"toe\"",
            &[
                "line 7, column 13: there is no criterion `toe` (`counts_as` of \
               `first_impression`); use the id of a judged criterion",
            ],
        ),
        (
            "counts_as = \"width\"",
            &[
                "line 7, column 13: `width` is not judged by eye (`counts_as` of \
               `first_impression`); use the id of a criterion with kind = \"judged\"",
            ],
        ),
        (
            "counts_as = \"weld\"\nmost = 5\nask = \"Well?\"",
            &[
                "line 7, column 13: the criterion that it counts as has its own question and \
               numbers, and `ask` gives others (`counts_as` of `first_impression`); leave out \
               ask, most, or counts_as",
            ],
        ),
    ];
    for (table, expect) in cases {
        wrong(&text(table), expect);
    }
    let shoes = "[[shoes]]\nid = \"near\"\n[[shoes]]\nid = \"off\"\n[first_impression]\n";
    let pair = text("counts_as = \"weld\"").replace("[first_impression]\n", shoes);
    wrong(
        &pair,
        &[
            "line 11, column 13: `weld` is judged for each shoe, and a first impression is of the \
         whole piece (`counts_as` of `first_impression`); write for = \"piece\" at that \
         criterion, or use another",
        ],
    );
    let one = pair.replace("name = \"Weld\"\n", "name = \"Weld\"\nfor = \"piece\"\n");
    assert_eq!(read(&one).counted_impression().unwrap().id, "weld");
    wrong(
        &with_root("first_impression = 7\n"),
        &[
            "line 5, column 20: this is no table (`first_impression` of the rubric); write \
           first_impression = { … } or [first_impression]",
        ],
    );
}

#[test]
fn what_changed_between_versions_names_it() {
    let told = |before: &str, after: &str| {
        let found = compare(before, after).unwrap();
        let said = found.into_iter().map(|one| {
            let said = |side: Option<String>| side.unwrap_or_else(|| "–".to_owned());
            format!(
                "{} {}: {} to {}",
                one.place.join(", "),
                one.what,
                said(one.before),
                said(one.after)
            )
        });
        said.collect::<Vec<_>>()
    };
    assert_eq!(
        told(&text("most = 10"), &text("most = 12")),
        ["first impression most: 10 to 12"]
    );
    let without = text("").replace("[first_impression]\n", "");
    assert_eq!(
        told(&without, &text("counts_as = \"weld\"")),
        [" first impression: – to counts as: weld"]
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn any_table_is_read_or_refused(
        least in "-?[0-9]{1,6}(/[0-9])?",
        most in "-?[0-9]{1,6}",
        step in "(0|-1|[0-9]{1,4}|1/3|0\\.25|[a-z]{1,3})",
        ask in "[^\"\\\\\\p{C}]{0,12}",
    ) {
        let table = format!(
            "ask = \"{ask}\"\nleast = \"{least}\"\nmost = \"{most}\"\nstep = \"{step}\""
        );
        let checked = read_rubric(&text(&table));
        if let Some(rubric) = checked.rubric {
            let Some(FirstImpression::Apart { allowed, .. }) = rubric.first_impression else {
                return Err(TestCaseError::fail("no scale"));
            };
            prop_assert!(allowed.len() > 1 && allowed.len() <= 401);
            prop_assert!(allowed.is_sorted());
        }
    }
}
