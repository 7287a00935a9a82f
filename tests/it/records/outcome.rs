//! Whether a piece that several examiners mark has a result.

use evenshod::marking::{Award, Settlement};
use evenshod::quantity::Marks;
use evenshod::records::{Change, Lack, MarkingId, Replaces, Role, check_seal, sealed_document};

use super::sample::seal;
use super::two::{Two, again, agree, rubric, settle};

fn lack(two: &Two, marking: MarkingId, moderation: &str) -> Option<Lack> {
    let marking = two.ledger.marking(marking).unwrap();
    two.ledger.lack(marking, &rubric(moderation))
}

fn award(two: &Two, marking: MarkingId, moderation: &str) -> (Award, String) {
    let marking = two.ledger.marking(marking).unwrap();
    let outcome = two.ledger.outcome(marking, &rubric(moderation));
    (outcome.award, outcome.award_reasons[0].clone())
}

/// A published plan of end-point assessment in farriery asks for at least two examiners
/// who mark by themselves; fewer than two give no result.
#[test]
fn fewer_than_two_examiners_give_no_result() {
    let mut two = Two::begun("", ["8", "9"], ["8", "7"]);
    let one_of_two = (
        Award::Incomplete,
        "one of two examiners has marked".to_owned(),
    );
    assert_eq!(award(&two, two.first, ""), one_of_two);
    two.perform(seal(two.first));
    assert_eq!(award(&two, two.first, ""), one_of_two);
    two.perform(seal(two.second));
    assert_eq!(
        lack(&two, two.first, ""),
        Some(Lack::Agreement { have: 2 }),
        "both are sealed and nothing is agreed"
    );
    let agreed = two.agree();
    two.perform(settle(agreed, "finish", Settlement::Mean, "seen again"));
    assert_eq!(lack(&two, two.first, ""), Some(Lack::Agreement { have: 2 }));
    two.perform(seal(agreed));
    for marking in [two.first, two.second, agreed] {
        assert_eq!(lack(&two, marking, ""), None);
        assert_eq!(award(&two, marking, "").0, Award::Pass);
    }
    let standing = two.ledger.standing(two.piece);
    assert_eq!(standing.counts().unwrap().id, agreed);
}

#[test]
fn its_makers_own_marking_counts_for_nobody() {
    let mut two = Two::begun("", ["8", "9"], ["8", "7"]);
    let own = two.perform(again(two.piece, Role::Own, "")).unwrap();
    two.give(own, "10", "10");
    two.perform(seal(own));
    two.perform(seal(two.first));
    assert_eq!(
        lack(&two, two.first, ""),
        Some(Lack::Examiners { have: 1, need: 2 })
    );
    assert_eq!(lack(&two, own, ""), None);
}

#[test]
fn a_third_examiner_is_asked_for_where_awards_differ() {
    let third = "third_examiner = true, settle = \"mean\"";
    let alike = Two::sealed(third, ["8", "9"], ["8", "7"]);
    assert_eq!(
        lack(&alike, alike.first, third),
        Some(Lack::Agreement { have: 2 })
    );
    let mut two = Two::sealed(third, ["8", "9"], ["5", "4"]);
    assert_eq!(lack(&two, two.first, third), Some(Lack::Third));
    let third_one = two
        .perform(again(two.piece, Role::Third, "C. Lowe"))
        .unwrap();
    two.give(third_one, "8", "7");
    assert!(two.ledger.standing(two.piece).is_unseen());
    assert!(two.ledger.examiners_markings(two.piece).is_empty());
    two.perform(seal(third_one));
    let agreed = two.agree();
    two.perform(seal(agreed));
    let marking = two.ledger.marking(agreed).unwrap();
    let outcome = two.ledger.outcome(marking, &rubric(third));
    assert_eq!(
        outcome.marks,
        "41/3".parse::<Marks>().unwrap(),
        "the mean of three"
    );
    assert_eq!(lack(&two, third_one, third), None);
}

#[test]
fn an_agreed_marking_lacks_what_was_corrected_since() {
    let mut two = Two::sealed("settle = \"lower\"", ["8", "9"], ["8", "7"]);
    let agreed = two.agree();
    two.perform(seal(agreed));
    let mut corrected = two.ledger.marking(two.second).unwrap().clone();
    corrected.id = MarkingId::made_by(&super::sample::stamp(90), 4);
    corrected.role = Role::Amended;
    corrected.replaces = Some(Replaces {
        marking: two.second,
        reason: "the wrong shoe was marked".to_owned(),
    });
    assert_eq!(two.ledger.first_role(&corrected), Role::Second);
    two.ledger = two.ledger.with(&Change {
        puts: vec![corrected.into()],
        ..Change::default()
    });
    assert_eq!(lack(&two, agreed, ""), Some(Lack::Replaced));
    assert_eq!(lack(&two, two.first, ""), Some(Lack::Agreement { have: 2 }));
    // It can be made anew from what counts now.
    let anew = two.perform(agree(two.piece)).unwrap();
    two.perform(seal(anew));
    assert_eq!(lack(&two, anew, ""), None);
    assert_eq!(two.ledger.standing(two.piece).counts().unwrap().id, anew);
}

#[test]
fn what_is_agreed_is_in_the_seal_and_its_sources_are_named_with_their_digests() {
    let mut two = Two::sealed("", ["8", "9"], ["8", "7"]);
    let agreed = two.agree();
    two.perform(settle(
        agreed,
        "finish",
        Settlement::From(two.second),
        "a burr",
    ));
    two.perform(seal(agreed));
    let ledger = &two.ledger;
    let marking = ledger.marking(agreed).unwrap();
    let parts = ledger.seal_parts(marking).unwrap();
    let text = sealed_document(parts).unwrap().canonical;
    for source in [two.first, two.second] {
        let seal = ledger.marking(source).unwrap().seal.as_ref().unwrap();
        assert!(text.contains(&seal.digest));
    }
    assert!(text.contains("a burr"));
    assert!(check_seal(parts).unwrap().intact);
    let mut changed = marking.clone();
    changed.agreement.as_mut().unwrap().settled.clear();
    let parts = ledger.seal_parts(&changed).unwrap();
    assert!(!check_seal(parts).unwrap().intact);
    // The others are sealed as ever.
    let first = ledger
        .seal_parts(ledger.marking(two.first).unwrap())
        .unwrap();
    assert!(
        !sealed_document(first)
            .unwrap()
            .canonical
            .contains("agreement")
    );
}

#[test]
fn a_source_that_is_not_here_is_told() {
    let mut two = Two::sealed("settle = \"mean\"", ["8", "9"], ["8", "7"]);
    let agreed = two.agree();
    two.perform(seal(agreed));
    let records = two.ledger.records();
    let kept = records.filter(|record| record.key().id != two.first.to_string());
    let ledger = evenshod::records::Ledger::of(kept);
    let marking = ledger.marking(agreed).unwrap();
    let outcome = ledger.outcome(marking, &rubric(""));
    assert_eq!(outcome.award, Award::Incomplete);
    assert!(outcome.problems[0].message.contains("not in this ledger"));
}
