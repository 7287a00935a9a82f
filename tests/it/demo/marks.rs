use std::collections::BTreeSet;

use evenshod::marking::{Award, CriterionResult, ResultState};
use evenshod::records::{Ended, Marking, PersonalText, check_seal};
use evenshod::rubric::{Effect, Kind};

use super::sample::{demo, outcome, rubric_of};

fn ended(marking: &Marking) -> Option<Ended> {
    demo().piece(marking.piece).unwrap().ended
}

#[test]
fn every_marking_is_used_without_a_problem_and_is_complete_unless_it_broke_off() {
    for marking in demo().markings() {
        let outcome = outcome(demo(), marking);
        assert_eq!(outcome.problems, [], "{}", marking.id);
        let breaks_off = marking.seal.is_none() || ended(marking) == Some(Ended::Withdrawn);
        assert_eq!(
            outcome.complete, !breaks_off,
            "{} {:?}",
            marking.id, outcome.missing
        );
        assert!(!marking.facts.readings.is_empty() || !marking.facts.levels.is_empty());
    }
}

#[test]
fn only_the_piece_that_is_stopped_has_a_fault_that_stops() {
    let mut stopped = Vec::new();
    for marking in demo().markings() {
        let rubric = rubric_of(demo(), marking);
        let seen = outcome(demo(), marking);
        for (entry, result) in rubric.entries().iter().zip(&seen.criteria) {
            let stops = result.faults.iter().any(|(id, _)| {
                let mut faults = entry.criterion.faults.iter();
                faults.any(|fault| fault.id == *id && fault.effect == Effect::Stop)
            });
            if stops {
                assert_eq!(seen.award, Award::NotYet);
                let not_made = |one: &&CriterionResult| one.state == ResultState::NotMade;
                assert!(seen.criteria.iter().filter(not_made).count() >= 1);
                stopped.push(ended(marking));
            }
        }
    }
    assert_eq!(stopped, [Some(Ended::StoppedForSafety)]);
}

#[test]
fn every_seal_holds() {
    let mut digests = BTreeSet::new();
    for marking in demo().markings().filter(|marking| marking.seal.is_some()) {
        let parts = demo().seal_parts(marking).unwrap();
        let check = check_seal(parts).unwrap();
        assert!(check.intact, "{}", marking.id);
        let same = |text: &_| *text == PersonalText::Same;
        assert!(check.personal.values().all(same), "{:?}", check.personal);
        let seal = marking.seal.as_ref().unwrap();
        for salted in seal.personal.values() {
            assert!(digests.insert(salted.salt.clone()), "a salt is used twice");
        }
    }
    assert!(digests.len() > 300, "{}", digests.len());
}

#[test]
fn what_is_typed_is_what_people_type() {
    let (mut inches, mut commas, mut intervals, mut repeats, mut pauses) = (0, 0, 0, 0, 0);
    let (mut noted, mut said, mut whole) = (0, 0, 0);
    for marking in demo().markings() {
        for (entry, readings) in &marking.facts.readings {
            repeats += usize::from(readings.len() > 1);
            for fact in readings {
                inches += usize::from(fact.text.contains('/'));
                commas += usize::from(fact.text.contains(','));
                intervals += usize::from(fact.text.contains(".."));
                assert!(fact.text.len() <= 14, "{entry} {}", fact.text);
            }
        }
        pauses += marking.facts.pauses.len();
        noted += marking
            .facts
            .faults
            .values()
            .filter(|ids| !ids.is_empty())
            .count();
        said += marking.comments.len();
        whole += usize::from(marking.overall.is_some());
    }
    let seen = [inches, commas, intervals, repeats, noted];
    assert!(seen.iter().all(|count| *count >= 40), "{seen:?}");
    assert!(
        pauses >= 3 && said >= 20 && whole >= 60,
        "{pauses} {said} {whole}"
    );
}

#[test]
fn each_kind_of_criterion_is_won_and_lost() {
    let kinds = [
        "toleranced",
        "paired",
        "spread",
        "tally",
        "judged",
        "faults",
    ];
    let mut won = BTreeSet::new();
    let mut lost = BTreeSet::new();
    for marking in demo().markings().filter(|marking| marking.seal.is_some()) {
        let rubric = rubric_of(demo(), marking);
        let outcome = outcome(demo(), marking);
        for (entry, result) in rubric.entries().iter().zip(&outcome.criteria) {
            let kind = match &entry.criterion.kind {
                Kind::Toleranced(_) => kinds[0],
                Kind::Paired(_) => kinds[1],
                Kind::Spread(_) => kinds[2],
                Kind::Tally(_) => kinds[3],
                Kind::Judged(_) => kinds[4],
                Kind::Faults(_) => kinds[5],
            };
            match result.marks {
                Some(marks) if marks == result.out_of => won.insert(kind),
                Some(_) => lost.insert(kind),
                None => false,
            };
        }
    }
    assert_eq!(won, kinds.into());
    assert_eq!(lost, kinds.into());
}
