//! The question before a seal.

use evenshod::command::{Command, Edit};
use evenshod::marking::ReadingFact;
use evenshod::present::{
    Rubrics, SEALED_INCOMPLETE, ended_choices, seal_commands, seal_view, sheet_json, sheet_page,
};
use evenshod::records::{Ended, MarkingId, PieceId};

use crate::job::tables::csv_of;
use crate::records::sample::{level, now};
use crate::sheet::sample::{begun_bar_shoe, performed, sealed_bar_shoe, whole_bar_shoe};

#[test]
fn a_whole_marking_says_what_it_comes_to() {
    let (ledger, marking) = whole_bar_shoe();
    let view = seal_view(&ledger, &Rubrics::default(), marking).unwrap();
    let said = [&view.marks, &view.out_of, &view.pass, &view.award];
    assert_eq!(said, ["72", "of 100", "65 to pass", "pass"]);
    assert!(view.missing.is_empty() && view.missing_words.is_empty());
    assert!(view.problems.is_empty() && view.stops.is_empty());
    assert_eq!(view.examiner, "Wm. Green");
    assert_eq!(view.ended, "finished");
}

#[test]
fn what_is_missing_or_wrong_or_stops_is_listed_by_name() {
    let (ledger, marking) = whole_bar_shoe();
    let readings = |entry: &str, readings| Edit::SetReadings {
        entry: entry.to_owned(),
        readings,
    };
    let commands = vec![
        Command::edit(marking, readings("width", vec![])),
        Command::edit(
            marking,
            readings("thickness", vec![ReadingFact::of("thick")]),
        ),
        level(marking, "weld", "open"),
    ];
    let ledger = performed(ledger, commands);
    let view = seal_view(&ledger, &Rubrics::default(), marking).unwrap();
    assert_eq!(view.award, "incomplete");
    assert_eq!(
        view.missing_words,
        "3 entries are missing and count nothing"
    );
    assert_eq!(
        view.missing,
        ["Finished width", "Bar thickness", "Fuller depth"]
    );
    assert!(view.problems[0].starts_with("Thickness of the branches: "));
    assert!(view.stops[0].starts_with("Weld: Open"), "{:?}", view.stops);
    assert!(SEALED_INCOMPLETE.contains("the award says incomplete"));
}

#[test]
fn sealing_says_how_the_piece_ended_first() {
    let (ledger, marking) = begun_bar_shoe();
    let seed = [3; 32];
    let commands = seal_commands(&ledger, marking, "withdrawn", seed, now());
    assert_eq!(commands.len(), 2);
    let ledger = performed(ledger, commands);
    let sealed = ledger.marking(marking).unwrap();
    let piece = ledger.piece(sealed.piece).unwrap();
    assert_eq!(piece.ended, Some(Ended::Withdrawn));
    assert!(sealed.seal.is_some());
    // Where that was said before, it is not said again.
    assert_eq!(
        seal_commands(&ledger, marking, "withdrawn", seed, now()).len(),
        1
    );
    assert!(seal_commands(&ledger, marking, "lost", seed, now()).is_empty());
}

#[test]
fn every_way_to_end_can_be_chosen() {
    let choices = ended_choices();
    assert_eq!(choices.map(|choice| choice.title), Ended::ALL);
    assert_eq!(choices[0].name(), "Finished");
    assert!(choices.iter().all(|choice| !choice.note.is_empty()));
}

#[test]
fn a_sheet_is_of_the_sealed_marking_and_names_its_files() {
    let (ledger, marking) = sealed_bar_shoe();
    let rubrics = Rubrics::default();
    let piece = ledger.marking(marking).unwrap().piece;
    let page = sheet_page(&ledger, &rubrics, piece, None).unwrap();
    assert!(page.sealed);
    assert_eq!(page.marking, marking);
    assert_eq!(page.file_base, "2026-11-25_ada-smith_straight-bar-shoe");
    assert_eq!(page.learner.unwrap().1, "Ada Smith");
    assert!(csv_of(&ledger, marking).unwrap().contains("Ada Smith"));
    let json = sheet_json(&ledger, marking).unwrap();
    assert!(evenshod::output::json::read(&json).unwrap().is_intact());
}

#[test]
fn what_is_not_there_is_said() {
    let (ledger, marking) = whole_bar_shoe();
    let rubrics = Rubrics::default();
    assert!(sheet_page(&ledger, &rubrics, PieceId::LEAST, None).is_err());
    assert!(csv_of(&ledger, MarkingId::LEAST).is_none());
    assert!(seal_view(&ledger, &rubrics, MarkingId::LEAST).is_none());
    let draft = sheet_json(&ledger, marking).unwrap_err();
    assert!(draft.contains("seal it first"), "{draft}");
}
