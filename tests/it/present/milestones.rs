//! Milestones on the page of a learner and on the record: which are shown, and the form.

use evenshod::command::{CommandError, MilestoneDetails};
use evenshod::demo::STALLS;
use evenshod::present::{
    CourseAsked, LearnerPage, MilestoneErrors, MilestoneForm, Rubrics, learner_page, learner_print,
    undo_milestone,
};
use evenshod::records::{Day, LearnerId, Ledger, Milestone, MilestoneId, Whom};
use evenshod::sheet::Block;

use crate::demo::sample::demo;
use crate::records::sample::{after, milestone, now, set_milestone, stamp, stamp_of, with_draft};

fn page(ledger: &Ledger, learner: LearnerId, from: &str) -> LearnerPage {
    let asked = CourseAsked::in_address(None, Some(from.to_owned()), None);
    let rubrics = Rubrics::default();
    learner_page(ledger, &rubrics, learner, &asked, now(), Whom::Learner).unwrap()
}

fn told(page: &LearnerPage) -> Vec<String> {
    let rows = page.milestones.rows.iter().map(|row| &row.shown);
    rows.map(|one| format!("{} {}: {}", one.number, one.day, one.text))
        .collect()
}

/// A learner with milestones of these days, as they were written.
fn noted(days: &[(u32, u32)]) -> (Ledger, LearnerId, Vec<MilestoneId>) {
    let (mut ledger, made) = with_draft();
    let learner = made.learner.unwrap();
    let mut ids = Vec::new();
    for (at, (month, day)) in (1..).zip(days) {
        let (with, made) = after(
            &ledger,
            milestone(learner, &format!("Note {at}")),
            &stamp(at),
        );
        let id = made.milestone.unwrap();
        let moved = set_milestone(&with, id, |note| {
            note.day = Day::new(2026, *month, *day).unwrap();
        });
        ledger = after(&with, moved, &stamp_of(2, at)).0;
        ids.push(id);
    }
    (ledger, learner, ids)
}

#[test]
fn they_stand_by_day_under_their_numbers_and_days_choose_them() {
    let (ledger, learner, ids) = noted(&[(5, 2), (3, 1), (4, 7)]);
    assert_eq!(
        told(&page(&ledger, learner, "")),
        [
            "1 1 Mar 2026: Note 2",
            "2 7 Apr 2026: Note 3",
            "3 2 May 2026: Note 1"
        ]
    );
    assert_eq!(
        told(&page(&ledger, learner, "2026-04-07")),
        ["1 7 Apr 2026: Note 3", "2 2 May 2026: Note 1"]
    );
    let back = set_milestone(&ledger, ids[1], |note| note.taken_back = true);
    let taken = after(&ledger, back, &stamp(20)).0;
    assert_eq!(
        told(&page(&taken, learner, "")),
        ["1 7 Apr 2026: Note 3", "2 2 May 2026: Note 1"]
    );
}

/// However many there are: the latest two hundred, and none of an erased learner.
#[test]
fn the_page_holds_two_hundred_and_none_of_who_is_erased() {
    let (ledger, learner, _) = noted(&[]);
    let puts = (0..203).map(|at| {
        let stamp = stamp(100 + at);
        Milestone {
            id: MilestoneId::made_by(&stamp, 11),
            day: Day::new(2026, 1, 1 + u32::try_from(at / 10).unwrap()).unwrap(),
            text: format!("Note {at}"),
            taken_back: false,
            erased: None,
            learner,
            stamp,
        }
    });
    let ledger = ledger.with(&evenshod::records::Change {
        puts: puts.map(Into::into).collect(),
        ..Default::default()
    });
    let page = page(&ledger, learner, "");
    assert_eq!(page.milestones.rows.len(), 200);
    assert_eq!(page.milestones.left_out, "The earliest 3 are not shown.");
    assert_eq!(told(&page)[0], "1 1 Jan 2026: Note 3");
    // A text that came in after all, as from a program that knows no erasing.
    let mut gone = ledger.learner(learner).unwrap().clone();
    gone.erased = Some(now());
    let ledger = ledger.with(&evenshod::records::Change {
        puts: vec![gone.into()],
        ..Default::default()
    });
    assert_eq!(
        told(&self::page(&ledger, learner, "")),
        Vec::<String>::new()
    );
}

#[test]
fn the_form_says_what_is_wrong_with_the_day_and_commands_with_the_words() {
    let form = |day: &str| MilestoneForm {
        day: day.to_owned(),
        text: "First weld that held".to_owned(),
    };
    let day = |form: MilestoneForm| form.read().unwrap_err().day.unwrap();
    assert_eq!(day(form(" ")), "Give the day.");
    assert!(day(form("soon")).contains("`soon` is not a day"));
    let read = form("2026-03-01").read().unwrap();
    assert_eq!(MilestoneForm::of(&read), form("2026-03-01"));
    let refused = MilestoneErrors::refused(&CommandError::MilestoneEmpty);
    assert_eq!(
        refused.text.unwrap(),
        "A milestone says what it was; write it in a line."
    );
}

#[test]
fn undo_takes_back_what_was_done_and_leaves_what_another_tab_wrote() {
    let (ledger, _, ids) = noted(&[(3, 1)]);
    let id = ids[0];
    let of = |ledger: &Ledger| MilestoneDetails::of(ledger.milestone(id).unwrap());
    let before = of(&ledger);
    let edit = set_milestone(&ledger, id, |note| note.text = "Second".to_owned());
    let edited = after(&ledger, edit, &stamp(30)).0;
    let undo = undo_milestone(id, Some(&before), of(&edited));
    // Meanwhile another tab moves it.
    let moved = set_milestone(&edited, id, |note| note.day = Day::new(2026, 3, 5).unwrap());
    let moved = after(&edited, moved, &stamp_of(2, 31)).0;
    let undone = of(&after(&moved, undo, &stamp(32)).0);
    assert_eq!((&*undone.text, undone.day), ("Note 1", of(&moved).day));
    // What was added is taken back.
    let undo = undo_milestone(id, None, before);
    assert!(of(&after(&ledger, undo, &stamp(33)).0).taken_back);
}

#[test]
fn the_invented_schools_milestones_are_on_its_charts_and_on_the_record() {
    let learner = demo().learners().find(|one| one.name == STALLS).unwrap();
    let rubrics = Rubrics::default();
    let shown = page(demo(), learner.id, "");
    assert_eq!(shown.milestones.rows.len(), 2);
    let chart = shown.course.unwrap().marks;
    assert!(chart.drawing.description.contains("Milestone 1, "));
    assert_eq!(chart.table.groups.len(), 2);
    let asked = CourseAsked::default();
    let record = learner_print(demo(), &rubrics, learner.id, &asked, now()).unwrap();
    let noted = record.blocks.iter().find_map(|block| match block {
        Block::Series(facts) => Some(facts),
        _ => None,
    });
    let noted = noted.unwrap();
    assert_eq!(noted.len(), 2);
    assert_eq!(noted[0].value, "Out six weeks, wrist");
    let drawings = record.blocks.iter().find_map(|block| match block {
        Block::Drawings(drawings) => Some(drawings),
        _ => None,
    });
    assert!(drawings.unwrap()[0].description.contains(&*noted[0].label));
}
