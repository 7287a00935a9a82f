//! One marking made from those of several examiners.

use std::collections::BTreeMap;

use evenshod::marking::{
    Agreed, Award, Facts, PointState, Settled, Settlement, Source, agree, mark,
};
use evenshod::quantity::{Exact, Marks};
use evenshod::rubric::Rubric;
use proptest::prelude::*;

use super::{facts, rubric, told};

/// Two criteria by eye of 10 marks, the first in a cause group, and one of faults.
fn by(moderation: &str) -> Rubric {
    rubric(&format!(
        r#"
examiners = 2
award = {{ pass = "50 %" }}
moderation = {{ {moderation} }}
causes = [{{ id = "toe", name = "Toe too long", most = 6 }}]
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "a"
name = "A"
kind = "judged"
numbers = {{ least = 0, most = 10 }}
cause = "toe"
stops_below = 1
[[sections.criteria]]
id = "b"
name = "B"
kind = "judged"
numbers = {{ least = 0, most = 10 }}
cause = "toe"
[[sections.criteria]]
id = "safety"
name = "Safety"
kind = "faults"
marks = 5
faults = [{{ id = "eyes", name = "No eye protection", effect = "stop" }}]
"#
    ))
}

/// An examiner who gave `a` and `b` and saw these faults.
fn gave(a: &str, b: &str, seen: &str) -> Facts {
    facts(&format!(
        r#"{{"levels": {{"a": "{a}", "b": "{b}"}}, "faults": {{"safety": [{seen}]}}}}"#
    ))
}

fn settled<const N: usize>(
    entries: [(&str, Settlement<usize>, &str); N],
) -> BTreeMap<String, Settled<usize>> {
    let entries = entries.into_iter().map(|(entry, by, reason)| {
        let reason = reason.to_owned();
        (entry.to_owned(), Settled { by, reason })
    });
    entries.collect()
}

fn together(rubric: &Rubric, all: &[Facts], by: BTreeMap<String, Settled<usize>>) -> Agreed {
    let names = ["Wm. Green", "Jo Reed", "C. Lowe"];
    let sources: Vec<_> = all
        .iter()
        .zip(names)
        .enumerate()
        .map(|(id, (facts, who))| Source {
            id,
            who,
            facts,
            unit: rubric.unit,
        })
        .collect();
    agree(rubric, &sources, &by, &Facts::default())
}

fn states(agreed: &Agreed) -> Vec<PointState> {
    agreed.points.iter().map(|point| point.state).collect()
}

fn exact(numerator: i128, denominator: i128) -> Marks {
    Marks(Exact::fraction(numerator, denominator).unwrap())
}

#[test]
fn the_mean_is_exact() {
    let rubric = by(r#"settle = "mean""#);
    let three = [gave("7", "10", ""), gave("8", "10", ""), gave("8", "9", "")];
    let agreed = together(&rubric, &three, BTreeMap::new());
    assert_eq!(agreed.outcome.criteria[0].marks, Some(exact(23, 3)));
    assert_eq!(agreed.outcome.marks, exact(23 + 29 + 15, 3));
    assert_eq!(
        states(&agreed),
        [PointState::Ruled, PointState::Ruled, PointState::Alike]
    );
    assert!(agreed.points.iter().all(|point| !point.needs_reason));
    assert_eq!(agreed.outcome.award, Award::Pass);
    assert_eq!(
        agreed.outcome.criteria[1].reason,
        "mean of Wm. Green 10, Jo Reed 10, C. Lowe 9: 9 2/3 of 10"
    );
}

#[test]
fn the_lowest_counts_and_one_error_is_charged_once_over_both() {
    let rubric = by(r#"settle = "lower""#);
    // 5 lost on A by one, 4 lost on B by the other; the group charges 6 at most.
    let agreed = together(
        &rubric,
        &[gave("5", "10", ""), gave("10", "6", "")],
        BTreeMap::new(),
    );
    assert_eq!(
        told(&agreed.outcome),
        "a [valued] lowest of Wm. Green 5, Jo Reed 10: 5 of 10\n\
         b [valued] lowest of Wm. Green 10, Jo Reed 6: 6 of 10; 3 given back, charged once for \
         Toe too long\n\
         safety [valued] all examiners alike: 5 of 5\n\
         19 of 25: pass"
    );
}

#[test]
fn discussion_leaves_open_what_differs_until_it_has_a_reason() {
    let rubric = by("");
    let two = [gave("6", "9", ""), gave("8", "9", "")];
    let agreed = together(&rubric, &two, BTreeMap::new());
    assert_eq!(
        states(&agreed),
        [PointState::Open, PointState::Alike, PointState::Alike]
    );
    assert!(agreed.points[0].needs_reason);
    assert_eq!(agreed.outcome.award, Award::Incomplete);
    assert_eq!(agreed.outcome.missing, ["a"]);
    let without = together(&rubric, &two, settled([("a", Settlement::From(1), "  ")]));
    assert_eq!(without.open().count(), 1);
    assert!(without.outcome.problems.is_empty());
    // What cannot be given is told before there is a reason.
    let eleven = Settlement::Marks("11".to_owned());
    let eleven = together(&rubric, &two, settled([("a", eleven, "")]));
    assert!(eleven.outcome.problems[0].message.contains("use 0 to 10"));
    let with = settled([("a", Settlement::From(1), "seen under the light")]);
    let with = together(&rubric, &two, with);
    assert_eq!(with.open().count(), 0);
    assert_eq!(
        with.outcome.criteria[0].reason,
        "as Jo Reed marked it, because seen under the light: 8 of 10"
    );
    let mean = together(&rubric, &two, settled([("a", Settlement::Mean, "halfway")]));
    assert_eq!(mean.outcome.criteria[0].marks, Some(Marks::whole(7)));
    assert_eq!(with.sources[0], mark(&rubric, &two[0]));
}

#[test]
fn a_limit_says_where_people_settle_it() {
    let rubric = by(r#"settle = "mean", discuss_beyond = 2"#);
    let at = together(
        &rubric,
        &[gave("6", "9", ""), gave("8", "9", "")],
        BTreeMap::new(),
    );
    assert_eq!(at.open().count(), 0, "2 apart is not beyond 2");
    let beyond = together(
        &rubric,
        &[gave("5", "9", ""), gave("8", "9", "")],
        BTreeMap::new(),
    );
    assert_eq!(beyond.open().count(), 1);
    // 1.5 apart each, 3 apart in all: the totals are beyond, so both are open.
    let rubric = by(r#"settle = "mean", discuss_beyond = "10 %""#);
    let totals = together(
        &rubric,
        &[gave("9", "9", ""), gave("8", "8", r#""eyes""#)],
        BTreeMap::new(),
    );
    assert_eq!(totals.open().count(), 0, "2 of 25 is 8 %");
    let totals = together(
        &rubric,
        &[gave("10", "10", ""), gave("9", "8", "")],
        BTreeMap::new(),
    );
    assert_eq!(totals.open().count(), 2, "3 of 25 is 12 %");
}

#[test]
fn a_stop_of_either_stands_unless_people_settle_it() {
    let rubric = by(r#"settle = "mean""#);
    let two = [gave("9", "9", r#""eyes""#), gave("9", "9", "")];
    let ruled = together(&rubric, &two, BTreeMap::new());
    assert_eq!(ruled.outcome.stopped_by, ["safety"]);
    assert_eq!(ruled.outcome.award, Award::NotYet);
    let why = "he wore spectacles, seen on the photo";
    let taken = |from| {
        let by = settled([("safety", Settlement::From(from), why)]);
        together(&rubric, &two, by).outcome.stopped_by
    };
    assert_eq!(taken(0), ["safety"]);
    assert!(taken(1).is_empty());
    let decided = settled([("safety", Settlement::Marks("4".to_owned()), why)]);
    let decided = together(&rubric, &two, decided);
    assert!(decided.outcome.stopped_by.is_empty());
    // What both saw cannot be settled away by marks.
    let both = [gave("9", "9", r#""eyes""#), gave("8", "9", r#""eyes""#)];
    let by = settled([("safety", Settlement::Marks("4".to_owned()), why)]);
    assert_eq!(together(&rubric, &both, by).outcome.stopped_by, ["safety"]);
}

#[test]
fn marks_that_are_decided_stop_below_the_limit_and_stay_in_the_scale() {
    let rubric = by("");
    let two = [gave("5", "9", ""), gave("8", "9", "")];
    let decided = |marks: &str| {
        let by = settled([("a", Settlement::Marks(marks.to_owned()), "agreed")]);
        together(&rubric, &two, by)
    };
    assert_eq!(decided("6.5").outcome.criteria[0].marks, Some(exact(13, 2)));
    assert_eq!(decided("0.5").outcome.stopped_by, ["a"]);
    for (wrong, says) in [
        ("11", "use 0 to 10"),
        ("six", "not a number"),
        ("", "number"),
    ] {
        let agreed = decided(wrong);
        assert_eq!(agreed.open().count(), 1, "{wrong}");
        let problem = &agreed.outcome.problems[0];
        assert_eq!(problem.id, "a");
        assert!(problem.message.contains(says), "{}", problem.message);
    }
}

#[test]
fn what_one_left_out_is_settled_by_people() {
    let rubric = by(r#"settle = "mean""#);
    let none = facts(r#"{"levels": {"b": 9}, "faults": {"safety": []}}"#);
    let two = [gave("6", "9", ""), none.clone()];
    let agreed = together(&rubric, &two, BTreeMap::new());
    assert_eq!(states(&agreed)[0], PointState::Open);
    let mean = together(&rubric, &two, settled([("a", Settlement::Mean, "why")]));
    assert!(mean.outcome.problems[0].message.contains("no mean"));
    let from = together(&rubric, &two, settled([("a", Settlement::From(1), "why")]));
    assert!(from.outcome.problems[0].message.contains("gave no marks"));
    let from = together(&rubric, &two, settled([("a", Settlement::From(0), "why")]));
    assert_eq!(from.outcome.award, Award::Pass);
    // What both left out is nothing to settle.
    let neither = together(&rubric, &[none.clone(), none], BTreeMap::new());
    assert_eq!(neither.open().count(), 0);
    assert_eq!(neither.outcome.award, Award::Incomplete);
    let unknown = together(&rubric, &two, settled([("z", Settlement::Mean, "why")]));
    let unknown = &unknown.outcome.problems;
    assert!(unknown.iter().any(|problem| problem.id == "z"));
}

proptest! {
    /// Two examiners who are one give what one gives; the order of two changes no mean.
    #[test]
    fn the_mean_lies_between_and_does_not_mind_the_order(
        a in 0_u32..=10, b in 0_u32..=10, c in 0_u32..=10, d in 0_u32..=10, typed in ".*"
    ) {
        let rubric = by(r#"settle = "mean""#);
        let [one, other] = [(a, b), (c, d)].map(|(a, b)| gave(&a.to_string(), &b.to_string(), ""));
        let alone = mark(&rubric, &one);
        let twice = together(&rubric, &[one.clone(), one.clone()], BTreeMap::new());
        prop_assert_eq!(twice.outcome.marks, alone.marks);
        let ahead = together(&rubric, &[one.clone(), other.clone()], BTreeMap::new());
        let back = together(&rubric, &[other.clone(), one.clone()], BTreeMap::new());
        prop_assert_eq!(ahead.outcome.marks, back.outcome.marks);
        let totals = ahead.sources.iter().map(|source| source.marks);
        prop_assert!(totals.clone().min().unwrap() <= ahead.outcome.marks);
        prop_assert!(totals.max().unwrap() <= ahead.outcome.marks.max(alone.marks.max(back.sources[0].marks)));
        // Whatever is typed as marks, nothing panics and nothing is out of its range.
        let by = settled([("a", Settlement::Marks(typed), "why")]);
        let decided = together(&rubric, &[one, other], by);
        prop_assert!(decided.outcome.criteria[0].marks.is_none_or(|marks| marks <= Marks::whole(10)));
    }
}
