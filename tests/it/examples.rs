//! The programs in `examples/` do what their README says.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

mod agree;

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

/// The small rubric for two examiners whose mean counts.
fn by_two() -> String {
    let small = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/small.toml");
    let text = std::fs::read_to_string(small).unwrap();
    let text = format!("examiners = 2\nmoderation = {{ settle = \"mean\" }}\n{text}");
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("by-two.toml");
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

fn answered(facts: &str) -> Value {
    let output = run_mark(&by_two(), facts);
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{said}");
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn fewer_examiners_than_the_rubric_asks_for_give_no_result() {
    let facts = blocks()[0].clone();
    let told = answered(&facts);
    assert_eq!(told["award"], "incomplete");
    assert_eq!(told["complete"], true);
    assert_eq!(
        told["award_reasons"][0],
        "1 of 2 examiners marked it; fewer give no result"
    );
    let told = answered(&format!("[{facts}, {facts}]"));
    assert_eq!(
        (&told["award"], &told["marks"]),
        (&"pass".into(), &"10".into())
    );
    assert_eq!(told["open"], serde_json::json!([]));
}

#[test]
fn what_two_examiners_settle_is_in_the_file_with_their_facts() {
    let facts = blocks()[0].clone();
    let other = facts.replace("closed", "open");
    assert_ne!(facts, other);
    let told = answered(&format!("[{facts}, {other}]"));
    assert_eq!(told["marks"], "9", "the mean of 2 and 0 for the weld");
    let settled = r#"{"weld": {"by": {"from": 1}, "reason": "seen under the light"}}"#;
    let both = format!(r#"{{"examiners": [{facts}, {other}], "settled": {settled}}}"#);
    assert_eq!(answered(&both)["marks"], "8");
}
