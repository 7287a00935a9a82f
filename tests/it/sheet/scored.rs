//! The scored sheet of the shipped bar shoe, as plain text.

use evenshod::chart::{Class, Shape};
use evenshod::command::{Command, Edit, Who};
use evenshod::marking::State;
use evenshod::records::Ended;
use evenshod::sheet::{Block, CellRole, Document, Weight};

use super::sample::*;
use crate::records::sample::{after, comment, level, rename, seal, stamp, start_piece};

#[track_caller]
fn has(text: &str, line: &str) {
    assert!(text.contains(line), "no\n{line}\nin\n{text}");
}

fn rows(document: &Document) -> Vec<Vec<String>> {
    let tables = document.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let rows = tables.flat_map(|table| table.groups.iter().flat_map(|group| group.rows.iter()));
    rows.map(|row| row.iter().map(|cell| cell.text.clone()).collect())
        .collect()
}

#[test]
fn every_criterion_stands_with_the_marks_and_reason_that_mark_gives() {
    let (ledger, marking) = whole_bar_shoe();
    let rows = rows(&sheet(&ledger, marking));
    look(&ledger, marking, |scored| {
        let entries = scored.rubric.entries();
        assert!(rows.len() > entries.len());
        for ((row, entry), result) in rows.iter().zip(entries).zip(&scored.outcome.criteria) {
            let marks = format!("{} of {}", result.marks.unwrap(), result.out_of);
            assert_eq!(row[0], entry.criterion.name);
            assert_eq!(row[3], marks, "{}", entry.id);
            assert!(!row[1].is_empty(), "{}: tolerance", entry.id);
            assert!(row[2].ends_with(&result.because), "{}", entry.id);
            let mut parts = result.because.split("; ");
            let is_reason = parts.all(|part| result.reason.contains(part));
            assert!(is_reason, "{}: {}", result.because, result.reason);
            assert!(row[2].contains(&result.value), "{}", entry.id);
        }
    });
}

/// Worked by hand from the rubric: form 3 + 4.5 + 2 + 1 + 1, bar 3 + 2 + 2 + 3 + 3 +
/// 5 + 2, fuller 4 + 3 + 3 + 4, nails 2 + 2 + 3 + 2 + 3, level 4 + 2, roll 3, making
/// 1.5 + 2 + 1 + 1.
#[test]
fn a_whole_shoe_comes_to_the_marks_worked_by_hand() {
    let (ledger, marking) = whole_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    for line in [
        "Pass 72 of 100; 65 to pass; 7 marks over; 72.0 %",
        "[Form and symmetry, 11.5 of 22]",
        "[Bar and weld, 20 of 25; minimum 12.5 reached]",
        "[Fuller, 14 of 14]",
        "[Nail holes, 12 of 17]",
        "[Level and finish, 6 of 10]",
        "[Toe roll, 3 of 4]",
        "[Making, 5.5 of 8]",
        "Total |  | Pass | 72 of 100",
        "72 of 100 is 72.0 %: per cent is rounded to 0.1, halves away from zero",
    ] {
        has(&text, line);
    }
}

#[test]
fn readings_stand_as_typed_with_their_unit_and_tolerances_in_words() {
    let (ledger, marking) = whole_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    for line in [
        "Branches alike | difference within 1.5 mm: 4, within 3 mm: 2, else 0 | left 62,4 mm; right 64.8 mm; difference 2.4 mm ± 1.4 mm; within 3 mm | 2 of 4",
        "Finished width | 130.18 mm within 1.5 mm: 4, within 3 mm: 2, within 4.5 mm: 1, else 0 | 5 1/4 in ± 0.83 mm; 3.2 mm over 130.2 mm, within 4.5 mm | 1 of 4",
        "else 0 | 60.5 mm ± 0.99 mm; 3.4 mm over 57.2 mm, within 4.5 mm; 2 given back, charged once for Bar cut too short or too long | 3 of 3",
        "Bar straight | at most 0.5 mm: 3, at most 1 mm: 2, at most 2 mm: 1, else 0 | 0.6..0.7 mm ± 0.12 mm; at least 0.6 mm and less than 0.7 mm | 2 of 3",
        "Bar square | 0 ° within 1 °: 3, within 2 °: 2, within 3 °: 1, else 0 | -1.5 ° ± 0.83 °; 1.5 ° under 0 °, within 2 ° | 2 of 3",
        "Bar width | 19.05 mm within 0.79 mm: 3, within 1.59 mm: 2, 2.38 mm under to 3.18 mm over: 1, else 0 | within; by gauge 18.3 mm to 19.8 mm | 3 of 3",
        "Bar thickness | 9.5 mm (Thickness of the branches) within 0.5 mm: 3",
        "Weld | Sound: 7, Fine line: 5, Lap shows: 2, Open: 0 and stops the award | Fine line. A fine line on one face; edges closed; Lap line, cold shut | 5 of 7",
        "Fuller depth | 6.33 mm (2/3 of Thickness of the branches) within 0.63 mm (10 %): 4",
        " | 6.0 mm, 6.2 mm; mean 6.1 mm ± 0.24 mm; 0.2 mm under 6.3 mm, within 0.6 mm | 4 of 4",
        "Number of holes | 6 exactly: 2, else 0 | 6; as asked for | 2 of 2",
        " | 28 mm, 29 mm, 28.5 mm, 30 mm; range 2.0 mm ± 1.4 mm; at most 3 mm | 2 of 4",
        "Outline | by eye, 0 to 6 | 4.5 | 4.5 of 6",
        "Weld heats | up to 2: 2, 1 off for each 1 started beyond | 2; 2 allowed | 2 of 2",
        "Time | up to 1 h: 2, 0.5 off for each 1 min started beyond, past 1 h 15 min stops the award | 66 min; 1 h 2 min without pauses of 4 min; 1 h allowed, 2 min over, 0.5 off for each 1 min started | 1 of 2",
        "Finish | no faults: 5, each takes 1 to 2, at least 0 | Hammer marks 2 times, 2 off; Sharp edges, 1 off | 2 of 5",
        "Thickness of the branches: 9.4 mm, 9.6 mm",
        "All these figures: common practice, no source",
        "- Clock stood 4 min. fire tended for another piece",
        "- Bar cut too short or too long. lost 8 marks together, charged 6, given back 2",
        "Finish: Sharp edges | Finishing: Not filed. | File along the edge, never across it.",
    ] {
        has(&text, line);
    }
}

#[test]
fn it_says_the_piece_and_who_and_when() {
    let (ledger, marking) = whole_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    for line in [
        "# Straight bar shoe, three-quarter fullered, rolled toe",
        "Learner: Ada Smith",
        "Sitting: Practice",
        "Date: Wednesday 25 Nov 2026",
        "Examiner: Wm. Green",
        "Attempt: 1",
        "Rubric: straight-bar-shoe, version 1",
        "Kind of shoe: straight bar, three-quarter fullered, rolled toe",
        "Foot: near fore",
        "(near fore, ground side, toe up)",
        "(Section of the branch, ground side up)",
        "Stock: flat 19.05 mm by 9.53 mm, cut to 381 mm, mild steel",
        "Finished size: 130.18 mm wide, 133.35 mm long, 9.53 mm thick",
        "Practice specimen. Fit to a horse only as law allows and, for therapeutic patterns, under veterinary direction.",
    ] {
        has(&text, line);
    }
}

#[test]
fn a_draft_says_so_and_a_seal_shows_its_digest() {
    let (ledger, marking) = whole_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    has(&text, "Scored sheet. Draft, not sealed");
    has(&text, "Warn! Draft, not sealed. Marks may still change.");
    has(&text, "there is no digest yet");
    assert!(!text.contains("SHA-256"), "{text}");

    let (ledger, marking) = sealed_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    let digest = &ledger
        .marking(marking)
        .unwrap()
        .seal
        .as_ref()
        .unwrap()
        .digest;
    has(&text, "Scored sheet, sealed 25 Nov 2026 11:42");
    let line = text
        .lines()
        .find(|line| line.starts_with("Digest"))
        .unwrap();
    let groups = line.strip_prefix("Digest (SHA-256) ").unwrap();
    assert_eq!(&groups.replace(' ', ""), digest);
    assert!(groups.split(' ').all(|group| group.len() == 8));
    assert!(!text.contains("raft"), "{text}");
}

#[test]
fn a_lifted_stop_names_who_lifted_it_and_why_and_adds_a_line_to_sign() {
    let (ledger, marking) = sealed_bar_shoe();
    let text = plain(&sheet(&ledger, marking));
    has(
        &text,
        "Warn! Stops lifted by the chief examiner\n  Weld: Open. The weld is open or gives when it is tried; Lap line, cold shut; lifted by Chief Examiner: opened in the break test that the sitting asks for",
    );
    has(
        &text,
        "signs: Examiner, date | Chief examiner, date | Learner, date",
    );
    has(&text, "Pass 67 of 100; 65 to pass; 2 marks over; 67.0 %");
    has(&text, "- On the whole. Sound work. / Mind the fire.");
    has(&text, "- Weld. Scarf too short.");
}

#[test]
fn a_standing_stop_is_named_and_the_award_is_not_yet() {
    let (ledger, marking) = whole_bar_shoe();
    let ledger = performed(ledger, vec![level(marking, "weld", "open")]);
    let document = sheet(&ledger, marking);
    let text = plain(&document);
    has(&text, "Not yet 67 of 100");
    has(&text, "Stop! Stopped by\n  Weld: Open");
    has(&text, "## Why not yet");
    let stops = document
        .blocks
        .iter()
        .filter(|block| matches!(block, Block::Notice(notice) if notice.weight == Weight::Stop));
    assert_eq!(stops.count(), 1);
}

#[test]
fn what_has_no_marks_is_listed_and_nothing_is_claimed() {
    let (ledger, marking) = begun_bar_shoe();
    let ledger = edited(
        ledger,
        marking,
        vec![
            readings("width", &["wide"]),
            state("toe-roll", State::NotMade, "time was up"),
        ],
    );
    let text = plain(&sheet(&ledger, marking));
    has(
        &text,
        "Incomplete 0 of 4 so far, 100 in all; 65 to pass; 27 without marks; 0.0 %",
    );
    has(
        &text,
        "Warn! Incomplete: these have no marks\n  Toe bend\n  Outline",
    );
    has(&text, "Warn! Typed and not used\n  Finished width: `");
    has(
        &text,
        "Toe roll | Even: 4, Near: 3, Uneven: 1, None: 0 | not made; time was up | 0 of 4",
    );
    // The target is not known before the thickness is.
    has(
        &text,
        "Fuller depth | 2/3 of Thickness of the branches within 10 %: 4, within 20 %: 2, else 0 | needs a value of Thickness of the branches | – of 4",
    );
    has(&text, "Thickness of the branches: no reading");
}

#[test]
fn a_ticket_hides_name_and_attempt_until_the_seal() {
    let (ledger, _) = begun_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let who = Who::Ticket {
        ticket: "14".to_owned(),
        learner: Some(learner),
    };
    let mut what = start_piece(who);
    what.rubric.text = bar_shoe_text().to_owned();
    what.rubric.digest = evenshod::records::sha256_hex(bar_shoe_text().as_bytes());
    let command = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&ledger, command, &stamp(10));
    let marking = made.marking.unwrap();
    let text = plain(&sheet(&ledger, marking));
    has(&text, "Learner: not named before the seal");
    has(&text, "Ticket: 14");
    assert!(!text.contains("Ada"), "{text}");
    assert!(!text.contains("Attempt"), "{text}");

    let ledger = performed(
        ledger,
        vec![
            Command::SetEnded {
                piece: made.piece.unwrap(),
                ended: Some(Ended::Withdrawn),
            },
            seal(marking),
        ],
    );
    let text = plain(&sheet(&ledger, marking));
    has(&text, "Learner: Ada Smith");
    has(&text, "Attempt: 2");
    has(&text, "Ended: Withdrawn");
}

/// Whatever a person types stays text: nothing here is markup, and lines stay lines.
#[test]
fn comments_go_through_as_text() {
    let (ledger, marking) = begun_bar_shoe();
    let nasty = "# **bold** <script>alert(1)</script> | cell\nعربي \u{202e}txet ';--";
    let ledger = performed(
        ledger,
        vec![
            comment(marking, None, nasty),
            comment(marking, Some("width"), "<img src=x onerror=alert(1)>"),
            seal(marking),
        ],
    );
    let document = sheet(&ledger, marking);
    let items = document.blocks.iter().filter_map(|block| match block {
        Block::Items(items) => Some(items),
        _ => None,
    });
    let said: Vec<_> = items.flatten().collect();
    let overall = said
        .iter()
        .find(|item| item.lead == "On the whole")
        .unwrap();
    assert_eq!(overall.lines, nasty.lines().collect::<Vec<_>>());
    let width = said
        .iter()
        .find(|item| item.lead == "Finished width")
        .unwrap();
    assert_eq!(width.lines, ["<img src=x onerror=alert(1)>"]);
}

#[test]
fn texts_changed_after_the_seal_are_named_and_marks_stand() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let rename = rename(&ledger, learner, "Ada Jones");
    let ledger = performed(ledger, vec![rename]);
    let text = plain(&sheet(&ledger, marking));
    has(
        &text,
        "not as they were sealed; the marks do not rest on them\n  The learner’s name: changed since sealing",
    );
    assert!(!text.contains("altered since sealing"), "{text}");
}

#[test]
fn every_row_is_as_wide_as_the_table_and_marks_are_numbers() {
    let (ledger, marking) = sealed_bar_shoe();
    for block in &sheet(&ledger, marking).blocks {
        let Block::Table(table) = block else { continue };
        let rows = table.groups.iter().flat_map(|group| group.rows.iter());
        let foot = Some(&table.foot).filter(|foot| !foot.is_empty());
        for row in rows.chain(foot) {
            assert_eq!(row.len(), table.columns.len());
            assert!(row.len() < 4 || row[3].role == CellRole::Number);
        }
        if table.columns.len() < 4 {
            continue;
        }
        let weld = table.groups[1]
            .rows
            .iter()
            .find(|row| row[0].text == "Weld");
        assert_eq!(weld.unwrap()[3].band, Some(0));
    }
}

#[test]
fn an_inch_sheet_says_its_sizes_in_inches() {
    let mut what = start_piece(crate::records::sample::named("Ada Smith"));
    what.rubric.text = bar_shoe_text().to_owned();
    what.rubric.digest = evenshod::records::sha256_hex(bar_shoe_text().as_bytes());
    what.unit = evenshod::records::Unit::Inch64;
    let command = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Default::default(), command, &stamp(0));
    let marking = made.marking.unwrap();
    let edit = readings("width", &["5 3/16"]);
    let ledger = edited(
        ledger,
        marking,
        vec![
            edit,
            Edit::SetUnit {
                unit: evenshod::records::Unit::Inch64,
            },
        ],
    );
    let text = plain(&sheet(&ledger, marking));
    has(
        &text,
        "Finished size: 5 1/8 in wide, 5 1/4 in long, 3/8 in thick",
    );
    // 1.5 mm is no 64th of an inch: it is said as the rubric has it.
    has(&text, "Finished width | 5 1/8 in within 1.5 mm: 4");
    has(&text, " | 5 3/16 in ± 0.033 in; ");
}

/// A line over a tolerance is as long as the expanded uncertainty beside it says.
#[test]
fn measured_values_are_drawn_on_their_tolerances() {
    let (ledger, marking) = whole_bar_shoe();
    let document = sheet(&ledger, marking);
    let table = document.blocks.iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let rows = table.unwrap().groups.iter().flat_map(|group| &group.rows);
    let drawing = |row: &str| {
        let mut rows = rows.clone().filter(|cells| cells[0].text == row);
        rows.next().unwrap()[3].drawing.clone()
    };
    // Limits 4.5 mm on each side, a third of 9 mm more beyond: 15 mm in all are 160 wide.
    let width = drawing("Finished width").unwrap();
    let line = width.shapes.iter().find_map(|shape| match shape {
        Shape::Line {
            x1,
            x2,
            class: Class::Whisker,
            ..
        } => Some(x2 - x1),
        _ => None,
    });
    let wide = line.unwrap() / 160.0 * 15.0;
    assert!((wide / 2.0 - 0.83).abs() < 0.005, "{wide}");
    assert!(
        width.description.starts_with("reading 133.35 mm"),
        "{}",
        width.description
    );
    assert_eq!(drawing("Weld"), None);
}
