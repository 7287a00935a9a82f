//! What pieces show of the outcomes of a qualification, held against sums by hand.

use std::sync::Arc;

use evenshod::progress::{OutcomeEvidence, evidence};
use evenshod::records::Role;
use evenshod::rubric::Rubric;

use super::{RUBRIC, made, seen};
use crate::marking::rubric;

/// The rubric with two outcomes of a unit; nothing shows the second unless `second` names a
/// criterion for it.
pub fn with_outcomes(second: Option<&str>) -> Rubric {
    let unit = r#"
[qualification]
code = "U1"
title = "Makes shoes"
outcomes = [{ code = "A", text = "Bends to shape" }, { code = "B", text = "Fullers" }]
[[sections]]
id = "form""#;
    let mut text = RUBRIC.replacen("[[sections]]\nid = \"form\"", unit.trim_start(), 1);
    let mut name = |criterion: &str, code: &str| {
        let head = format!("id = \"{criterion}\"\n");
        text = text.replacen(&head, &format!("{head}outcomes = [\"{code}\"]\n"), 1);
    };
    name("toe", "A");
    name("heats", "A");
    if let Some(criterion) = second {
        name(criterion, "B");
    }
    rubric(&text)
}

fn shown(outcome: &OutcomeEvidence<'_>) -> Vec<String> {
    let pieces = outcome.pieces.iter();
    pieces
        .map(|piece| format!("{} {} of {}", piece.made.day, piece.marks, piece.out_of))
        .collect()
}

#[test]
fn marks_of_the_criteria_that_name_an_outcome_are_added() {
    let rubric = Arc::new(with_outcomes(Some("depth")));
    // Toe 3 of 4 in a section of 5 that counts 10, so 6 of 8; heats 1 over, so 1 of 2.
    let facts = seen(3, 1, 5, 7, "");
    let pieces = [made(&rubric, &facts, 0, Role::First)];
    let units = evidence(&pieces, &[]);
    let [unit] = units.as_slice() else {
        panic!("{units:?}");
    };
    assert_eq!((unit.code, unit.title), ("U1", "Makes shoes"));
    assert_eq!(shown(&unit.outcomes[0]), ["1 Mar 2026 4 of 6"]);
    assert_eq!(shown(&unit.outcomes[1]), ["1 Mar 2026 5 of 6"]);
}

#[test]
fn what_no_piece_shows_is_a_gap() {
    let rubric = Arc::new(with_outcomes(None));
    let facts = seen(3, 1, 5, 6, "");
    let pieces = [
        made(&rubric, &facts, 0, Role::First),
        made(&rubric, &facts, 1, Role::First),
    ];
    let units = evidence(&pieces, &[]);
    assert_eq!(units[0].outcomes[0].pieces.len(), 2);
    assert!(units[0].outcomes[1].pieces.is_empty());
    // An outcome that a newer version names, and a unit that nothing was made for.
    let newer = with_outcomes(Some("depth"));
    let mut other = with_outcomes(None);
    if let Some(unit) = &mut other.qualification {
        unit.code = "U0".to_owned();
    }
    let others = [&newer, &other];
    let units = evidence(&pieces, &others);
    let codes: Vec<&str> = units.iter().map(|unit| unit.code).collect();
    assert_eq!(codes, ["U0", "U1"]);
    assert!(
        units[0]
            .outcomes
            .iter()
            .all(|outcome| outcome.pieces.is_empty())
    );
    assert_eq!(units[1].outcomes.len(), 2);
}

#[test]
fn a_criterion_that_was_not_marked_shows_nothing() {
    let rubric = Arc::new(with_outcomes(Some("depth")));
    let facts = crate::marking::facts(
        r#"{"levels": {"toe": "2"}, "tallies": {"heats": "6"},
            "states": {"depth": {"state": "not-applicable"}}}"#,
    );
    let pieces = [made(&rubric, &facts, 0, Role::First)];
    let units = evidence(&pieces, &[]);
    assert_eq!(units[0].outcomes[0].pieces.len(), 1);
    assert!(units[0].outcomes[1].pieces.is_empty());
    assert!(evidence(&[], &[]).is_empty());
}
