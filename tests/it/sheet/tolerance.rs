//! Tolerances of every sort in words.

use evenshod::sheet::Block;

use super::sample::{begun, plain, sheet};
use crate::records::sample::named;
use crate::rubric::sample::with_named_criterion;

/// The tolerance that stands on the sheet for a criterion of these lines.
fn tolerance(lines: &str) -> String {
    let text = with_named_criterion(lines);
    let (ledger, marking) = begun(&text, named("Ada Smith"));
    let document = sheet(&ledger, marking);
    let table = document.blocks.iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let table = table.unwrap_or_else(|| panic!("no table in {}", plain(&document)));
    table.groups[0].rows[0][1].text.clone()
}

#[track_caller]
fn check(lines: &str, expect: &str) {
    assert_eq!(tolerance(lines), expect);
}

#[test]
fn limits_with_and_without_a_target() {
    check(
        "kind = \"toleranced\"\ntarget = \"129 mm\"\nbands = [{ within = \"1.5 mm\", marks = 4 }, { under = \"2 mm\", over = \"3 mm\", marks = 2 }]",
        "129 mm within 1.5 mm: 4, 2 mm under to 3 mm over: 2, else 0",
    );
    check(
        "kind = \"toleranced\"\nbands = [{ at_least = \"8 mm\", marks = 3 }]",
        "at least 8 mm: 3, else 0",
    );
    check(
        "kind = \"toleranced\"\nbands = [{ from = \"8 mm\", to = \"10 mm\", marks = 3 }]",
        "from 8 mm to 10 mm: 3, else 0",
    );
}

#[test]
fn weights_count_and_effects_are_said() {
    check(
        "kind = \"toleranced\"\nweight = 2\ntarget = \"10 mm\"\nbands = [{ within = \"1 mm\", marks = 4 }]\nstops_outside = { within = \"5 mm\" }\nstops_below = 1",
        "10 mm within 1 mm: 8, else 0; stops the award unless within 5 mm; below 2 stops the award",
    );
    check(
        "kind = \"judged\"\nlevels = [{ id = \"a\", name = \"Good\", marks = 3 }, { id = \"b\", name = \"Bad\", marks = 0, effect = \"warn\" }]",
        "Good: 3, Bad: 0 and a warning",
    );
}

#[test]
fn a_spread_and_a_tally() {
    check(
        "kind = \"spread\"\nspread = \"farthest from mean\"\ncount = 3\nbands = [{ at_most = \"1 mm\", marks = 2 }]",
        "farthest from the mean at most 1 mm: 2, else 0",
    );
    check(
        "kind = \"tally\"\nmarks = 3\nallowance = 4\neach = 2\ndeduct = 1\nhard_limit = 9",
        "up to 4: 3, 1 off for each 2 started beyond, past 9 stops the award",
    );
}
