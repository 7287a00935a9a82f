//! What holds for every marking.

use evenshod::conformity::weigh;
use evenshod::marking::{Facts, ReadingFact, mark};
use evenshod::quantity::Marks;
use evenshod::rubric::Rubric;
use proptest::prelude::*;

fn rubric(own: f64, shared: f64) -> Rubric {
    let figures = if own > 0.0 {
        format!("standard_uncertainty = {own:.3}\nshared = {shared:.3}")
    } else {
        "standard_uncertainty = 0".to_owned()
    };
    super::rubric(&format!(
        r#"
[[instruments]]
id = "rule"
name = "Rule"
{figures}
[[causes]]
id = "cut"
name = "Cut"
most = 5
[award]
pass = "55 %"
[[sections]]
id = "sizes"
name = "Sizes"
minimum = "30 %"
cap = 12
[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
instrument = "rule"
target = "20 mm"
bands = [{{ within = 0.5, marks = 6 }}, {{ within = 1, marks = 2.5 }}]
beyond_effect = "warn"
cause = "cut"
[[sections.criteria]]
id = "spacing"
name = "Spacing"
kind = "spread"
count = 3
instrument = "rule"
bands = [{{ at_most = 1, marks = 5 }}, {{ at_most = 2, marks = 2 }}]
[[sections]]
id = "other"
name = "Other"
weight = 10
[[sections.criteria]]
id = "alike"
name = "Alike"
kind = "paired"
instrument = "rule"
bands = [{{ within = 0.5, marks = 4 }}, {{ within = 1.5, marks = 1 }}]
cause = "cut"
[[sections.criteria]]
id = "depth"
name = "Depth"
kind = "toleranced"
instrument = "rule"
target = "half of width"
bands = [{{ within = "5 %", marks = 4 }}, {{ within = "10 %", marks = 2 }}]
stops_outside = {{ within = 3 }}
"#
    ))
}

fn facts(sizes: &[i32]) -> Facts {
    let text = |tenths: &i32| format!("{}.{}", tenths / 10, tenths % 10);
    let mut facts = Facts::default();
    let mut put = |entry: &str, sizes: &[i32]| {
        let readings = sizes.iter().map(|size| ReadingFact::of(text(size)));
        facts.readings.insert(entry.to_owned(), readings.collect());
    };
    put("width", &sizes[..1]);
    put("spacing", &sizes[1..4]);
    put("alike-left", &sizes[4..5]);
    put("alike-right", &sizes[5..6]);
    put("depth", &[sizes[6] / 2]);
    facts
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn probabilities_come_to_one(
        sizes in prop::collection::vec(180..220_i32, 7),
        own in 0.02..1.5_f64,
        shared in 0.0..1.0_f64,
    ) {
        let rubric = rubric(own, shared);
        let facts = facts(&sizes);
        let outcome = mark(&rubric, &facts);
        let certainty = weigh(&rubric, &facts).unwrap();
        let whole: f64 = certainty.total.iter().map(|chance| chance.probability).sum();
        prop_assert!((whole - 1.0).abs() < 1e-9, "{whole}");
        prop_assert_eq!(certainty.given, outcome.marks);
        for criterion in &certainty.criteria {
            let whole: f64 = criterion.chances.iter().map(|chance| chance.probability).sum();
            prop_assert!((whole - 1.0).abs() < 1e-9, "{} {whole}", criterion.entry);
            let result = outcome.criterion(&criterion.entry).unwrap();
            prop_assert_eq!(Some(criterion.given), result.marks);
            prop_assert!((0.0..=1.0 + 1e-9).contains(&criterion.changes));
            prop_assert!(criterion.is_close == (criterion.probability < 0.95));
            prop_assert!(criterion.is_close || !criterion.is_decisive);
        }
        for pair in certainty.total.windows(2) {
            prop_assert!(pair[0].marks < pair[1].marks);
        }
        let out_of = outcome.out_of;
        for chance in &certainty.total {
            prop_assert!(chance.marks >= Marks::ZERO && chance.marks <= out_of);
            prop_assert!(chance.probability >= 0.0);
        }
        // The same facts give the same numbers.
        prop_assert_eq!(weigh(&rubric, &facts).unwrap(), certainty);
    }

    #[test]
    fn without_uncertainty_there_is_only_what_was_given(
        sizes in prop::collection::vec(180..220_i32, 7),
    ) {
        let rubric = rubric(0.0, 0.0);
        let facts = facts(&sizes);
        let outcome = mark(&rubric, &facts);
        let certainty = weigh(&rubric, &facts).unwrap();
        prop_assert_eq!(certainty.total.len(), 1);
        prop_assert_eq!(certainty.total[0].marks, outcome.marks);
        prop_assert_eq!(certainty.total[0].probability, 1.0);
        prop_assert!(certainty.criteria.is_empty());
        let passes = outcome.award == evenshod::marking::Award::Pass;
        prop_assert_eq!(certainty.award.unwrap().pass, f64::from(u8::from(passes)));
    }
}
