use evenshod::command::{Command, CommandError};
use evenshod::present::{refused_words, sentence, unreadable_words};
use evenshod::records::{Kind, RecordKey, WireError};
use evenshod::store::Unreadable;

use crate::records::sample::now;

#[test]
fn a_message_stands_as_a_sentence() {
    assert_eq!(
        sentence("the ticket has no name"),
        "The ticket has no name."
    );
    assert_eq!(sentence("Again?"), "Again?");
    assert_eq!(sentence("über alles"), "Über alles.");
    assert_eq!(sentence(""), ".");
}

#[test]
fn refused_commands_are_told_once_for_each_reason() {
    assert_eq!(refused_words(&[], None), None);
    let sealed = || {
        let command = Command::AddExaminer {
            name: "Wm. Green".to_owned(),
        };
        (command, CommandError::Sealed { at: now() })
    };
    let one = refused_words(&[sealed()], None).unwrap();
    assert!(one.starts_with("Your last change could not be kept. This marking was sealed"));
    let two = refused_words(&[sealed(), sealed()], None).unwrap();
    assert!(two.starts_with("2 of your last changes could not be kept."));
    assert_eq!(two.matches("was sealed").count(), 1);
}

#[test]
fn unreadable_records_are_counted_and_one_is_named() {
    assert_eq!(unreadable_words(&[]), None);
    let newer = |id: &str| Unreadable {
        key: RecordKey::new(Kind::Piece, id).to_string(),
        text: String::new(),
        why: WireError::Newer {
            kind: Kind::Piece,
            schema: 2,
            newest: 1,
        },
    };
    let text = unreadable_words(&[newer("a"), newer("b")]).unwrap();
    assert!(
        text.starts_with("2 records on this device cannot be read; they are left as they are.")
    );
    assert!(text.contains("piece/a: This piece has schema 2"));
}
