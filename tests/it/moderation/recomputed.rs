//! What the demo's examiners come to, worked out once more by a Python script.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use evenshod::moderation::{CriterionFigures, Gathered, agreement, offers};
use evenshod::output::csv::write;
use evenshod::quantity::{Exact, Marks};
use evenshod::records::Span;
use evenshod::rubric::{Judged, Kind, Rubric, read_rubric};
use evenshod::sheet::{Field, Rows, Scored, long_rows};
use serde_json::{Value, json};

use crate::demo::sample::demo;

fn file(name: &str, bytes: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, bytes).unwrap();
    path
}

/// Every marking of every piece by this version, as the program exports it.
fn criteria(rubric: &Rubric, digest: &str) -> Rows {
    let pieces = demo().pieces_by(digest);
    let markings = pieces.flat_map(|piece| demo().markings_of(piece.id));
    let scored = markings.filter(|marking| marking.rubric == digest);
    let scored: Vec<Scored<'_>> = scored
        .map(|marking| Scored::of(demo().seal_parts(marking).unwrap(), rubric))
        .collect();
    long_rows(&scored)
}

/// The levels of each judged criterion, the better the higher.
fn levels(rubric: &Rubric) -> Rows {
    let mut rows = Vec::new();
    for entry in rubric.entries() {
        let Kind::Judged(judged) = &entry.criterion.kind else {
            continue;
        };
        let rising: Vec<String> = match judged {
            Judged::Levels(levels) => levels.iter().rev().map(|one| one.id.clone()).collect(),
            Judged::Numbers { allowed, .. } => {
                allowed.iter().copied().map(Marks::exact_text).collect()
            }
        };
        for (place, level) in rising.into_iter().enumerate() {
            let place = Field::Number(place.to_string());
            rows.push(vec![
                Field::Text(entry.id.clone()),
                Field::Text(level),
                place,
            ]);
        }
    }
    Rows {
        columns: ["criterion_id", "level", "place"]
            .map(str::to_owned)
            .to_vec(),
        rows,
    }
}

/// What the program says, and how many figures that are.
fn figures(rubric: &Rubric, digest: &str) -> (Value, usize) {
    let gathered = Gathered::of(demo(), rubric, digest, Span::default());
    let found = agreement(&gathered, &mut |_| ());
    let name = |id| demo().examiner(id).unwrap().name.clone();
    let pairs = found.totals.pairs.iter().map(|pair| {
        json!({
            "first": name(pair.first),
            "second": name(pair.second),
            "pieces": pair.points.len(),
            "bias": pair.limits.bias.value,
            "low": pair.limits.low.value,
            "high": pair.limits.high.value,
        })
    });
    let pairs: Vec<Value> = pairs.collect();
    let (mut alpha, mut readings, mut apart) = (json!({}), json!({}), json!({}));
    let mut count = 3 + 4 * pairs.len();
    for one in &found.criteria {
        apart[&one.id] = json!(one.apart.map(Exact::to_f64));
        count += 1;
        match &one.figures {
            CriterionFigures::Judged(judged) => {
                alpha[&one.id] = json!(judged.alpha.as_ref().unwrap());
                count += 1;
            }
            CriterionFigures::Measured(measured) => {
                if let Ok(within) = &measured.between {
                    readings[&one.id] = json!(within.deviation);
                    count += 1;
                }
            }
            CriterionFigures::Counted => {}
        }
    }
    let said = json!({
        "pieces": found.totals.pieces,
        "apart": found.totals.apart.unwrap().to_f64(),
        "icc": found.totals.icc.unwrap().value,
        "pairs": pairs,
        "alpha": alpha,
        "readings": readings,
        "marks_apart": apart,
    });
    (said, count)
}

fn work_out(files: [&Path; 3]) -> Output {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/demo/agreement.py");
    Command::new("python3")
        .arg(script)
        .args(files)
        .output()
        .expect("this test runs tests/data/demo/agreement.py: put python3 on PATH")
}

#[test]
fn a_script_in_python_comes_to_the_same_figures() {
    let offer = offers(demo()).remove(0);
    let version = demo().rubric(&offer.digest).unwrap();
    let rubric = read_rubric(&version.text).rubric.unwrap();
    let criteria = write(&criteria(&rubric, &offer.digest)).unwrap();
    let criteria = file("agreement-criteria.csv", &criteria);
    let levels = file("agreement-levels.csv", &write(&levels(&rubric)).unwrap());
    let (mut said, count) = figures(&rubric, &offer.digest);
    let stated = file("agreement-figures.json", &said.to_string());
    let output = work_out([&criteria, &levels, &stated]);
    let told = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{told}{errors}");
    assert_eq!(told.trim(), format!("{count} figures agree"));

    // It would have told.
    let icc = said["icc"].as_f64().unwrap();
    said["icc"] = json!(icc - 0.001);
    let stated = file("agreement-wrong.json", &said.to_string());
    let output = work_out([&criteria, &levels, &stated]);
    let told = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert!(
        told.starts_with("icc:") && told.lines().count() == 1,
        "{told}"
    );
}
