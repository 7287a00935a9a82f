//! Which markings enter.

use evenshod::command::{Amend, Command};
use evenshod::marking::Settlement;
use evenshod::moderation::{Gathered, blind_firsts, offers};
use evenshod::records::{Day, Ledger, Role, Span};

use super::sample::{FIVE, GREEN, REED, STONE, School, digest, five, rubric};
use crate::records::sample::{day, now, seal};
use crate::records::two::{agree, settle};

/// Names of those whose marking of the last piece enters.
fn who(school: &School) -> Vec<String> {
    let piece = school.ledger.piece(*school.pieces.last().unwrap()).unwrap();
    let firsts = blind_firsts(&school.ledger, piece);
    let mut names: Vec<String> = firsts
        .iter()
        .map(|one| school.ledger.examiner_name(one).to_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn sealed_ones_of_examiners_enter() {
    let [one, other] = FIVE[0];
    let school = School::of(&[&[(GREEN, one), (REED, other), (STONE, one)]]);
    assert_eq!(who(&school), [STONE, REED, GREEN]);
}

#[test]
fn none_enters_while_a_blind_one_is_open() {
    let [one, other] = FIVE[0];
    let mut school = School::of(&[&[(GREEN, one), (REED, other)]]);
    let third = school.begun(Role::Third, STONE);
    assert!(who(&school).is_empty());
    assert!(offers(&school.ledger).is_empty());
    school.give(third, one);
    school.perform(seal(third));
    assert_eq!(who(&school).len(), 3);
}

#[test]
fn neither_the_makers_own_nor_the_agreed_one_enters() {
    let [one, other] = FIVE[0];
    let mut school = School::of(&[&[(GREEN, one), (REED, other)]]);
    let own = school.begun(Role::Own, "");
    school.give(own, one);
    school.perform(seal(own));
    assert_eq!(who(&school), [REED, GREEN]);
    let piece = *school.pieces.last().unwrap();
    let agreed = school.perform(agree(piece)).unwrap();
    assert_eq!(who(&school), [REED, GREEN], "an agreed one is not blind");
    for entry in ["width", "outline", "finish"] {
        school.perform(settle(agreed, entry, Settlement::Mean, "both looked again"));
    }
    school.perform(seal(agreed));
    assert_eq!(who(&school), [REED, GREEN]);
}

#[test]
fn of_a_corrected_one_the_first_counts() {
    let [one, other] = FIVE[0];
    let mut school = School::of(&[&[(GREEN, one), (REED, other)]]);
    let piece = *school.pieces.last().unwrap();
    let all: Vec<_> = school.ledger.markings_of(piece).collect();
    let first = all.iter().find(|marking| marking.role == Role::First);
    let first = first.unwrap().id;
    let amended = school
        .perform(Command::Amend(Box::new(Amend {
            marking: first,
            examiner: GREEN.to_owned(),
            reason: "the rule lay askew".to_owned(),
            at: now(),
        })))
        .unwrap();
    school.give(amended, FIVE[3][0]);
    school.perform(seal(amended));
    let piece = school.ledger.piece(piece).unwrap();
    let ids: Vec<_> = blind_firsts(&school.ledger, piece)
        .iter()
        .map(|one| one.id)
        .collect();
    assert!(ids.contains(&first) && !ids.contains(&amended));
    assert_eq!(ids.len(), 2);
}

#[test]
fn pieces_are_told_by_day_and_by_version() {
    let school = five();
    let rubric = rubric();
    let gathered = |digest: &str, from, to| {
        let span = Span { from, to };
        let found = Gathered::of(&school.ledger, &rubric, digest, span);
        (found.twice.len(), found.once.len())
    };
    let later = Day::new(2026, 11, 26);
    assert_eq!(gathered(&digest(), None, None), (5, 0));
    assert_eq!(gathered(&digest(), Some(day()), Some(day())), (5, 0));
    assert_eq!(gathered(&digest(), later, None), (0, 0));
    assert_eq!(gathered(&digest(), None, Day::new(2026, 11, 24)), (0, 0));
    assert_eq!(gathered("another", None, None), (0, 0));
}

#[test]
fn a_version_is_offered_once_two_marked_a_piece() {
    let mut school = School::of(&[&[(GREEN, FIVE[0][0])]]);
    assert!(offers(&school.ledger).is_empty());
    assert!(offers(&Ledger::default()).is_empty());
    school.marked(&[(GREEN, FIVE[1][0]), (REED, FIVE[1][1])]);
    let [offer] = &offers(&school.ledger)[..] else {
        panic!("one version");
    };
    assert_eq!((offer.pieces, offer.latest), (1, day()));
    assert_eq!(offer.digest, digest());
    let rubric = rubric();
    let found = Gathered::of(&school.ledger, &rubric, &digest(), Span::default());
    assert_eq!((found.twice.len(), found.once.len()), (1, 1));
    assert_eq!(found.examiners.len(), 2);
}
