//! The programs in `examples/` do what their README says.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

fn run_mark(rubric: &str, facts: &str) -> Output {
    let mut child = Command::new(env!("CARGO"))
        .args(["run", "--quiet", "--example", "mark", "--", rubric])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(facts.as_bytes())
        .unwrap();
    child.wait_with_output().unwrap()
}

/// The JSON blocks of the README, in order.
fn blocks() -> Vec<String> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/README.md");
    let text = std::fs::read_to_string(path).unwrap();
    let parts = text.split("```json\n").skip(1);
    parts
        .map(|part| part.split("```").next().unwrap().to_owned())
        .collect()
}

#[test]
fn the_worked_example_comes_out_as_written() {
    let blocks = blocks();
    let output = run_mark("examples/small.toml", &blocks[0]);
    assert_eq!(
        output.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    let written: Value = serde_json::from_str(&blocks[1]).unwrap();
    assert_eq!(told, written);
}

#[test]
fn bad_input_ends_with_code_2_and_says_how_to_mend_it() {
    let cases = [
        (
            "examples/small.toml",
            r#"{"readings": {"length": ["thick"]}}"#,
            "not a number",
        ),
        (
            "examples/small.toml",
            r#"{"readings": {"lenght": ["134"]}}"#,
            "no reading `lenght`",
        ),
        ("examples/small.toml", r#"{"reading": {}}"#, "reading"),
        ("examples/small.toml", "", "examples/README.md"),
        ("examples/none.toml", "{}", "cannot be read"),
        ("examples/README.md", "{}", "line 1"),
    ];
    for (rubric, facts, expect) in cases {
        let output = run_mark(rubric, facts);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{facts}");
        assert!(said.contains(expect), "{facts} says {said}");
        assert!(output.stdout.is_empty());
    }
}
