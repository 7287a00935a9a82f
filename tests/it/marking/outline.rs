//! Outlines that a marking keeps: what is none is refused, in the command and from a file.

use evenshod::marking::{Facts, OutlineFact, OutlineFault, impression_is_locked};
use serde_json::{Value, json};

use crate::records::sample::outline;

fn read(change: impl FnOnce(&mut Value)) -> Result<Facts, String> {
    let mut facts = json!({ "outlines": [outline(None)] });
    change(&mut facts);
    serde_json::from_value(facts).map_err(|fault| fault.to_string())
}

fn refused(change: impl FnOnce(&mut Value)) -> String {
    read(change).expect_err("an outline that is none")
}

#[test]
fn what_is_kept_comes_back() {
    let facts = read(|_| {}).unwrap();
    assert_eq!(facts.outlines, [outline(None)]);
    assert!(!facts.is_blank());
    let written = serde_json::to_string(&facts.outlines).unwrap();
    assert!(
        written.contains(r#""outer":[[0,0],[1042,91],"#),
        "{written}"
    );
    let at = OutlineFact::place((-12.345, 0.004)).unwrap();
    assert_eq!((at, OutlineFact::mm(at)), ((-1_235, 0), (-12.35, 0.0)));
}

/// What was read off it does; without any of that, the first impression is open again.
#[test]
fn an_outline_alone_locks_no_first_impression() {
    let facts = read(|_| {}).unwrap();
    assert!(!impression_is_locked(None, &facts));
}

#[test]
fn numbers_that_are_none_are_no_place() {
    for off in [f64::NAN, f64::INFINITY, -1e300, 500.01] {
        for at in [(off, 0.0), (0.0, off)] {
            let fault = OutlineFact::place(at).unwrap_err();
            assert!(matches!(fault, OutlineFault::Place(_)), "{fault:?}");
        }
    }
    assert_eq!(OutlineFact::place((500.0, -500.0)), Ok((50_000, -50_000)));
}

/// A file that somebody made to do harm is refused with a sentence, before anything is drawn.
#[test]
fn hostile_outlines_are_refused_in_words() {
    type Change = fn(&mut Value);
    let outer = |count: i32| json!((0..count).map(|x| (x, 0)).collect::<Vec<_>>());
    assert!(
        refused(|facts| facts["outlines"][0]["outer"] = outer(401))
            .contains("up to 400 places to an edge, and this has 401; thin it out")
    );
    assert!(
        refused(|facts| facts["outlines"][0]["inner"] = json!([outer(7)]))
            .contains("has 7 places; 8 are the least")
    );
    assert!(
        refused(|facts| facts["outlines"][0]["inner"] = json!(vec![outer(8); 5]))
            .contains("a shoe has no 5 openings")
    );
    assert!(
        refused(|facts| facts["outlines"][0]["holes"] = outer(41))
            .contains("a shoe has no 41 nail holes")
    );
    let changes: [(&str, Change); 7] = [
        ("500.01 mm, 0 mm", |one| {
            one["outer"][3] = json!([50_001, 0])
        }),
        ("0 mm, -500.01 mm", |one| {
            one["holes"][0] = json!([0, -50_001])
        }),
        ("expected i32", |one| one["outer"][3] = json!([1e300, 0])),
        ("expected i32", |one| one["outer"][3] = json!([0.5, 0])),
        ("SHA-256", |one| one["photo"] = json!("A".repeat(64))),
        ("unsure by more", |one| one["unsure"] = json!(50_001)),
        ("unknown field", |one| one["mood"] = json!("good")),
    ];
    for (wanted, change) in changes {
        let why = refused(|facts| change(&mut facts["outlines"][0]));
        assert!(why.contains(wanted), "{wanted}: {why}");
    }
    let twice = refused(|facts| facts["outlines"] = json!([outline(None), outline(None)]));
    assert!(twice.contains("two outlines of one shoe"), "{twice}");
}
