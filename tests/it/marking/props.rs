//! What holds for all facts.

use std::collections::BTreeMap;

use evenshod::marking::{Award, Facts, Marking, ReadingFact, mark};
use evenshod::quantity::Marks;
use evenshod::rubric::{Kind, Rubric, read_rubric, shipped};
use proptest::prelude::*;

use crate::rubric::pieces::faultless;

fn shipped_rubrics() -> Vec<Rubric> {
    shipped()
        .iter()
        .map(|shipped| read_rubric(shipped.text).rubric.unwrap())
        .collect()
}

/// Texts as people and cats type them.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        (0_u32..20_000).prop_map(|n| format!("{}.{:02}", n / 100, n % 100)),
        (1_u32..200, 1_u32..65).prop_map(|(a, b)| format!("{a}/{b}")),
        Just("within".to_owned()),
        Just("over".to_owned()),
        Just("0.5..0.6".to_owned()),
        Just("closed".to_owned()),
        ".{0,12}",
    ]
}

fn any_facts(rubric: &Rubric) -> impl Strategy<Value = Facts> + use<> {
    let slots: Vec<String> = rubric.slots().into_iter().map(|slot| slot.id).collect();
    let entries: Vec<String> = rubric.entries().into_iter().map(|entry| entry.id).collect();
    let faults: Vec<String> = rubric
        .entries()
        .iter()
        .flat_map(|entry| entry.criterion.faults.iter().map(|fault| fault.id.clone()))
        .collect();
    let readings = prop::collection::btree_map(
        prop::sample::select(slots),
        prop::collection::vec(text().prop_map(ReadingFact::of), 0..6),
        0..30,
    );
    let by_entry =
        |values| prop::collection::btree_map(prop::sample::select(entries.clone()), values, 0..20);
    (
        readings,
        by_entry(text().boxed()),
        by_entry(text().boxed()),
        prop::collection::btree_map(
            prop::sample::select(entries.clone()),
            prop::collection::vec(prop::sample::select(faults), 0..4),
            0..20,
        ),
    )
        .prop_map(|(readings, levels, tallies, faults)| Facts {
            readings,
            levels,
            tallies,
            faults,
            ..Facts::default()
        })
}

#[test]
fn a_shoe_without_a_fault_has_all_the_marks() {
    for rubric in shipped_rubrics() {
        let marking = mark(&rubric, &faultless(&rubric));
        assert_eq!(marking.marks, marking.out_of, "{:?}", marking.missing);
        assert_eq!(marking.award, Award::Pass);
    }
}

/// A shipped rubric's index with facts for it.
fn with_facts() -> impl Strategy<Value = (usize, Facts)> {
    (0..shipped().len()).prop_flat_map(|index| {
        any_facts(&shipped_rubrics()[index]).prop_map(move |facts| (index, facts))
    })
}

/// The same, of a shoe that is faultless but for a few entries.
fn nearly_faultless() -> impl Strategy<Value = (usize, Facts)> {
    (with_facts(), 0..8_usize).prop_map(|((index, other), spoilt)| {
        let mut facts = faultless(&shipped_rubrics()[index]);
        facts
            .readings
            .extend(other.readings.into_iter().take(spoilt));
        facts.levels.extend(other.levels.into_iter().take(spoilt));
        facts.tallies.extend(other.tallies.into_iter().take(spoilt));
        facts.faults.extend(other.faults.into_iter().take(spoilt));
        (index, facts)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn marks_stay_between_nothing_and_all(
        (index, facts) in prop_oneof![with_facts(), nearly_faultless()],
    ) {
        let rubrics = shipped_rubrics();
        let rubric = &rubrics[index];
        let marking = mark(rubric, &facts);
        prop_assert_eq!(&marking, &mark(rubric, &facts));
        prop_assert_eq!(marking.criteria.len(), rubric.entries().len());
        prop_assert!(marking.marks <= marking.out_of);
        prop_assert!(marking.marked_out_of <= marking.out_of);
        prop_assert_eq!(marking.complete, marking.missing.is_empty());
        if marking.award == Award::Pass {
            prop_assert!(marking.complete && marking.stopped_by.is_empty());
            prop_assert!(marking.marks >= marking.pass_mark);
        }
        for (result, entry) in marking.criteria.iter().zip(rubric.entries()) {
            if let Some(marks) = result.marks {
                prop_assert!(marks <= result.out_of);
                let least = match &entry.criterion.kind {
                    Kind::Faults(list) => entry.criterion.weighted(list.least),
                    _ => Marks::ZERO,
                };
                prop_assert!(marks >= least);
                prop_assert!(!result.reason.is_empty());
            }
        }
    }

    #[test]
    fn being_nearer_the_target_never_gives_fewer_marks(a in 0_i64..4000, b in 0_i64..4000) {
        let rubric = super::criteria(r#"
[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
target = "129 mm"
bands = [{ within = "1.5 mm", marks = 4 }, { within = "3 mm", marks = "2 1/2" }]
"#);
        let given = |off: i64| {
            let text = format!("{}.{:03}", 129 + off / 1000, off % 1000);
            let facts = Facts {
                readings: BTreeMap::from([("width".to_owned(), vec![ReadingFact::of(text)])]),
                ..Facts::default()
            };
            mark(&rubric, &facts).marks
        };
        if a <= b {
            prop_assert!(given(a) >= given(b));
        }
    }
}

proptest! {
    // Each reads a rubric anew.
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever was thought at a first look, and whether or not the rubric asks.
    #[test]
    fn a_first_impression_gives_no_marks(
        (index, facts) in prop_oneof![with_facts(), nearly_faultless()],
        impression in text(),
        table in prop::sample::select(vec!["", "most = 10", "counts_as = \"outline\""]),
    ) {
        let text = shipped()[index].text;
        let asking = match table {
            "" => text.to_owned(),
            table => format!("{text}\n[first_impression]\n{table}\n"),
        };
        // Not every rubric judges an outline.
        let Some(rubric) = read_rubric(&asking).rubric else {
            return Ok(());
        };
        let without = mark(&rubric, &facts);
        let with = mark(&rubric, &Facts { impression: Some(impression), ..facts });
        // What is wrong with it is told, and that is all.
        let problems = without.problems.clone();
        prop_assert_eq!(Marking { problems, ..with }, without);
    }
}
