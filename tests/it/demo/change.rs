//! How invented learners change, worked out once more by a Python script.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use evenshod::marking::Pause;
use evenshod::output::csv::write;
use evenshod::progress::{
    Made, Numbers, Pair, all_series, change, next_pieces, own_bias, practised, usual,
};
use evenshod::quantity::{Dimension, Unit, read_quantity};
use evenshod::records::{Learner, Marking, Piece};
use evenshod::sheet::{Field, Rows};

use super::sample::{criteria, demo, rubric_of};

fn one<'a>(piece: &Piece, marking: &'a Marking) -> Made<'a> {
    Made::of(demo(), piece, marking, rubric_of(demo(), marking)).unwrap()
}

/// The pieces of a learner as they count, and those that both marked, oldest first.
fn made_by(learner: &Learner) -> (Vec<Made<'static>>, Vec<Pair<'static>>) {
    let mut pieces = Vec::new();
    let mut pairs = Vec::new();
    for piece in demo().pieces_of(learner.id) {
        let standing = demo().standing(piece.id);
        let Some(counts) = standing.counts() else {
            continue;
        };
        pieces.push(one(piece, counts));
        if let Some((own, counts)) = standing.own_and_counting() {
            pairs.push(Pair {
                own: one(piece, own),
                counts: one(piece, counts),
            });
        }
    }
    pieces.sort_by_key(|made| (made.day, made.piece));
    pairs.sort_by_key(|pair| (pair.counts.day, pair.counts.piece));
    (pieces, pairs)
}

fn percents(numbers: &Numbers) -> Vec<f64> {
    let pieces = numbers.pieces.iter();
    pieces.map(|piece| piece.percent.to_f64()).collect()
}

fn stated() -> Rows {
    let mut rows = Rows {
        columns: ["what", "of", "by", "values"].map(str::to_owned).to_vec(),
        rows: Vec::new(),
    };
    let mut add = |what: &str, of: &str, by: &str, values: &[f64]| {
        let values: Vec<String> = values.iter().map(|value| format!("{value:.12}")).collect();
        let fields = [what, of, by, &values.join(" ")].map(|text| Field::Text(text.to_owned()));
        rows.rows.push(fields.to_vec());
    };
    for learner in demo().learners() {
        let (pieces, pairs) = made_by(learner);
        for series in all_series(&pieces) {
            let (of, by) = (&learner.name, &series.rubric_id);
            let numbers = Numbers::of(&series, &pairs);
            let percents = percents(&numbers);
            if let Ok(found) = change(&percents) {
                let interval = found.line.interval;
                let values = [
                    found.line.slope,
                    interval.low,
                    interval.high,
                    found.ranks.tau,
                ];
                add("trend", of, by, &values);
            }
            if let Ok(found) = usual(&percents) {
                add(
                    "usual",
                    of,
                    by,
                    &[*found.low.last().unwrap(), *found.high.last().unwrap()],
                );
            }
            let next = next_pieces(&series);
            if let Some(next) = next.iter().find_map(|next| next.figure.as_ref().ok()) {
                add(
                    "next",
                    of,
                    by,
                    &[next.share, next.interval.low, next.interval.high],
                );
            }
            for tally in &numbers.tallies {
                if let Ok(found) = practised(&tally.values) {
                    let (floor, interval) = found.fit.floor(0.95).unwrap();
                    let ends = [found.heights[0], *found.heights.last().unwrap()];
                    let values = [ends[0], ends[1], floor, interval.low, interval.high];
                    add("curve", of, &format!("{by} {}", tally.id), &values);
                }
            }
        }
        if let Some(series) = all_series(&pieces).first() {
            let numbers = Numbers::of(series, &pairs);
            let sides = numbers.own.iter();
            let (own, others): (Vec<f64>, Vec<f64>) = sides
                .map(|pair| (pair.own.to_f64(), pair.counts.to_f64()))
                .unzip();
            if let Ok(bias) = own_bias(&own, &others) {
                let (mean, distance) = (bias.mean, bias.distance);
                let values = [
                    mean.value,
                    mean.interval.low,
                    mean.interval.high,
                    distance.slope,
                    distance.interval.low,
                    distance.interval.high,
                ];
                add("own", &learner.name, "", &values);
            }
        }
    }
    rows
}

/// The minutes for which the clock of each marking stood.
fn pauses() -> Rows {
    let minutes = |pause: &Pause| {
        let stood = read_quantity(&pause.duration, Dimension::Duration, Unit::Minute).unwrap();
        stood.base.over(Unit::Minute.in_base()).unwrap().to_f64()
    };
    let rows = demo().markings().flat_map(|marking| {
        let pauses = marking.facts.pauses.iter();
        pauses.map(|pause| {
            let fields = [marking.id.to_string(), minutes(pause).to_string()];
            fields.map(Field::Text).to_vec()
        })
    });
    Rows {
        columns: ["marking_id", "minutes"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}

fn file(name: &str, rows: &Rows) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, write(rows).unwrap()).unwrap();
    path
}

fn work_out(inputs: &[PathBuf; 2], stated: &Path) -> Output {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/demo/change.py");
    Command::new("python3")
        .arg(script)
        .args(inputs)
        .arg(stated)
        .output()
        .expect("this test runs tests/data/demo/change.py: put python3 on PATH")
}

#[test]
fn a_script_in_python_comes_to_the_same_change() {
    let mut stated = stated();
    for what in ["trend", "usual", "next", "curve"] {
        let field = Field::Text(what.to_owned());
        let is_there = stated.rows.iter().any(|row| row[0] == field);
        assert!(is_there, "{what} is held against something");
    }
    let inputs = [
        file("change-criteria.csv", &criteria()),
        file("change-pauses.csv", &pauses()),
    ];
    let output = work_out(&inputs, &file("change-stated.csv", &stated));
    let said = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}{errors}");
    assert_eq!(said.trim(), format!("{} figures agree", stated.rows.len()));

    // It would have told: one figure is another.
    let Field::Text(values) = &stated.rows[0][3] else {
        panic!("figures are text here");
    };
    let other = format!("9{values}");
    stated.rows[0][3] = Field::Text(other);
    let output = work_out(&inputs, &file("change-stated-wrong.csv", &stated));
    let said = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
}
