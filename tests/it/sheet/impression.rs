//! The first impression on sheets, side by side and in files.

use evenshod::command::{Command, Edit, RubricText, StartPiece};
use evenshod::records::{Ledger, MarkingId, Role, sha256_hex};
use evenshod::rubric::Rubric;
use evenshod::sheet::{
    Field, Scored, beside, examiners_document, impression_words, rubric_document,
};

use super::beside::both;
use super::sample::{begun, edited, faults, long, look, performed, plain, read, readings, sheet};
use crate::records::sample::{after, level, named, seal, stamp, start_piece};
use crate::rubric::impression::text;

fn first(impression: &str) -> Edit {
    Edit::SetImpression {
        impression: Some(impression.to_owned()),
    }
}

/// All but the first impression: 7 of 10, 4 of 4, 4 of 4 and 2 of 2.
fn all() -> Vec<Edit> {
    let level = |entry: &str, level: &str| Edit::SetLevel {
        entry: entry.to_owned(),
        level: Some(level.to_owned()),
    };
    vec![
        faults("safety", &[]),
        level("whole", "7"),
        level("weld", "sound"),
        readings("width", &["130"]),
    ]
}

fn marked(table: &str, edits: Vec<Edit>) -> (Ledger, MarkingId) {
    let (ledger, marking) = begun(&text(table), named("Ada Smith"));
    (edited(ledger, marking, edits), marking)
}

#[track_caller]
fn says(ledger: &Ledger, marking: MarkingId, line: &str) {
    let text = plain(&sheet(ledger, marking));
    assert!(
        text.lines().any(|one| one == line),
        "no\n{line}\nin\n{text}"
    );
}

#[track_caller]
fn is_silent(ledger: &Ledger, marking: MarkingId) {
    let text = plain(&sheet(ledger, marking));
    assert!(!text.to_lowercase().contains("first impression"), "{text}");
}

/// 17 of 20 is 85 %.
#[test]
fn it_stands_beside_the_total_and_is_sealed_with_the_rest() {
    let (ledger, marking) = marked("", vec![first("7")]);
    says(
        &ledger,
        marking,
        "First impression 7 of 10 (70 %), given before measuring, not counted.",
    );
    let ledger = edited(ledger, marking, all());
    let line = "First impression 7 of 10 (70 %), given before measuring, not counted; the marks \
                are 85.0 %.";
    says(&ledger, marking, line);
    let ledger = performed(ledger, vec![seal(marking)]);
    says(&ledger, marking, line);
    let parts = ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap();
    let document = evenshod::records::sealed_document(parts).unwrap();
    assert!(document.canonical.contains(r#""impression":"7""#));
}

#[test]
fn left_out_it_is_not_missed() {
    let (ledger, marking) = marked("", all());
    is_silent(&ledger, marking);
    look(&ledger, marking, |scored| {
        assert!(scored.outcome.complete && scored.outcome.problems.is_empty());
    });
}

#[test]
fn one_that_counts_says_whether_it_came_first() {
    let table = "counts_as = \"weld\"";
    let (ledger, marking) = marked(table, [vec![first("sound")], all()[..2].to_vec()].concat());
    says(
        &ledger,
        marking,
        "First impression Sound, given before measuring, counted as Weld.",
    );
    let (ledger, marking) = marked(table, all());
    says(
        &ledger,
        marking,
        "Weld counts as the first impression and was given after measuring.",
    );
    let (ledger, marking) = marked(table, all()[..2].to_vec());
    is_silent(&ledger, marking);
    let (ledger, marking) = marked("counts_as = \"whole\"", vec![first("7")]);
    says(
        &ledger,
        marking,
        "First impression 7 of 10, given before measuring, counted as Overall impression.",
    );
}

#[test]
fn one_that_cannot_be_used_is_told_and_shown_nowhere() {
    let (ledger, marking) = marked("most = 5", vec![first("7")]);
    let text = plain(&sheet(&ledger, marking));
    assert!(text.contains("first impression: `7` cannot be given; use 0, 1, 2, 3, 4, 5"));
    look(&ledger, marking, |scored| {
        let facts = &scored.parts.marking.facts;
        assert_eq!(impression_words(scored.rubric, facts), None);
    });
}

#[test]
fn rows_of_a_file_have_it_in_a_column() {
    let column = |table: &str, edits: Vec<Edit>| {
        let (ledger, marking) = marked(table, edits);
        let rows = look(&ledger, marking, long);
        let at = rows
            .columns
            .iter()
            .position(|column| *column == "first_impression");
        let fields: Vec<Field> = rows
            .rows
            .iter()
            .map(|row| row[at.unwrap()].clone())
            .collect();
        assert!(fields.iter().all(|field| *field == fields[0]));
        fields[0].clone()
    };
    let step = "step = \"1/2\"";
    assert_eq!(
        column(step, vec![first("15/2")]),
        Field::Number("7.5".to_owned())
    );
    assert_eq!(
        column(step, vec![first("=A1")]),
        Field::Text("=A1".to_owned())
    );
    assert_eq!(column(step, all()), Field::Text(String::new()));
    let counts = "counts_as = \"weld\"";
    assert_eq!(
        column(counts, vec![first("sound")]),
        Field::Text("sound".to_owned())
    );
    assert_eq!(column(counts, all()), Field::Text(String::new()));
}

#[test]
fn examiners_side_by_side_each_have_their_own() {
    let text = text("").replace("schema = 1\n", "schema = 1\nexaminers = 2\n");
    let rubric = read(&text);
    let what = StartPiece {
        rubric: RubricText {
            digest: sha256_hex(text.as_bytes()),
            rubric_id: rubric.id.clone(),
            version: rubric.version.clone(),
            title: rubric.title.clone(),
            text,
        },
        second: Some("Jo Reed".to_owned()),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let one = made.marking.unwrap();
    let mut others = ledger.markings_of(made.piece.unwrap());
    let other = others.find(|one| one.role == Role::Second).unwrap().id;
    let ledger = edited(ledger.clone(), one, vec![first("7")]);
    let ledger = edited(ledger, other, all());
    let ledger = performed(ledger, vec![seal(one), seal(other)]);
    let scored = |id| {
        let marking = ledger.marking(id).unwrap();
        Scored::in_ledger(&ledger, marking, &rubric).unwrap()
    };
    let text = plain(&examiners_document(
        "Ada Smith",
        &[scored(one), scored(other)],
        &[],
    ));
    for line in [
        "Wm. Green (first), first impression: 7 of 10, before measuring",
        "Jo Reed (second), first impression: none given",
    ] {
        assert!(
            text.lines().any(|one| one == line),
            "no\n{line}\nin\n{text}"
        );
    }
}

#[test]
fn maker_and_examiner_side_by_side_each_have_their_own() {
    let text = text("counts_as = \"weld\"");
    let rubric: Rubric = read(&text);
    let (ledger, examiner, maker) = both(&text, None);
    let ledger = edited(ledger, maker, vec![first("sound")]);
    let late = vec![readings("width", &["130"])];
    let ledger = edited(ledger, examiner, late);
    let ledger = performed(ledger, vec![level(examiner, "weld", "open")]);
    let scored = |id| {
        let marking = ledger.marking(id).unwrap();
        Scored::in_ledger(&ledger, marking, &rubric).unwrap()
    };
    let text = plain(&beside("Ada Smith", &scored(maker), &scored(examiner)));
    for line in [
        "Maker’s first impression: Sound, before measuring",
        "Examiner’s first impression: given after measuring",
    ] {
        assert!(
            text.lines().any(|one| one == line),
            "no\n{line}\nin\n{text}"
        );
    }
}

#[test]
fn a_rubric_says_what_it_asks_first() {
    let told = |table: &str| {
        plain(&rubric_document(
            &read(&text(table)),
            evenshod::quantity::Unit::Millimetre,
        ))
    };
    assert!(
        told("ask = \"Well?\"\nstep = \"1/2\"")
            .contains("First impression: “Well?” 0 to 10 in steps of 0.5, not counted")
    );
    assert!(told("counts_as = \"weld\"").contains("First impression: counted as Weld"));
}
