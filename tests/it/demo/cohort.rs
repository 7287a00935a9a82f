//! What the invented school comes to as a cohort, worked out once more by a Python script.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use evenshod::cohort::{
    Asked, Cohort, Group, Kept, as_test, columns, made_last, members, pass_rates, row, spreads,
    used_rubrics,
};
use evenshod::output::csv::write;
use evenshod::present::Rubrics;
use evenshod::present::cohort::{cohort_pieces, cohort_start};
use evenshod::records::{Change, LearnerId, Ledger, Record, RubricVersion, Whom};
use evenshod::sheet::{Field, Rows};

use crate::records::sample::stamp;

use super::sample::{criteria, demo, today};

const LATEST: usize = 3;

fn asked() -> Asked {
    Asked {
        rubric: used_rubrics(demo()).remove(0).0,
        group: Group::All,
        span: Default::default(),
        other: None,
        latest: LATEST,
        whom: Whom::Examiner,
    }
}

/// The cohort with all of its pieces.
fn cohort(asked: &Asked) -> Cohort {
    let rubrics = Rubrics::default();
    let mut cohort = cohort_start(demo(), &rubrics, asked, today()).unwrap();
    let plan = cohort.plan.clone();
    for one in cohort.all_mut() {
        one.pieces = cohort_pieces(demo(), &rubrics, asked, &plan, one.id);
    }
    cohort
}

fn stated(asked: &Asked) -> Rows {
    let mut rows = Rows {
        columns: ["what", "of", "by", "values"].map(str::to_owned).to_vec(),
        rows: Vec::new(),
    };
    let mut add = |what: &str, of: &str, by: &str, values: Vec<String>| {
        let fields = [what, of, by, &values.join(" ")].map(|text| Field::Text(text.to_owned()));
        rows.rows.push(fields.to_vec());
    };
    let rubrics = Rubrics::default();
    let read = |version: &RubricVersion| rubrics.get(version);
    let columns = columns(&made_last(demo(), &read, asked).unwrap());
    for learner in members(demo(), asked.group) {
        let row = row(demo(), &read, asked, &columns, learner.id);
        for (column, cell) in columns.iter().zip(&row.cells) {
            if let Some(cell) = cell {
                let values = vec![cell.share.to_string(), cell.pieces.to_string()];
                add("matrix", &learner.name, &column.id, values);
            }
        }
    }
    let cohort = cohort(asked);
    for spread in spreads(&cohort) {
        if let Ok(found) = spread.quartiles {
            let values = [found.lower, found.middle, found.upper].map(|one| format!("{one:.12}"));
            let id = &cohort.plan.columns[spread.column].id;
            add("quartiles", id, "", values.to_vec());
        }
    }
    for rate in pass_rates(&cohort) {
        if let Ok(interval) = rate.interval {
            let values = vec![
                rate.passed.to_string(),
                rate.of.to_string(),
                format!("{:.12}", interval.low),
                format!("{:.12}", interval.high),
            ];
            add("rate", rate.sitting.word(), "", values);
        }
    }
    if let Ok(test) = as_test(&cohort) {
        let values = [test.alpha.unwrap().alpha, test.error.unwrap()];
        let values = values.map(|one| format!("{one:.12}")).to_vec();
        add("alpha", "", "", values);
    }
    rows
}

fn file(name: &str, rows: &Rows) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, write(rows).unwrap()).unwrap();
    path
}

fn work_out(criteria: &Path, stated: &Path, rubric: &str) -> Output {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/demo/cohort.py");
    Command::new("python3")
        .arg(script)
        .args([criteria, stated])
        .args([rubric, &LATEST.to_string()])
        .output()
        .expect("this test runs tests/data/demo/cohort.py: put python3 on PATH")
}

#[test]
fn a_script_in_python_comes_to_the_same_cohort() {
    let asked = asked();
    let mut stated = stated(&asked);
    let has = |what: &str| {
        let what = Field::Text(what.to_owned());
        stated.rows.iter().any(|row| row[0] == what)
    };
    for what in ["matrix", "quartiles", "rate", "alpha"] {
        assert!(has(what), "{what} is held against something");
    }
    let criteria = file("cohort-criteria.csv", &criteria());
    let output = work_out(
        &criteria,
        &file("cohort-stated.csv", &stated),
        &asked.rubric,
    );
    let said = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}{errors}");
    let expect = format!("{} figures agree", stated.rows.len());
    assert_eq!(said.trim(), expect);

    // It would have told: one median is another.
    stated.rows[0][3] = Field::Text("1/7 3".to_owned());
    let wrong = file("cohort-stated-wrong.csv", &stated);
    let output = work_out(&criteria, &wrong, &asked.rubric);
    let said = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
}

#[test]
fn the_matrix_of_the_page_is_that_of_the_numbers() {
    let asked = asked();
    let rubrics = Rubrics::default();
    let read = |version: &RubricVersion| rubrics.get(version);
    let cohort = cohort(&asked);
    let columns = columns(&made_last(demo(), &read, &asked).unwrap());
    assert_eq!(columns, cohort.plan.columns);
    let learners = members(demo(), asked.group);
    assert_eq!(learners.len(), cohort.people.len());
    for (learner, person) in learners.iter().zip(&cohort.people) {
        assert_eq!(learner.id, person.id);
        let row = row(demo(), &read, &asked, &columns, learner.id);
        assert_eq!(row.cells, evenshod::cohort::medians(&cohort, person));
    }
}

/// What a change of the ledger, or another question, leaves of what is kept of its learners.
#[test]
fn what_is_kept_goes_with_whatever_it_rests_on() {
    let (ledger, rubrics) = (demo(), Rubrics::default());
    let asked = asked();
    let plan = cohort(&asked).plan;
    let learners: Vec<LearnerId> = members(ledger, asked.group)
        .iter()
        .map(|one| one.id)
        .collect();
    let worked = |ledger: &Ledger, asked: &Asked, learner| {
        cohort_pieces(ledger, &rubrics, asked, &plan, learner)
    };
    let has_made = |learner: &LearnerId| !worked(ledger, &asked, *learner).is_empty();
    let busy = *learners.iter().find(|learner| has_made(learner)).unwrap();
    let piece = ledger.pieces_of(busy).next().unwrap();
    let marking = ledger.markings_of(piece.id).next().unwrap();
    let sitting = ledger.sitting(piece.sitting).unwrap();
    let left_after = |records: Vec<Record>, asked_then: &Asked| {
        let mut kept = Kept::default();
        kept.turn_to(ledger, &asked, &plan);
        for learner in &learners {
            kept.put(*learner, worked(ledger, &asked, *learner));
        }
        let then = ledger.with(&Change {
            puts: records,
            ..Change::default()
        });
        kept.turn_to(&then, asked_then, &plan);
        // Whatever is still here is what would be worked out anew.
        let mut left = BTreeSet::new();
        for learner in &learners {
            if let Some(found) = kept.get(*learner) {
                assert_eq!(*found, worked(&then, asked_then, *learner));
                left.insert(*learner);
            }
        }
        left
    };
    let all: BTreeSet<LearnerId> = learners.iter().copied().collect();
    let without = |gone: &[LearnerId]| -> BTreeSet<LearnerId> {
        all.iter()
            .copied()
            .filter(|learner| !gone.contains(learner))
            .collect()
    };
    // The same once more, written later.
    macro_rules! written {
        ($record:expr) => {{
            let mut record = $record.clone();
            record.stamp = stamp(9_000);
            vec![record.into()]
        }};
    }
    assert_eq!(left_after(vec![], &asked), all, "nothing changed");
    let learner = ledger.learner(busy).unwrap();
    assert_eq!(
        left_after(written!(learner), &asked),
        all,
        "a learner's own record"
    );
    assert_eq!(left_after(written!(piece), &asked), without(&[busy]));
    assert_eq!(left_after(written!(marking), &asked), without(&[busy]));
    let there: Vec<LearnerId> = ledger
        .pieces()
        .filter(|piece| piece.sitting == sitting.id)
        .filter_map(|piece| piece.learner)
        .collect();
    assert_eq!(left_after(written!(sitting), &asked), without(&there));
    let other_group = Asked {
        group: Group::InTraining,
        other: Some(Group::All),
        ..asked.clone()
    };
    assert_eq!(
        left_after(vec![], &other_group),
        all,
        "what a learner comes to is the same in each group"
    );
    let fewer = Asked {
        latest: LATEST - 1,
        ..asked.clone()
    };
    assert_eq!(left_after(vec![], &fewer), BTreeSet::new());
    let mut version = ledger
        .rubrics()
        .find(|version| version.rubric_id == asked.rubric)
        .unwrap()
        .clone();
    version.digest = "0".repeat(64);
    assert_eq!(
        left_after(written!(version), &asked),
        BTreeSet::new(),
        "another version"
    );
}
