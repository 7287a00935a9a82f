//! The smallest rubric, in parts, for tests that need one to write into.

use evenshod::rubric::{Checked, Diagnostic, Rubric, read_rubric};

const HEAD: &str = "\
schema = 1
id = \"sample\"
version = \"1\"
title = \"Sample\"
";

const PIECE: &str = "
[piece]
kind = \"open-heeled\"
stock = { width = 20, thickness = 10 }
finished = { width = 130, length = 135, thickness = 9 }
heels = { gap = 60 }
";

const AWARD: &str = "
[award]
pass = \"60 %\"
";

const SECTION: &str = "
[[sections]]
id = \"one\"
name = \"One\"
";

const CRITERION: &str = "
[[sections.criteria]]
id = \"outline\"
name = \"Outline\"
kind = \"judged\"
numbers = { least = 0, most = 10 }
";

/// `fragment` at the root of the smallest rubric, which keeps those of its
/// tables that the fragment does not have.
pub fn with_root(fragment: &str) -> String {
    let section = format!("{SECTION}{CRITERION}");
    let parts = [
        ("[piece", PIECE),
        ("[award", AWARD),
        ("[[sections", section.as_str()),
    ];
    let rest = parts
        .into_iter()
        .filter(|(table, _)| !fragment.lines().any(|line| line.starts_with(table)))
        .map(|(_, text)| text);
    format!("{HEAD}{fragment}{}", rest.collect::<String>())
}

/// `fragment` as the keys of the only criterion.
pub fn with_criterion(fragment: &str) -> String {
    format!("{HEAD}{PIECE}{AWARD}{SECTION}\n[[sections.criteria]]\n{fragment}")
}

/// A criterion of these lines, given id and name.
pub fn with_named_criterion(lines: &str) -> String {
    with_criterion(&format!("id = \"it\"\nname = \"It\"\n{lines}"))
}

/// All that is said of `text`, but for remedies: fragments say nothing to practise.
pub fn said_of(checked: &Checked) -> Vec<&Diagnostic> {
    let found = checked.diagnostics.iter();
    found
        .filter(|found| !found.what.starts_with("nothing to practise"))
        .collect()
}

/// The rubric in `text`, where nothing at all is said against it.
#[track_caller]
pub fn read(text: &str) -> Rubric {
    let checked = read_rubric(text);
    let found: Vec<_> = said_of(&checked)
        .into_iter()
        .map(ToString::to_string)
        .collect();
    assert!(found.is_empty(), "{}\nin\n{text}", found.join("\n"));
    checked.rubric.unwrap()
}
