//! Texts that nobody meant: no panic, no hang.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use evenshod::rubric::{read_rubric, shipped};
use proptest::prelude::*;

use super::sample::{read, with_named_criterion, with_root};

/// Read within a time that only something more than proportional would pass,
/// even on a slow machine without optimisation.
#[track_caller]
fn finishes(text: &str) {
    let start = Instant::now();
    let _ = read_rubric(text);
    let taken = start.elapsed();
    assert!(taken < Duration::from_secs(10), "{taken:?}");
}

#[derive(Debug, Clone)]
enum Slip {
    Delete,
    Twice,
    Replace(u8),
}

fn slip() -> impl Strategy<Value = Slip> {
    prop_oneof![
        Just(Slip::Delete),
        Just(Slip::Twice),
        any::<u8>().prop_map(Slip::Replace)
    ]
}

fn slip_in_bytes(text: &str, at: prop::sample::Index, length: usize, slip: &Slip) -> String {
    let mut bytes = text.as_bytes().to_vec();
    let start = at.index(bytes.len());
    let end = (start + length).min(bytes.len());
    let part: Vec<u8> = bytes[start..end].to_vec();
    let new = match slip {
        Slip::Delete => Vec::new(),
        Slip::Twice => [part.clone(), part].concat(),
        Slip::Replace(byte) => vec![*byte; part.len()],
    };
    bytes.splice(start..end, new);
    String::from_utf8_lossy(&bytes).into_owned()
}

fn slip_in_lines(
    text: &str,
    at: prop::sample::Index,
    other: prop::sample::Index,
    slip: &Slip,
) -> String {
    let mut lines: Vec<&str> = text.lines().collect();
    let (at, other) = (at.index(lines.len()), other.index(lines.len()));
    match slip {
        Slip::Delete => {
            lines.remove(at);
        }
        Slip::Twice => lines.insert(other, lines[at]),
        Slip::Replace(_) => lines[at] = lines[other],
    }
    lines.join("\n")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC*") {
        let _ = read_rubric(&text);
    }

    #[test]
    fn any_lines_are_read_or_refused(lines in prop::collection::vec(
        "(\\[\\[?[a-z.]{1,20}\\]?\\]|[a-z_]{1,12} = (\"[^\"]{0,20}\"|-?[0-9]{1,20}|\\[[^\\]]{0,20}\\]|\\{[^}]{0,20}\\}))",
        0..30,
    )) {
        let _ = read_rubric(&with_root(&(lines.join("\n") + "\n")));
    }

    /// The shape of a half-width is read, or refused with the place of its own line.
    #[test]
    fn any_shape_is_read_or_refused(
        shape in prop_oneof!["(trapezoid|triangular|u-shaped|rectangular)", "[a-z -]{0,12}"],
        level in prop_oneof![
            Just(String::new()), "level_share = -?[0-9]{1,2}([.][0-9]{1,40})?", "level_share = \"\\PC{0,6}\"",
        ],
    ) {
        let instrument = format!(
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nshape = \"{shape}\"\n{level}\n"
        );
        let text = with_root(&instrument);
        let checked = read_rubric(&text);
        let from = text.find("shape = ").unwrap();
        let mut said = checked.errors();
        match &checked.rubric {
            Some(rubric) => {
                let standard = rubric.instruments[0].uncertainty.standard();
                prop_assert!(standard > 0.4e6 && standard < 0.71e6, "{}", standard);
            }
            None => prop_assert!(said.any(|fault| fault.span.start >= from)),
        }
    }

    #[test]
    fn slips_in_a_shipped_rubric_are_read_or_refused(
        which in any::<prop::sample::Index>(),
        slips in prop::collection::vec(
            (any::<bool>(), any::<prop::sample::Index>(), any::<prop::sample::Index>(), 1..40_usize, slip()),
            1..6,
        ),
    ) {
        let mut text = which.get(shipped()).text.to_owned();
        for (in_lines, at, other, length, slip) in slips {
            text = if in_lines {
                slip_in_lines(&text, at, other, &slip)
            } else {
                slip_in_bytes(&text, at, length, &slip)
            };
        }
        let checked = read_rubric(&text);
        prop_assert_eq!(checked.rubric.is_none(), checked.errors().next().is_some());
        for said in &checked.diagnostics {
            prop_assert!(text.get(said.span.clone()).is_some(), "{}", said);
            prop_assert!(said.line >= 1 && said.column >= 1);
        }
    }
}

#[test]
fn three_hundred_criteria_are_read() {
    let mut section = "[[sections]]\nid = \"a\"\nname = \"A\"\n".to_owned();
    for n in 0..300 {
        write!(
            section,
            "[[sections.criteria]]\nid = \"c{n}\"\nname = \"C\"\nkind = \"toleranced\"\n\
             target = \"2/3 of c{}\"\nbands = [{{ within = 1, marks = 4 }}, {{ within = \"10 %\", \
             marks = 2 }}]\n",
            (n + 1) % 300
        )
        .unwrap();
    }
    let start = Instant::now();
    let rubric = read(&with_root(&section));
    assert_eq!(rubric.entries().len(), 300);
    assert_eq!(rubric.out_of().unwrap().to_string(), "1200");
    assert!(start.elapsed() < Duration::from_secs(5));
}

#[test]
fn files_made_to_be_slow_are_refused_in_time() {
    let many =
        |count: usize, of: &dyn Fn(usize) -> String| -> String { (0..count).map(of).collect() };
    let shoes = many(9000, &|n| format!("[[shoes]]\nid = \"s{n}\"\n"));
    let criteria = many(9000, &|n| {
        format!("[[sections.criteria]]\nid = \"c{n}\"\nname = \"C\"\nkind = \"judged\"\n")
    });
    finishes(&with_root(&format!(
        "{shoes}[[sections]]\nid = \"a\"\nname = \"A\"\n{criteria}"
    )));
    let readings = many(9000, &|n| {
        format!("[[readings]]\nid = \"r{n}\"\nname = \"R\"\n")
    });
    finishes(&with_root(&format!("{shoes}{readings}")));
    let sections = many(30_000, &|n| format!("[[sections]]\nid = \"s{n}\"\n"));
    finishes(&with_root(&sections));
    let bands = many(30_000, &|n| format!("{{ at_most = {n}, marks = 1 }},"));
    finishes(&with_named_criterion(&format!(
        "kind = \"toleranced\"\nbands = [{bands}]\n"
    )));
    let allowed = many(80_000, &|n| format!("{n},"));
    let descriptors = many(15_000, &|n| format!("{{ at = {n}, text = \"x\" }},"));
    finishes(&with_named_criterion(&format!(
        "kind = \"judged\"\nnumbers = {{ allowed = [{allowed}] }}\ndescriptors = [{descriptors}]\n"
    )));
    let faults = many(15_000, &|n| {
        format!("{{ id = \"f{n}\", name = \"F\", step = \"x\" }},")
    });
    let steps = many(8000, &|n| {
        format!("[[steps]]\nid = \"s{n}\"\nname = \"S\"\n")
    });
    let of_faults = with_named_criterion(&format!(
        "kind = \"faults\"\nmarks = 1\nfaults = [{faults}]\n"
    ));
    finishes(&format!("{of_faults}{steps}"));
}

#[test]
fn deep_nesting_is_refused() {
    finishes(&format!("a = {}", "[".repeat(500_000)));
    finishes(&format!(
        "a = {}1{}",
        "{ b = ".repeat(100_000),
        "}".repeat(100_000)
    ));
    finishes(&"[[a]]\n[a.b]\n".repeat(50_000));
    finishes(&format!("{} = 1", "a.".repeat(400_000) + "a"));
}

#[test]
fn numbers_past_every_limit_are_errors_not_overflows() {
    for number in [
        "9223372036854775807",
        "170141183460469231731687303715884105727",
        "1e400",
        "\"999999999/1\"",
        "\"1/999999999\"",
        "nan",
        "inf",
        "-0.0",
    ] {
        let _ = read_rubric(&with_named_criterion(&format!(
            "kind = \"toleranced\"\nweight = {number}\ntarget = {number}\nstops_below = {number}\n\
             bands = [{{ within = {number}, marks = {number} }}]\n"
        )));
        let _ = read_rubric(&with_named_criterion(&format!(
            "kind = \"judged\"\nnumbers = {{ least = 0, most = {number}, step = {number} }}\n"
        )));
        let _ = read_rubric(&with_root(&format!(
            "[award]\npass = {number}\nrisk = {number}\n"
        )));
    }
}
