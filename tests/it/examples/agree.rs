//! `agree` says how well raters agree, and what is wrong with a file.

use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

/// Shrout and Fleiss (1979), table 2, row by row.
const JUDGES: [[u8; 4]; 6] = [
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
];

fn run(name: &str, text: &str) -> Output {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text).unwrap();
    run_on(path.to_str().unwrap())
}

fn run_on(path: &str) -> Output {
    Command::new(env!("CARGO"))
        .args(["run", "--quiet", "--example", "agree", "--", path])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap()
}

fn answered(output: &Output) -> Value {
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{said}");
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The judges' scores, of the first so many of them; one is left out, another left empty.
fn judged(raters: usize, gaps: bool) -> String {
    let mut text = "target,rater,score\n".to_owned();
    for (target, row) in JUDGES.iter().enumerate() {
        for (rater, score) in row.iter().enumerate().take(raters) {
            match (gaps, target, rater) {
                (true, 0, 1) => {}
                (true, 3, 0) => text += "t3,r0,\n",
                _ => text += &format!("t{target},r{rater},{score}\n"),
            }
        }
    }
    text
}

#[track_caller]
fn near(found: &Value, expected: f64) {
    let found = found.as_f64().unwrap();
    assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
}

#[test]
fn the_worked_example_comes_out_as_written() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/README.md");
    let readme = std::fs::read_to_string(path).unwrap();
    let block = |kind: &str| {
        let part = readme.split(&format!("```{kind}\n")).last().unwrap();
        part.split("```").next().unwrap().to_owned()
    };
    let told = answered(&run("agree-readme.csv", &block("csv")));
    let written: Value = serde_json::from_str(&block("json")).unwrap();
    assert_eq!(told, written);
}

/// Values of pingouin 0.7 and krippendorff 0.9; intervals by McGraw and Wong (1996).
#[test]
fn four_judges_without_gaps() {
    let told = answered(&run("agree-judges.csv", &judged(4, false)));
    assert_eq!(
        (&told["n_targets"], &told["n_raters"]),
        (&6.into(), &4.into())
    );
    assert_eq!(told["n_missing"], 0);
    let icc = &told["icc"];
    near(&icc["1,1"]["value"], 0.165_741_768_4);
    near(&icc["1,1"]["low"], -0.132_932_324_9);
    near(&icc["2,1"]["value"], 0.289_763_779_5);
    near(&icc["2,1"]["low"], 0.018_786_513_37);
    near(&icc["2,1"]["high"], 0.761_084_369_6);
    near(&icc["3,1"]["value"], 0.714_840_714_8);
    near(&icc["1,k"]["value"], 0.442_797_133_7);
    near(&icc["2,k"]["value"], 0.620_050_547_6);
    near(&icc["3,k"]["value"], 0.909_315_542_4);
    assert_eq!(icc["2,1"]["method"], "mean squares");
    assert!(told["kappa"].is_null() && told["bland_altman"].is_null());
    let why: Vec<&str> = told["why"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(Value::as_str)
        .collect();
    let two = "raters: 4, and it takes exactly two";
    assert_eq!(
        why,
        [format!("kappa: {two}"), format!("bland_altman: {two}")]
    );
}

#[test]
fn gaps_leave_what_bears_gaps() {
    let told = answered(&run("agree-gaps.csv", &judged(4, true)));
    assert_eq!(
        (&told["n_targets"], &told["n_missing"]),
        (&6.into(), &2.into())
    );
    assert_eq!(told["icc"]["2,1"]["method"], "components of variance");
    let value = told["icc"]["2,1"]["value"].as_f64().unwrap();
    assert!(told["icc"]["2,1"]["low"].as_f64().unwrap() < value);
    assert!(told["icc"]["2,1"]["high"].as_f64().unwrap() > value);
    assert!(told["icc"]["3,1"].is_null() && told["kendall_w"].is_null());
    assert!(told["krippendorff"]["ordinal"].is_f64());
    let why = told["why"].to_string();
    assert!(
        why.contains("icc 3,1: the table of scores: a value is missing"),
        "{why}"
    );
}

#[test]
fn two_judges_are_compared_with_each_other() {
    let told = answered(&run("agree-two.csv", &judged(2, false)));
    near(&told["bland_altman"]["bias"], 31.0 / 6.0);
    // No score is given by both, so that chance would make none agree either.
    near(&told["kappa"]["unweighted"], 0.0);
    assert!(told["kappa"]["quadratic"].is_f64());
    assert_eq!(told["why"], serde_json::json!([]));
}

/// Columns in another order, spaces, quotes and the mark of UTF-8 change nothing.
#[test]
fn how_the_file_is_written_does_not_matter() {
    let mut text = "\u{feff}score , rater,target\r\n".to_owned();
    for line in judged(4, false).lines().skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        text += &format!("{}, \"{}\",{}\r\n", fields[2], fields[1], fields[0]);
    }
    let told = answered(&run("agree-other.csv", &text));
    assert_eq!(
        told,
        answered(&run("agree-judges-again.csv", &judged(4, false)))
    );
}

#[test]
fn bad_input_ends_with_code_2_and_names_the_line() {
    let cases = [
        ("", "line 1: the column `target` is missing"),
        ("a,b,3\n", "line 1: there is no column `a`"),
        ("target,rater,mark\n", "line 1: there is no column `mark`"),
        (
            "target,rater\na,b\n",
            "line 1: the column `score` is missing",
        ),
        (
            "target,rater,score,score\n",
            "line 1: the column `score` is there twice",
        ),
        ("target,rater,score\n", "line 2: there are no scores"),
        (
            "target,rater,score\na,b,3\na,c,good\n",
            "line 3: `good` is not a number",
        ),
        (
            "target,rater,score\na,b,inf\n",
            "line 2: `inf` is not a number",
        ),
        (
            "target,rater,score\na,b,\"3,5\"\n",
            "line 2: `3,5` is not a number",
        ),
        (
            "target,rater,score\na,b,3\n\na,b,3\n",
            "line 4: rater b scored target a on line 2",
        ),
        (
            "target,rater,score\r\n\r\n\r\na,b,3\r\na,c\r\n",
            "line 5: 2 fields instead of 3",
        ),
        ("target,rater,score\na,b\n", "line 2: 2 fields instead of 3"),
        (
            "target,rater,score\n,b,3\n",
            "line 2: the target is missing",
        ),
        ("target,rater,score\na,,3\n", "line 2: the rater is missing"),
    ];
    for (text, expect) in cases {
        let output = run("agree-bad.csv", text);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{text}");
        assert!(said.contains(expect), "{text} says {said}");
        assert!(output.stdout.is_empty());
    }
    let none = run_on("examples/none.csv");
    assert_eq!(none.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&none.stderr).contains("cannot be read"));
}
