//! What the demo's markings come to, added up once more by a Python script.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use evenshod::output::csv::write;
use evenshod::quantity::Marks;
use evenshod::sheet::{Field, Rows, Scored, long_rows};

use super::sample::{demo, rubric_of};

/// The CSV of every marking, one under the other, and what each section comes to.
fn tables() -> (Rows, Rows) {
    let mut criteria = Rows {
        columns: Vec::new(),
        rows: Vec::new(),
    };
    let mut sections = Rows {
        columns: [
            "marking_id",
            "section_id",
            "cap",
            "weight",
            "marks",
            "out_of",
        ]
        .map(str::to_owned)
        .to_vec(),
        rows: Vec::new(),
    };
    let text = |marks: Option<Marks>| Field::Text(marks.map_or(String::new(), Marks::exact_text));
    for marking in demo().markings() {
        let rubric = rubric_of(demo(), marking);
        let scored = Scored::of(demo().seal_parts(marking).unwrap(), &rubric);
        let rows = long_rows(std::slice::from_ref(&scored));
        assert!(criteria.columns.is_empty() || criteria.columns == rows.columns);
        criteria.columns = rows.columns;
        criteria.rows.extend(rows.rows);
        for (section, result) in rubric.sections.iter().zip(&scored.outcome.sections) {
            sections.rows.push(vec![
                Field::Text(marking.id.to_string()),
                Field::Text(section.id.clone()),
                text(section.cap),
                text(section.weight),
                text(Some(result.marks)),
                text(Some(result.out_of)),
            ]);
        }
    }
    (criteria, sections)
}

fn file(name: &str, rows: &Rows) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, write(rows).unwrap()).unwrap();
    path
}

fn add_up(criteria: &Path, sections: &Path) -> Output {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/demo/totals.py");
    Command::new("python3")
        .arg(script)
        .args([criteria, sections])
        .output()
        .expect("this test runs tests/data/demo/totals.py: put python3 on PATH")
}

#[test]
fn a_script_in_python_comes_to_the_same_sections_and_totals() {
    let (mut criteria, sections) = tables();
    let stated = file("demo-sections.csv", &sections);
    let output = add_up(&file("demo-criteria.csv", &criteria), &stated);
    let said = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}{errors}");
    let expect = format!("170 markings and {} sections agree", sections.rows.len());
    assert_eq!(said.trim(), expect);

    // It would have told: one criterion is given a mark more.
    let at = |name: &str| {
        criteria
            .columns
            .iter()
            .position(|column| *column == name)
            .unwrap()
    };
    let (numerator, id) = (at("marks_numerator"), at("marking_id"));
    let row = &mut criteria.rows[500];
    let Field::Number(marks) = &row[numerator] else {
        panic!("{row:?}");
    };
    row[numerator] = Field::Number((marks.parse::<i64>().unwrap() + 1).to_string());
    let Field::Text(id) = row[id].clone() else {
        panic!("{row:?}");
    };
    let output = add_up(&file("demo-criteria-wrong.csv", &criteria), &stated);
    let said = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(said.lines().all(|line| line.starts_with(&id)), "{said}");
    assert_eq!(said.lines().count(), 2, "its section and its total: {said}");
}
