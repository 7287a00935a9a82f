//! A cohort held against sums by hand.

use evenshod::cohort::{
    Cohort, Column, Detail, Group, IN_ONE_ONLY, Other, Person, Plan, Standing, Worked, as_test,
    compare, pass_rates, spreads, stand, weakest_steps,
};
use evenshod::figures::Lacking;
use evenshod::marking::Award;
use evenshod::output::text;
use evenshod::quantity::{Exact, Marks};
use evenshod::records::{Day, Learner, LearnerId, LearnerStatus, PieceId, SittingKind, Span};
use evenshod::sheet::cohort_sheet;

use crate::records::sample::{day, now, stamp};

/// A practice piece of so many of 100 marks, 65 to pass, made as the `number`-th.
fn piece(number: u64, marks: i64) -> Worked {
    let award = if marks >= 65 {
        Award::Pass
    } else {
        Award::NotYet
    };
    Worked {
        piece: PieceId::made_by(&stamp(number), 3),
        day: day(),
        sitting: SittingKind::Practice,
        is_timed: true,
        version: "1".to_owned(),
        is_whole: true,
        award,
        marks: Marks::whole(marks),
        out_of: Marks::whole(100),
        pass_mark: Marks::whole(65),
        detail: None,
    }
}

fn pieces(marks: &[i64]) -> Vec<Worked> {
    (0..)
        .zip(marks)
        .map(|(at, marks)| piece(at, *marks))
        .collect()
}

fn standing(marks: &[i64]) -> Standing {
    stand(&pieces(marks)).standing
}

#[test]
fn standing_is_decided_by_the_rules_that_are_stated() {
    assert_eq!(standing(&[]), Standing::TooFew);
    assert_eq!(standing(&[90, 92, 91, 93]), Standing::TooFew);
    // Far above the pass mark with a scatter of one or two.
    assert_eq!(standing(&[90, 92, 91, 93, 92]), Standing::Ready);
    // Up and down, far below it.
    assert_eq!(standing(&[40, 44, 38, 43, 39, 42]), Standing::Stalled);
    // Each better than the one before, still below it.
    assert_eq!(standing(&[20, 24, 29, 31, 36, 40]), Standing::OnTheWay);
    // Early rise, then none in the latest eight.
    let early = [10, 20, 30, 40, 42, 39, 41, 40, 42, 39, 41, 40];
    assert_eq!(standing(&early), Standing::Stalled);
}

#[test]
fn marks_that_never_differ_pass_or_stall() {
    assert_eq!(standing(&[70; 5]), Standing::Ready);
    assert_eq!(standing(&[60; 5]), Standing::Stalled);
}

#[test]
fn only_pieces_made_alike_stand_together() {
    let mut mixed = pieces(&[90, 92, 91, 93, 92]);
    mixed[4].sitting = SittingKind::Exam;
    let found = stand(&mixed);
    assert_eq!((found.standing, found.pieces), (Standing::TooFew, 5));
    let mut mixed = pieces(&[90, 92, 91, 93, 92]);
    mixed[0].is_timed = false;
    assert_eq!(stand(&mixed).standing, Standing::TooFew);
    let mut mixed = pieces(&[90, 92, 91, 93, 92]);
    mixed[0].version = "0".to_owned();
    assert_eq!(stand(&mixed).standing, Standing::TooFew);
    let mut mixed = pieces(&[90, 92, 91, 93, 92]);
    mixed[2].is_whole = false;
    assert_eq!(stand(&mixed).pieces, 4);
    // Exams before five practice pieces: the practice pieces stand.
    let mut mixed = pieces(&[20, 90, 92, 91, 93, 92]);
    mixed[0].sitting = SittingKind::Exam;
    let alike = stand(&mixed).alike.unwrap();
    assert_eq!((alike.sitting, alike.pieces), (SittingKind::Practice, 5));
}

/// A learner whose latest piece has these marks: of 4 for the first criterion, of 6 for the
/// second; what is lost goes to a step each.
fn person(number: u64, first: i64, second: i64) -> Person {
    let cells = [(first, 4), (second, 6)];
    let detail = Detail {
        criteria: cells
            .map(|(marks, most)| Some((Marks::whole(marks), Marks::whole(most))))
            .to_vec(),
        lost: cells
            .map(|(marks, most)| Marks::whole(most - marks))
            .to_vec(),
    };
    let marks = Marks::whole(first + second);
    Person {
        id: LearnerId::made_by(&stamp(number), 0),
        name: format!("Learner {number}"),
        pieces: vec![Worked {
            marks,
            out_of: Marks::whole(10),
            pass_mark: Marks::whole(6),
            award: if first + second >= 6 {
                Award::Pass
            } else {
                Award::NotYet
            },
            detail: Some(detail),
            ..piece(number, 0)
        }],
    }
}

fn cohort(marks: &[(i64, i64)]) -> Cohort {
    let column = |id: &str| Column {
        id: id.to_owned(),
        name: id.to_owned(),
        section: "Form".to_owned(),
    };
    let people = (0..).zip(marks);
    Cohort {
        rubric: "Shoe".to_owned(),
        group: "Everybody".to_owned(),
        day: day(),
        span: Span::default(),
        latest: 3,
        plan: Plan {
            columns: vec![column("toe"), column("depth")],
            steps: [("bend", "Bending"), ("groove", "Fullering")]
                .map(|(id, name)| (id.to_owned(), name.to_owned()))
                .to_vec(),
        },
        people: people
            .map(|(at, (first, second))| person(at, *first, *second))
            .collect(),
        other: None,
    }
}

const FIVE: [(i64, i64); 5] = [(4, 6), (2, 3), (0, 3), (4, 3), (1, 0)];

#[test]
fn five_learners_give_figures() {
    let cohort = cohort(&FIVE);
    // 10, 5, 3, 7 and 1 of 10: two reach 6.
    let rates = pass_rates(&cohort);
    assert_eq!(rates.len(), 1);
    assert_eq!((rates[0].passed, rates[0].of, rates[0].learners), (2, 5, 5));
    // Wilson for 2 of 5 at 95 %: 0.1176 to 0.7693 (worked out by hand with z = 1.95996).
    let interval = rates[0].interval.as_ref().unwrap();
    assert!((interval.low - 0.1176).abs() < 5e-5, "{interval:?}");
    assert!((interval.high - 0.7693).abs() < 5e-5, "{interval:?}");

    // Toe: 0, 1/4, 1/2, 1, 1. Depth: 0, 1/2, 1/2, 1/2, 1.
    let found = spreads(&cohort);
    let toe = found[0].quartiles.as_ref().unwrap();
    assert_eq!((toe.lower, toe.middle, toe.upper), (0.25, 0.5, 1.0));
    assert_eq!((found[0].at_most, found[0].at_least), (2, 1));
    assert_eq!((found[1].at_most, found[1].at_least), (1, 1));

    // Toe lost 0, 2, 4, 0, 3 of 10; depth 0, 3, 3, 3, 6.
    let weak = weakest_steps(&cohort).unwrap();
    let told: Vec<_> = weak.iter().map(|weak| (weak.step, weak.percent)).collect();
    assert_eq!(told, [(1, Exact::whole(30)), (0, Exact::whole(18))]);
    assert_eq!(weak[0].examples.len(), 3);
    assert_eq!(weak[0].examples[0].learner, cohort.people[4].id);
    // Who lost nothing there is no example.
    assert!(weak[1].examples.iter().all(|one| one.percent > Exact::ZERO));

    // Variances 3.2 and 4.5 of the items, 12.2 of the sums: alpha 2 (1 - 7.7 / 12.2).
    let test = as_test(&cohort).unwrap();
    let alpha = test.alpha.unwrap().alpha;
    assert!((alpha - 2.0 * (1.0 - 7.7 / 12.2)).abs() < 1e-12, "{alpha}");
    let error = test.error.unwrap();
    assert!((error - (12.2_f64 * (1.0 - alpha)).sqrt()).abs() < 1e-12);
    assert_eq!((test.totals.mean, test.out_of), (5.2, 10.0));
}

#[test]
fn four_learners_give_none() {
    let cohort = cohort(&FIVE[..4]);
    let few = Lacking::TooFew {
        what: "learners",
        has: 4,
        needs: 5,
    };
    assert_eq!(pass_rates(&cohort)[0].interval, Err(few.clone()));
    assert!(
        spreads(&cohort)
            .iter()
            .all(|one| one.quartiles == Err(few.clone()))
    );
    assert_eq!(weakest_steps(&cohort), Err(few.clone()));
    assert_eq!(as_test(&cohort), Err(few));
}

/// The other group's people have numbers of their own.
fn beside(marks: &[(i64, i64)]) -> Other {
    let people = (10..).zip(marks);
    Other {
        group: "Began in 2024".to_owned(),
        people: people
            .map(|(at, (first, second))| person(at, *first, *second))
            .collect(),
    }
}

/// Toe here 1, 1/2, 0, 1, 1/4: mean 0.55. There 0, 0, 1/4, 1/4, 1/2: mean 0.2, and so on.
/// Variances 0.2 and 0.04375 over five each: standard error 0.220794 and 5.670 degrees of
/// freedom, where t is 2.4818 (found by summing its density).
#[test]
fn two_groups_stand_side_by_side() {
    let mut both = cohort(&FIVE);
    assert_eq!(compare(&both), None);
    both.other = Some(beside(&[(0, 0), (0, 6), (1, 3), (1, 0), (2, 0)]));
    let found = compare(&both).unwrap();
    assert_eq!(found.in_both, 0);
    let toe = &found.columns[0];
    assert_eq!(toe.means, [Some(0.55), Some(0.2)]);
    let apart = toe.difference.as_ref().unwrap();
    assert!((apart.difference - 0.35).abs() < 1e-12);
    assert!(
        (apart.interval.low - (0.35 - 2.4818 * 0.220_794)).abs() < 1e-4,
        "{apart:?}"
    );
    // 10, 5, 3, 7, 1 of 10 against 0, 6, 4, 1, 2.
    assert_eq!(found.total.means, [Some(0.52), Some(0.26)]);
    // Two of five pass here, one of five there; Newcombe of 2/5 and 1/5.
    let rate = &found.rates[0];
    let passed = rate
        .rates
        .each_ref()
        .map(|rate| rate.as_ref().map(|rate| rate.passed));
    assert_eq!(passed, [Some(2), Some(1)]);
    let apart = rate.difference.as_ref().unwrap();
    assert!((apart.difference - 0.2).abs() < 1e-12);
    assert!(apart.interval.low < 0.0 && apart.interval.high > 0.2);
}

#[test]
fn a_group_is_not_compared_with_fewer_than_five() {
    let mut both = cohort(&FIVE);
    both.other = Some(beside(&FIVE[..4]));
    let found = compare(&both).unwrap();
    let few = Lacking::TooFew {
        what: "learners",
        has: 4,
        needs: 5,
    };
    assert_eq!(found.total.difference, Err(few.clone()));
    assert_eq!(found.total.means, [Some(0.52), None]);
    assert_eq!(found.rates[0].difference, Err(few));
    assert_eq!(found.rates[0].rates[1], None);
    let said = text(&cohort_sheet(&both).document);
    // Four made 52 %: the number of so small a group is nowhere.
    assert!(said.contains("Everybody beside Began in 2024"), "{said}");
    assert!(said.contains("Not shown: 4 of the 5 learners"), "{said}");
}

/// Five learners and the same five with one more: six times the one mean less five times the
/// other is what the sixth made.
#[test]
fn groups_that_differ_by_fewer_than_five_do_not_give_those_away() {
    let mut both = cohort(&FIVE);
    let same = both.people.clone();
    let with = |more: &[(i64, i64)]| Other {
        group: "Everybody".to_owned(),
        people: same.iter().cloned().chain(beside(more).people).collect(),
    };
    both.other = Some(with(&[]));
    let found = compare(&both).unwrap();
    assert_eq!((found.in_both, found.total.means), (5, [Some(0.52); 2]));
    both.other = Some(with(&[(4, 6)]));
    let found = compare(&both).unwrap();
    let few = Lacking::TooFew {
        what: IN_ONE_ONLY,
        has: 1,
        needs: 5,
    };
    assert_eq!(found.total.difference, Err(few.clone()));
    let all = found.columns.iter().chain([&found.total]);
    assert!(all.clone().all(|one| one.means[1].is_none()));
    assert!(found.rates.iter().all(|rate| rate.rates[1].is_none()));
    let said = text(&cohort_sheet(&both).document);
    assert!(
        said.contains("Not shown: only 1 learner is in one"),
        "{said}"
    );
    // The other way round as well.
    let (small, large) = (both.people.clone(), with(&[(4, 6)]).people);
    both.people = large;
    both.other = Some(Other {
        group: "The five".to_owned(),
        people: small,
    });
    assert_eq!(compare(&both).unwrap().total.difference, Err(few));
    // Five more are a group of their own.
    both.people = same.clone();
    both.other = Some(with(&FIVE));
    let found = compare(&both).unwrap();
    assert_eq!((found.in_both, found.total.means), (5, [Some(0.52); 2]));
    assert!(found.total.difference.is_ok());
}

/// The sums are 10, 5, 3, 7 and 1 of 10 with 6 to pass: near 6 stand 7, 5, 3 and then 10, 1.
#[test]
fn a_decision_has_its_reliability() {
    let test = as_test(&cohort(&FIVE)).unwrap();
    assert!((test.pass - 6.0).abs() < 1e-12);
    // k s² of two marks is their difference squared: 4, 1, 9, 1, 1 over all five.
    let near = test.error_near_pass.clone().unwrap();
    assert!((near - (16.0_f64 / 5.0).sqrt()).abs() < 1e-12, "{near}");
    let decision = test.decision.unwrap();
    assert!(decision.consistency > decision.by_chance);
    assert!((0.5..1.0).contains(&decision.accuracy));
}

#[test]
fn the_order_of_people_changes_no_figure() {
    let one = cohort(&FIVE);
    let mut other = one.clone();
    other.people.reverse();
    assert_eq!(pass_rates(&one), pass_rates(&other));
    assert_eq!(spreads(&one), spreads(&other));
    assert_eq!(weakest_steps(&one), weakest_steps(&other));
}

#[test]
fn groups_go_by_start_and_status() {
    let id = LearnerId::made_by(&stamp(0), 0);
    let mut learner = Learner::named(id, stamp(0), "Ada".to_owned());
    assert!(Group::InTraining.holds(&learner) && Group::NoStart.holds(&learner));
    learner.started = Day::new(2024, 9, 1);
    learner.status = LearnerStatus::Left;
    let holds = |group: Group| group.holds(&learner);
    assert!(holds(Group::Began(2024)) && holds(Group::All));
    assert!(!holds(Group::Began(2025)) && !holds(Group::NoStart) && !holds(Group::InTraining));
    learner.erased = Some(now());
    assert!(!Group::All.holds(&learner), "an erased name is nobody's");
    for group in [
        Group::InTraining,
        Group::All,
        Group::Began(2024),
        Group::NoStart,
    ] {
        assert_eq!(Group::from_word(&group.word()), group);
    }
}
