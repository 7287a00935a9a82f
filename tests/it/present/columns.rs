//! The columns of tables as a text that a person changes.

use evenshod::command::{Command, CommandError, apply};
use evenshod::present::columns::{columns_text, left_out, read_columns, usual_text};
use evenshod::records::{Layout, Ledger, NamedColumn, Record};
use proptest::prelude::*;

use crate::records::sample::{after, stamp};

fn set(ledger: &Ledger, layout: Layout, text: &str, seconds: u64) -> Ledger {
    let columns = read_columns(layout, text).unwrap();
    let command = Command::SetColumns { layout, columns };
    after(ledger, command, &stamp(seconds)).0
}

#[test]
fn what_is_written_is_kept_and_read_again() {
    let text = "award = Outcome = final\nmarks = Mark *\n\n learner  =  المتدرب \ntotal";
    let ledger = set(&Ledger::default(), Layout::Wide, text, 1);
    let kept = columns_text(&ledger, Layout::Wide);
    assert_eq!(
        kept,
        "award = Outcome = final\nmarks = Mark *\nlearner = المتدرب\ntotal = total"
    );
    assert_eq!(
        columns_text(&ledger, Layout::Long),
        usual_text(Layout::Long)
    );
    // As it rests on the device.
    let records = ledger
        .records()
        .map(|one| Record::read(&one.write().unwrap()).unwrap());
    assert_eq!(columns_text(&Ledger::of(records), Layout::Wide), kept);
    // The usual ones are none of one's own, and the record tells other devices so.
    let usual = set(&ledger, Layout::Wide, &usual_text(Layout::Wide), 2);
    assert!(usual.columns(Layout::Wide).is_empty());
    assert_eq!(usual.table_heads().count(), 1);
    assert!(usual.latest() > ledger.latest());
}

#[test]
fn each_line_that_cannot_be_kept_is_told_by_its_number() {
    let faults = read_columns(
        Layout::Wide,
        "learner = A\n\nlerner = B\naward = a\ntotal =",
    );
    assert_eq!(
        faults.unwrap_err(),
        [
            "Line 3: `lerner` is no column of this table; take a key from the list of those left \
             out.",
            "Line 4: `a` is the name of learner and of award; give one of them another name.",
            "Line 5: `total` has no name; write one behind the =, or take the line out.",
        ]
    );
    let none = read_columns(Layout::Wide, " \n").unwrap_err();
    assert!(none[0].starts_with("No column is left"), "{none:?}");
    let left = left_out(Layout::Wide, "learner = x\nmarks = *");
    assert!(!left.contains("learner") && left.starts_with("piece_id, marking_id, ticket"));
    assert_eq!(left_out(Layout::Long, &usual_text(Layout::Long)), "");
}

#[test]
fn a_command_refuses_what_the_form_does() {
    let columns = vec![NamedColumn {
        key: "horse".to_owned(),
        name: "Horse".to_owned(),
    }];
    let layout = Layout::Long;
    let refused = apply(
        &Ledger::default(),
        Command::SetColumns { layout, columns },
        &stamp(1),
    );
    assert!(
        matches!(refused, Err(CommandError::Column(_))),
        "{refused:?}"
    );
}

proptest! {
    #[test]
    fn no_text_panics_and_what_is_read_comes_back(
        text in r"((marks\.[a-z-]{1,4}|learner|award|total|marks|[a-z=* ]{0,6})( ?= ?[^\r\n]{0,8})?\r?\n?){0,6}",
        any in any::<String>(),
    ) {
        for layout in Layout::ALL {
            for text in [&text, &any] {
                if let Ok(columns) = read_columns(layout, text) {
                    let ledger = set(&Ledger::default(), layout, text, 1);
                    prop_assert_eq!(ledger.columns(layout), &columns);
                    let again = read_columns(layout, &columns_text(&ledger, layout));
                    prop_assert_eq!(again, Ok(columns));
                }
            }
        }
    }
}
