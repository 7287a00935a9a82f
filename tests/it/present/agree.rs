//! Two examiners on the pages: blind, side by side, agreed.

use evenshod::command::Command;
use evenshod::present::{
    AgreeChoice, AgreeStage, NextStep, NoSheet, OpenAgreement, PieceWay, Rubrics, agree_command,
    agree_page, bench, examiners_page, piece_way, seal_view, settle_command, sheet_page,
};
use evenshod::records::MarkingId;
use evenshod::sheet::{Block, Document};

use crate::job::tables::csv_of;
use crate::records::sample::{now, seal};
use crate::records::two::Two;

fn rubrics() -> Rubrics {
    Rubrics::default()
}

fn open(two: &Two) -> OpenAgreement {
    let page = agree_page(&two.ledger, &rubrics(), two.piece).unwrap();
    match page.stage {
        AgreeStage::Open(open) => open,
        other => panic!("not open: {other:?}"),
    }
}

/// Every text of a document in one.
fn all_text(document: &Document) -> String {
    format!("{:?}", document.blocks)
}

#[test]
fn two_examiners_see_nothing_of_each_other_before_both_are_sealed() {
    for first_seals in [true, false] {
        let mut two = Two::begun("", ["8", "9"], ["3", "7"]);
        let pages = |two: &Two| {
            (
                agree_page(&two.ledger, &rubrics(), two.piece).err(),
                examiners_page(&two.ledger, &rubrics(), two.piece).err(),
            )
        };
        let unseen = (Some(NoSheet::Unseen), Some(NoSheet::Unseen));
        assert_eq!(pages(&two), unseen);
        let (early, late) = match first_seals {
            true => (two.first, two.second),
            false => (two.second, two.first),
        };
        two.perform(seal(early));
        assert_eq!(pages(&two), unseen);
        let sheet = sheet_page(&two.ledger, &rubrics(), two.piece, Some(early));
        assert_eq!(sheet.err(), Some(NoSheet::Unseen));
        two.perform(seal(late));
        assert_eq!(pages(&two), (None, None));
    }
}

#[test]
fn the_award_says_how_many_examiners_are_missing() {
    let mut two = Two::begun("", ["8", "9"], ["8", "7"]);
    two.perform(Command::DeleteDraft {
        marking: two.second,
    });
    let view = seal_view(&two.ledger, &rubrics(), two.first).unwrap();
    assert_eq!(view.award, "incomplete");
    two.perform(seal(two.first));
    let says = "one of two examiners has marked";
    let row = bench(&two.ledger, &rubrics(), now()).latest.remove(0);
    assert_eq!(row.now, format!("incomplete: {says}"));
    assert_eq!(row.next, Some(NextStep::Mark("second")));
    let csv = csv_of(&two.ledger, two.first).unwrap();
    assert!(csv.contains("incomplete") && csv.contains(says), "{csv}");
    let page = sheet_page(&two.ledger, &rubrics(), two.piece, None).unwrap();
    assert!(all_text(&page.document).contains(&format!("Incomplete: {says}")));
    assert!(page.again.contains(&("second", "Mark as second examiner")));
    assert_eq!(page.agree, None);
    let alone = examiners_page(&two.ledger, &rubrics(), two.piece).err();
    assert_eq!(alone, Some(NoSheet::Alone));
}

#[test]
fn examiners_stand_side_by_side_most_marks_at_stake_first() {
    let two = Two::sealed("", ["8", "9"], ["7", "5"]);
    let page = examiners_page(&two.ledger, &rubrics(), two.piece).unwrap();
    let tables = page.document.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let rows: Vec<Vec<&str>> = tables
        .flat_map(|table| &table.groups)
        .flat_map(|group| &group.rows)
        .map(|row| row.iter().map(|cell| cell.text.as_str()).collect())
        .collect();
    assert_eq!(
        rows,
        [
            [
                "Finish",
                "9",
                "9 of 10",
                "5",
                "5 of 10",
                "4 marks apart; 4 levels apart"
            ],
            [
                "Outline",
                "8",
                "8 of 10",
                "7",
                "7 of 10",
                "1 mark apart; 1 level apart"
            ],
        ]
    );
    let text = all_text(&page.document);
    assert!(text.contains("17 of 20, pass") && text.contains("12 of 20, pass"));
    assert!(text.contains("The totals differ by 5 marks"));
}

#[test]
fn each_criterion_is_settled_with_its_reason() {
    let mut two = Two::sealed("", ["8", "9"], ["7", "5"]);
    let begin = agree_page(&two.ledger, &rubrics(), two.piece).unwrap();
    assert_eq!(begin.stage, AgreeStage::Begin);
    assert!(begin.rule.contains("with a reason"), "{}", begin.rule);
    assert!(agree_command(two.piece, " ", now()).is_err());
    let agreed = two
        .perform(agree_command(two.piece, "Wm. Green", now()).unwrap())
        .unwrap();
    assert_eq!(
        piece_way(&two.ledger, two.piece, None, None),
        PieceWay::Agree(two.piece)
    );
    let shown = open(&two);
    assert_eq!(
        (shown.far.as_str(), shown.is_done),
        ("0 of 2 settled", false)
    );
    let names: Vec<&str> = shown
        .points
        .iter()
        .map(|point| point.name.as_str())
        .collect();
    assert_eq!(names, ["Finish", "Outline"]);
    let titles = shown.points[0].choices.iter();
    let titles: Vec<_> = titles
        .map(|one| (one.title.as_str(), one.note.as_str()))
        .collect();
    assert_eq!(
        titles,
        [
            ("9", "Wm. Green"),
            ("5", "Jo Reed"),
            ("7", "the mean"),
            ("Other", "marks that you agree on"),
        ]
    );
    let jo = shown.points[0].choices[1].key.clone();
    two.perform(settle_command(agreed, "finish", &jo, "", ""));
    let shown = open(&two);
    assert_eq!(shown.points[0].chosen, jo);
    assert_eq!(shown.points[0].state, "give a reason");
    two.perform(settle_command(
        agreed,
        "finish",
        &jo,
        "",
        "a burr at the toe",
    ));
    assert_eq!(open(&two).far, "1 of 2 settled");
    let other =
        |marks: &str| settle_command(agreed, "outline", AgreeChoice::OTHER, marks, "seen again");
    two.perform(other("75"));
    let outline = open(&two).points[1].clone();
    assert_eq!((outline.marks.as_str(), outline.is_settled), ("75", false));
    assert!(
        outline.problem.contains("use 0 to 10"),
        "{}",
        outline.problem
    );
    two.perform(other("7.5"));
    assert!(open(&two).is_done);
    two.perform(seal(agreed));
    let page = agree_page(&two.ledger, &rubrics(), two.piece).unwrap();
    assert_eq!(page.stage, AgreeStage::Sealed(agreed));
    let page = sheet_page(&two.ledger, &rubrics(), two.piece, None).unwrap();
    assert_eq!(page.marking, agreed);
    let text = all_text(&page.document);
    for said in [
        "as Jo Reed marked it, because a burr at the toe: 5 of 10",
        "Wm. Green 8, Jo Reed 7; decided, because seen again: 7.5 of 10",
        "Wm. Green: 9; Jo Reed: 5",
        "Pass",
    ] {
        assert!(text.contains(said), "{said} is not in {text}");
    }
    for source in [two.first, two.second] {
        let seal = two.ledger.marking(source).unwrap().seal.as_ref().unwrap();
        // In groups of eight, as on the sheet of each.
        let digest: Vec<&str> = (0..8).map(|at| &seal.digest[8 * at..8 * at + 8]).collect();
        assert!(text.contains(&digest.join(" ")));
    }
    let row = bench(&two.ledger, &rubrics(), now()).latest.remove(0);
    assert_eq!((row.now.as_str(), row.next), ("pass", None));
}

#[test]
fn the_rubrics_rule_settles_what_people_leave_to_it() {
    let mean = "settle = \"mean\", discuss_beyond = 3";
    let mut two = Two::sealed(mean, ["8", "9"], ["7", "9"]);
    let agreed = two.agree();
    let shown = open(&two);
    assert!(shown.is_done);
    let outline = &shown.points[0];
    assert_eq!(outline.chosen, AgreeChoice::RULE);
    assert_eq!(outline.state, "by the rubric’s rule");
    assert_eq!(outline.choices[0].title, "7.5");
    let wm = outline.choices[1].key.clone();
    two.perform(settle_command(agreed, "outline", &wm, "", "seen again"));
    assert_eq!(open(&two).points[0].chosen, wm);
    two.perform(settle_command(agreed, "outline", AgreeChoice::RULE, "", ""));
    assert_eq!(open(&two).points[0].chosen, AgreeChoice::RULE);
    // Whatever stands in an address or a form, nothing else is settled by it.
    two.perform(settle_command(agreed, "outline", "nobody", "", "x"));
    assert_eq!(open(&two).points[0].chosen, AgreeChoice::RULE);
    let none = MarkingId::LEAST.to_string();
    two.perform(settle_command(agreed, "outline", &none, "", "x"));
    assert!(open(&two).points[0].problem.contains("not made from"));
}

#[test]
fn a_third_examiner_is_asked_for_on_the_page() {
    let two = Two::sealed("third_examiner = true", ["8", "9"], ["5", "4"]);
    let page = agree_page(&two.ledger, &rubrics(), two.piece).unwrap();
    assert_eq!(page.stage, AgreeStage::Third);
    let sheet = sheet_page(&two.ledger, &rubrics(), two.piece, None).unwrap();
    assert!(sheet.again.contains(&("third", "Mark as third examiner")));
}

#[test]
fn marks_are_drawn_in_the_order_of_marking_from_three_pieces_on() {
    let drawn = |two: &Two| {
        let page = examiners_page(&two.ledger, &rubrics(), two.piece).unwrap();
        let text = all_text(&page.document);
        text.contains("In the order of marking").then_some(text)
    };
    let mut two = Two::sealed("", ["10", "9"], ["7", "5"]);
    assert_eq!(drawn(&two), None);
    for (outline, finish) in [("8", "8"), ("6", "6")] {
        two.another(outline, finish);
    }
    let text = drawn(&two).unwrap();
    assert!(text.contains("Wm. Green, 3 pieces in the order of marking"));
    assert!(text.contains("95 %, 80 %, 60 %"), "{text}");
    assert!(!text.contains("Jo Reed, "), "who has marked one piece");
}
