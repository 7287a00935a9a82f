//! Sheets to fill in by hand: numbers, what can be written, and what typing it does.

use std::collections::BTreeSet;

use evenshod::command::Edit;
use evenshod::marking::{Facts, State, StateFact, mark};
use evenshod::present::Rubrics;
use evenshod::present::mark_sheet::{
    PaperField, PaperStep, Takes, Taking, blank_of_marking, notes_typed, paper_notes, paper_parts,
    with_text,
};
use evenshod::quantity::Unit;
use evenshod::records::{Marking, Piece};
use evenshod::rubric::{Rubric, read_rubric, shipped};
use evenshod::sheet::{Block, Document};
use proptest::prelude::*;

use crate::demo::sample::{demo, rubric_of};
use crate::sheet::sample::{begun_bar_shoe, edited, look, plain, whole_bar_shoe};

fn fields(rubric: &Rubric) -> Vec<PaperField> {
    let parts = paper_parts(rubric).into_iter();
    parts.flat_map(|part| part.fields).collect()
}

fn bar_shoe() -> Rubric {
    read_rubric(shipped()[0].text).rubric.unwrap()
}

/// Does what typing does, without a ledger.
fn take(marking: &mut Marking, rubric: &Rubric, field: &PaperField, step: PaperStep) {
    let edit = match step {
        PaperStep::Edit(edit) => edit,
        PaperStep::Tally(text) => Edit::SetTally {
            entry: field.row.id.clone(),
            tally: (!text.is_empty()).then_some(text),
        },
        PaperStep::Reading(input, text) => {
            let before = marking.facts.readings.get(&input.slot);
            let before = before.cloned().unwrap_or_default();
            let readings = with_text(&before, &input, &text, &Taking::default());
            Edit::SetReadings {
                entry: input.slot,
                readings,
            }
        }
    };
    let rubric = std::sync::Arc::new(rubric.clone());
    evenshod::command::edit_draft(marking, edit, &|| Some(rubric.clone())).unwrap();
}

fn type_in(marking: &mut Marking, rubric: &Rubric, field: &PaperField, text: &str) {
    for step in field.typed(text, &marking.facts).unwrap() {
        take(marking, rubric, field, step);
    }
}

fn empty() -> Marking {
    let (ledger, marking) = begun_bar_shoe();
    ledger.marking(marking).unwrap().clone()
}

#[test]
fn numbers_follow_one_another_and_every_row_is_asked_for() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        let fields = fields(&rubric);
        let numbers: Vec<u32> = fields.iter().map(|field| field.number).collect();
        let count = u32::try_from(fields.len()).unwrap();
        assert_eq!(numbers, (1..=count).collect::<Vec<_>>(), "{}", shipped.id);
        let asked: BTreeSet<&str> = fields
            .iter()
            .flat_map(|field| match &field.takes {
                Takes::Reading(input) => [field.row.id.as_str(), input.slot.as_str()],
                _ => [field.row.id.as_str(); 2],
            })
            .collect();
        for entry in rubric.entries() {
            let own = asked.contains(entry.id.as_str());
            // One whose readings stand in rows of their own asks for nothing itself.
            let measured = entry.criterion.measured();
            let slots = measured
                .into_iter()
                .map(|reading| rubric.slot_id(&entry, reading));
            let mut slots = slots.peekable();
            let elsewhere =
                slots.peek().is_some() && slots.all(|slot| asked.contains(slot.as_str()));
            assert!(own || elsewhere, "{}: {}", shipped.id, entry.id);
        }
    }
}

/// Every marking of the invented school, written out field by field as paper has it and
/// typed into an empty sheet, gives the same facts.
#[test]
fn what_stands_on_paper_typed_in_is_what_stood_there() {
    let ledger = demo();
    let sealed = ledger.markings().filter(|one| one.seal.is_some());
    let mut typed = 0;
    for old in sealed.step_by(7) {
        let rubric = rubric_of(ledger, old);
        let mut new = Marking {
            facts: Facts {
                instruments: old.facts.instruments.clone(),
                ..Facts::default()
            },
            ..old.clone()
        };
        for field in fields(&rubric) {
            let text = field.stands(&old.facts);
            type_in(&mut new, &rubric, &field, &text);
            assert_eq!(field.stands(&new.facts), text, "{}", field.name);
            typed += 1;
        }
        assert!(new.facts.levels.keys().eq(old.facts.levels.keys()));
        assert_eq!(new.facts.tallies, old.facts.tallies);
        let texts = |facts: &Facts| {
            let readings = facts.readings.iter();
            let readings = readings.map(|(slot, all)| {
                let texts = all.iter().map(|one| one.text.clone());
                (slot.clone(), texts.collect::<Vec<_>>())
            });
            readings.collect::<Vec<_>>()
        };
        assert_eq!(texts(&new.facts), texts(&old.facts));
        // Paper has no tick for "no fault seen" beside a criterion that has other answers.
        for (entry, faults) in &old.facts.faults {
            let sorted = |faults: &[String]| {
                let mut all = faults.to_vec();
                all.sort();
                all
            };
            let found = new.facts.faults.get(entry).map(Vec::as_slice);
            assert_eq!(sorted(found.unwrap_or_default()), sorted(faults), "{entry}");
        }
    }
    assert!(typed > 500, "{typed}");
}

fn field_where(rubric: &Rubric, is: impl Fn(&PaperField) -> bool) -> PaperField {
    fields(rubric).into_iter().find(is).unwrap()
}

#[test]
fn levels_are_typed_by_number_and_faults_by_letter() {
    let rubric = bar_shoe();
    let mut marking = empty();
    let level = field_where(&rubric, |field| matches!(field.takes, Takes::Level(_)));
    let Takes::Level(levels) = &level.takes else {
        panic!("{level:?}");
    };
    type_in(&mut marking, &rubric, &level, " 2 ");
    assert_eq!(marking.facts.levels[&level.row.id], levels[1].0);
    assert_eq!(level.stands(&marking.facts), "2");
    let none = level.typed("0", &marking.facts).unwrap_err();
    assert!(none.starts_with("Write one of these: 1 "), "{none}");
    assert!(level.typed("clean", &marking.facts).is_err());
    type_in(&mut marking, &rubric, &level, "");
    assert_eq!(level.stands(&marking.facts), "");

    let list = field_where(&rubric, |field| {
        matches!(&field.takes, Takes::Faults { is_list: true, .. })
    });
    let Takes::Faults { faults, .. } = &list.takes else {
        panic!("{list:?}");
    };
    type_in(&mut marking, &rubric, &list, "B, a a");
    let seen = &marking.facts.faults[&list.row.id];
    assert_eq!(
        *seen,
        [&faults[1].0, &faults[0].0, &faults[0].0].map(String::clone)
    );
    assert_eq!(list.stands(&marking.facts), "aab");
    type_in(&mut marking, &rubric, &list, "-");
    assert_eq!(list.stands(&marking.facts), "-");
    assert!(list.typed("?", &marking.facts).is_err());
}

#[test]
fn not_made_is_written_in_two_letters_and_taken_back_by_a_reading() {
    let rubric = bar_shoe();
    let mut marking = empty();
    let width = field_where(&rubric, |field| field.row.id == "width");
    type_in(&mut marking, &rubric, &width, "NM");
    assert_eq!(width.stands(&marking.facts), "nm");
    type_in(&mut marking, &rubric, &width, "130.5");
    assert_eq!(width.stands(&marking.facts), "130.5");
    assert!(marking.facts.states.is_empty());
    let refused = fields(&rubric)
        .into_iter()
        .find(|field| !field.row.unmarked && field.row.not_applicable.is_none())
        .unwrap();
    if !matches!(refused.takes, Takes::Faults { .. }) {
        assert!(refused.typed("na", &marking.facts).is_err());
    }
}

#[test]
fn what_cannot_be_measured_is_written_with_marks_and_reason() {
    let rubric = bar_shoe();
    let mut marking = empty();
    let width = field_where(&rubric, |field| field.row.id == "width");
    type_in(&mut marking, &rubric, &width, "130.5");
    type_in(&mut marking, &rubric, &width, "CM 3/2 Bar broke off");
    let state = &marking.facts.states["width"];
    assert_eq!(state.state, State::CannotMeasure);
    assert_eq!(state.marks.as_deref(), Some("3/2"));
    assert_eq!(state.reason.as_deref(), Some("Bar broke off"));
    assert_eq!(width.stands(&marking.facts), "cm 3/2 Bar broke off");
    let result = mark(&rubric, &marking.facts);
    let width_result = result.criterion("width").unwrap();
    assert_eq!(width_result.marks.unwrap().to_string(), "1.5");
    // Without marks the examiner still decides; what was measured before is kept.
    type_in(&mut marking, &rubric, &width, "cm heel bent");
    assert_eq!(marking.facts.states["width"].marks, None);
    assert_eq!(marking.facts.readings["width"][0].text, "130.5");
}

#[test]
fn comments_are_typed_with_the_numbers_that_they_are_about() {
    let rubric = bar_shoe();
    let parts = paper_parts(&rubric);
    let mut marking = empty();
    let width = field_where(&rubric, |field| field.row.id == "width");
    let faults = fields(&rubric);
    let faults = faults
        .iter()
        .rfind(|field| field.row.id == "width")
        .unwrap();
    assert!(faults.number > width.number, "two numbers of one criterion");
    let text = format!(
        "{}: Too wide at the toe.\n10.5 mm at the heel.\n{} Crooked.\n1\n",
        width.number, faults.number
    );
    let note = |marking: &mut Marking, text: &str| {
        let edits = notes_typed(&parts, &marking.comments, text).unwrap();
        let count = edits.len();
        for edit in edits {
            let rubric = std::sync::Arc::new(rubric.clone());
            evenshod::command::edit_draft(marking, edit, &|| Some(rubric.clone())).unwrap();
        }
        count
    };
    assert_eq!(note(&mut marking, &text), 1);
    let said = "Too wide at the toe.\n10.5 mm at the heel.\nCrooked.";
    assert_eq!(marking.comments["width"], said);
    let stands = paper_notes(&parts, &marking.comments);
    let each = |line: &str| format!("{} {line}", width.number);
    let lines: Vec<String> = said.lines().map(each).collect();
    assert_eq!(stands, lines.join("\n"));
    assert_eq!(note(&mut marking, &stands), 0, "nothing to be done");
    assert_eq!(note(&mut marking, ""), 1);
    assert!(marking.comments.is_empty());
    let wrong = |text: &str| notes_typed(&parts, &marking.comments, text).unwrap_err();
    assert_eq!(
        wrong("Crooked"),
        "Begin with the number that it is about: Crooked"
    );
    let count = fields(&rubric).len();
    assert_eq!(
        wrong("999 x"),
        format!("999: the criteria have the numbers 1 to {count}.")
    );
}

proptest! {
    /// A state that was given on the mark sheet, written out and typed in again, is the same.
    #[test]
    fn a_state_with_marks_and_reason_comes_back(
        marks in prop_oneof![Just(None), "[0-9]{1,2}( 1/2|,5|/4)?".prop_map(Some)],
        reason in "([0-9]{1,2} )?([0-9]/[0-9] )?[a-z][a-z0-9 ]{0,9}[a-z]",
    ) {
        let rubric = bar_shoe();
        let width = field_where(&rubric, |field| field.row.id == "width");
        let mut marking = empty();
        let state = StateFact {
            state: State::CannotMeasure,
            reason: Some(reason),
            marks,
        };
        marking.facts.states.insert("width".to_owned(), state.clone());
        let text = width.stands(&marking.facts);
        marking.facts.states.clear();
        type_in(&mut marking, &rubric, &width, &text);
        prop_assert_eq!(&marking.facts.states["width"], &state, "{}", text);
    }

    /// A comment that was written elsewhere stays as it is.
    #[test]
    fn comments_from_the_mark_sheet_come_back(comment in "\\PC{0,12}(\n[0-9]{0,2} ?\\PC{0,12}){0,3}") {
        let parts = paper_parts(&bar_shoe());
        let comments = [("width".to_owned(), comment)].into();
        let stands = paper_notes(&parts, &comments);
        prop_assert_eq!(notes_typed(&parts, &comments, &stands), Ok(Vec::new()));
    }

    /// What is typed as comments stands as it was taken, and typed again changes nothing.
    #[test]
    fn any_comments_are_taken_or_refused(text in "([0-9]{0,3}[: ]?\\PC{0,12}\n){0,4}") {
        let parts = paper_parts(&bar_shoe());
        let mut comments = std::collections::BTreeMap::new();
        if let Ok(edits) = notes_typed(&parts, &comments, &text) {
            for edit in edits {
                let Edit::SetComment { entry: Some(entry), comment: Some(comment) } = edit else {
                    panic!("{edit:?}");
                };
                comments.insert(entry, comment);
            }
            let stands = paper_notes(&parts, &comments);
            prop_assert_eq!(notes_typed(&parts, &comments, &stands), Ok(Vec::new()));
        }
    }

    /// Whatever is typed, the answer is steps or words, and a second time gives the same.
    #[test]
    fn any_text_is_taken_or_refused(text in "\\PC{0,12}|[a-z]{1,3}|[0-9.,;]{1,6}") {
        let rubric = bar_shoe();
        let facts = Facts::default();
        for field in fields(&rubric) {
            let first = field.typed(&text, &facts);
            if let Err(why) = &first {
                prop_assert!(why.ends_with('.'), "{}", why);
            }
            prop_assert_eq!(first, field.typed(&text, &facts));
        }
    }
}

fn numbers_in(document: &Document) -> Vec<String> {
    let tables = document.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let rows = tables.flat_map(|table| table.groups.iter().flat_map(|group| &group.rows));
    let firsts = rows.filter_map(|row| row.first()?.text.split("  ").next().map(str::to_owned));
    firsts.collect()
}

#[test]
fn the_sheet_on_paper_has_the_same_numbers_and_names_the_rubric() {
    let (ledger, marking) = begun_bar_shoe();
    let document = blank_of_marking(&ledger, &Rubrics::default(), marking).unwrap();
    let said = plain(&document);
    let rubric = bar_shoe();
    let numbers = numbers_in(&document);
    for field in fields(&rubric) {
        assert!(
            numbers.contains(&field.number.to_string()),
            "{}",
            field.number
        );
        assert!(said.contains(&field.name), "{}", field.name);
    }
    assert!(said.contains("Black heat burns."));
    let digest = &ledger.marking(marking).unwrap().rubric;
    assert!(said.contains(&digest[..8]), "{said}");
    assert!(said.contains("Ada Smith"), "{said}");
}

/// A piece whose name waits for the seal is known by its ticket alone.
#[test]
fn paper_of_a_ticket_names_nobody() {
    let ledger = demo();
    let is_hidden = |piece: &&Piece| piece.hidden_until_sealed && piece.learner.is_some();
    let hidden = ledger.pieces().filter(is_hidden);
    let mut seen = 0;
    for piece in hidden {
        let drafts = ledger.markings_of(piece.id);
        let Some(marking) = drafts.into_iter().next() else {
            continue;
        };
        let document = blank_of_marking(ledger, &Rubrics::default(), marking.id).unwrap();
        let said = plain(&document);
        let learner = piece.learner.and_then(|id| ledger.learner(id)).unwrap();
        assert!(!said.contains(&learner.name));
        assert!(said.contains(piece.ticket.as_deref().unwrap()));
        seen += 1;
    }
    assert!(seen > 0);
}

#[test]
fn who_typed_it_in_stands_on_the_sheet_and_in_the_seal() {
    let (ledger, marking) = whole_bar_shoe();
    let typist = |name: Option<&str>| Edit::SetTypist {
        name: name.map(str::to_owned),
    };
    let ledger = edited(ledger, marking, vec![typist(Some("  Bea   Typist "))]);
    let sealed =
        crate::sheet::sample::performed(ledger, vec![crate::records::sample::seal(marking)]);
    let record = sealed.marking(marking).unwrap();
    assert_eq!(record.typist.as_deref(), Some("Bea Typist"));
    assert!(
        record
            .seal
            .as_ref()
            .unwrap()
            .personal
            .contains_key("typist")
    );
    let document = look(&sealed, marking, evenshod::sheet::scored_sheet);
    assert!(plain(&document).contains("Bea Typist"));
    // Erased with what was written, and the seal stays.
    let erased =
        crate::sheet::sample::performed(sealed, vec![crate::records::sample::erase(marking)]);
    let record = erased.marking(marking).unwrap();
    assert_eq!(record.typist, None);
    let parts = erased.seal_parts(record).unwrap();
    assert!(evenshod::records::check_seal(parts).unwrap().intact);
    let (ledger, marking) = begun_bar_shoe();
    let none = edited(ledger, marking, vec![typist(Some("A")), typist(Some(" "))]);
    assert_eq!(none.marking(marking).unwrap().typist, None);
    assert_eq!(none.marking(marking).unwrap().unit, Unit::Millimetre);
}
