//! How long it takes to say how sure a marking is: one piece of 25 criteria, by each way of
//! working it out, against the bars of 1 ms (exact) and 200 ms (the others).

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::{Duration, Instant};

use evenshod::conformity::{Method, weigh};
use evenshod::marking::{Facts, ReadingFact};
use evenshod::rubric::{Rubric, read_rubric};

const CRITERIA: usize = 25;
/// Each is measured for so long, or once.
const FOR: Duration = Duration::from_secs(1);

/// 25 lengths of four bands each, and so many calipers whose readings share something.
fn rubric(sharing: usize) -> Rubric {
    let mut text = r#"
schema = 1
id = "bench"
version = "1"
title = "Bench"
[piece]
kind = "open-heeled"
stock = { width = "20 mm", thickness = "10 mm" }
finished = { width = "120 mm", length = "130 mm" }
heels = { gap = "50 mm" }
[award]
pass = "65 %"
"#
    .to_owned();
    let calipers = sharing.max(1);
    for caliper in 0..calipers {
        let shared = if sharing > 0 {
            "shared = \"0.05 mm\""
        } else {
            ""
        };
        write!(
            text,
            "[[instruments]]\nid = \"caliper-{caliper}\"\nname = \"Caliper\"\n\
             standard_uncertainty = \"0.3 mm\"\n{shared}\n"
        )
        .unwrap();
    }
    text.push_str("[[sections]]\nid = \"all\"\nname = \"All\"\n");
    for criterion in 0..CRITERIA {
        write!(
            text,
            "[[sections.criteria]]\nid = \"c{criterion}\"\nname = \"Criterion {criterion}\"\n\
             kind = \"toleranced\"\ntarget = \"100 mm\"\ninstrument = \"caliper-0\"\nbands = [\n\
             {{ within = \"0.5 mm\", marks = 4 }}, {{ within = \"1 mm\", marks = 3 }},\n\
             {{ within = \"1.5 mm\", marks = 2 }}, {{ within = \"2 mm\", marks = 1 }},\n]\n",
        )
        .unwrap();
    }
    let checked = read_rubric(&text);
    let faults: Vec<String> = checked.errors().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    checked.rubric.unwrap()
}

/// Every criterion near a limit, so that nothing is certain, and read once with each
/// caliper, so that all share what each of them is off by.
fn facts(sharing: usize) -> Facts {
    let mut facts = Facts::default();
    for criterion in 0..CRITERIA {
        let readings = (0..sharing.max(1)).map(|caliper| ReadingFact {
            instrument: Some(format!("caliper-{caliper}")),
            ..ReadingFact::of(format!("100.{}", 4 + criterion % 5))
        });
        facts
            .readings
            .insert(format!("c{criterion}"), readings.collect());
    }
    facts
}

fn main() {
    // A number asks for that many shared parts only.
    let asked: Option<usize> = std::env::args().find_map(|word| word.parse().ok());
    let cases = [(0, 1.0), (1, 200.0), (2, 200.0), (3, 200.0)].into_iter();
    for (sharing, bar_ms) in cases.filter(|(sharing, _)| asked.is_none_or(|one| one == *sharing)) {
        let (rubric, facts) = (rubric(sharing), facts(sharing));
        let method = weigh(&rubric, &facts).unwrap().method;
        let expected = match sharing {
            0 => method == Method::Exact,
            1 | 2 => method == Method::Quadrature,
            _ => matches!(method, Method::Draws(_)),
        };
        assert!(
            expected,
            "{sharing} shared parts are worked out by {method:?}"
        );
        let since = Instant::now();
        let mut times = 0_u32;
        while times == 0 || since.elapsed() < FOR {
            black_box(weigh(black_box(&rubric), black_box(&facts)).unwrap());
            times += 1;
        }
        let took_ms = since.elapsed().as_secs_f64() * 1e3 / f64::from(times);
        println!(
            "{CRITERIA} criteria, {sharing} shared parts, {method:?}: {took_ms:.2} ms, {:.2} of the bar",
            took_ms / bar_ms
        );
    }
}
