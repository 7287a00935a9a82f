use evenshod::present::{
    TakeOver, ledger_file, ledger_page, not_handed_over, read_ledger_file, too_large,
};
use evenshod::records::{Ledger, Record};
use evenshod::store::{Desk, Loaded, MemoryStore, Store as _, Unreadable};

use crate::records::sample::{
    after, device, full_ledger, jpeg, level, now as moment, picture, seal, stamp, stamp_of,
    with_full_draft,
};
use crate::store::now;

fn unreadable(key: &str, text: &str) -> Vec<Unreadable> {
    Loaded::read([(key, text)]).unreadable
}

fn file(ledger: &Ledger, unreadable: &[Unreadable]) -> String {
    let pictures = vec![picture(&jpeg(1))];
    ledger_file(ledger, unreadable, pictures, &device(1), moment())
        .unwrap()
        .text
}

fn view(ledger: &Ledger, text: &str) -> TakeOver {
    TakeOver::of(ledger, &[], &read_ledger_file(text.as_bytes()).unwrap())
}

#[test]
fn the_page_counts_in_words() {
    let page = ledger_page(&Ledger::default(), &[]);
    assert_eq!(page.counted, "nothing on this device yet");
    assert!(!page.has_something);
    let page = ledger_page(&full_ledger(), &[]);
    assert_eq!(page.counted, "14 records on this device");
    assert!(page.kinds.contains(&("Markings", "2, 1 draft".to_owned())));
    assert!(page.kinds.contains(&("Learners", "2".to_owned())));
}

#[test]
fn what_cannot_be_read_is_listed_and_goes_into_the_file_as_it_is() {
    let broken = unreadable("piece/7", "{\"kind\":\"piece\",");
    let page = ledger_page(&Ledger::default(), &broken);
    assert!(page.has_something);
    assert!(
        page.unreadable[0].starts_with("piece/7: This is not a record"),
        "{page:?}"
    );
    let pictures = Vec::new();
    let saved = ledger_file(&full_ledger(), &broken, pictures, &device(1), moment()).unwrap();
    assert_eq!(saved.base, "evenshod-ledger-2026-11-25");
    assert!(
        saved
            .words
            .contains("14 records, and 1 text that cannot be read here. One picture is not on"),
        "{}",
        saved.words
    );
    let back = read_ledger_file(saved.text.as_bytes()).unwrap();
    assert_eq!(back.unreadable()[0].text, "{\"kind\":\"piece\",");
    assert_eq!(back.device(), "bench tablet");
    let view = view(&Ledger::default(), &saved.text);
    assert!(view.notes[0].contains("1 text that this version cannot read"));
}

#[test]
fn it_is_shown_first_what_would_change() {
    let full = full_ledger();
    let text = file(&full, &[]);
    let fresh = view(&Ledger::default(), &text);
    assert_eq!(
        fresh.from,
        "Saved 25 Nov 2026 11:42 on bench tablet. It holds 2 learners, 1 examiner, 2 sittings, \
         1 instrument, 1 instrument study, 1 table head, 1 picture, 1 rubric, 2 pieces, 2 markings."
    );
    assert_eq!(fresh.outcome, "14 records would be added, none replaced.");
    assert_eq!(
        fresh.done,
        "Taken over and stored: 14 records added, 0 replaced."
    );
    assert!(fresh.changes && fresh.notes.is_empty());
    assert_eq!(fresh.rows.len(), 10);
    assert_eq!(fresh.rows[0].kind, "Learners");
    assert_eq!(fresh.rows[0].cells[0], ("Added", "2".to_owned()));

    let again = view(&full, &text);
    assert!(!again.changes);
    assert!(again.outcome.starts_with("Nothing would change"));
    let empty = view(&full, &file(&Ledger::default(), &[]));
    assert_eq!(
        empty.outcome,
        "Nothing would change: there are no records in this file."
    );
    assert_eq!(empty.rows, []);
}

#[test]
fn notes_name_people_and_pieces() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let here = after(&draft, seal(marking), &stamp_of(2, 50)).0;
    let there = after(&draft, level(marking, "finish", "fair"), &stamp_of(3, 60)).0;
    let shown = view(&here, &file(&there, &[]));
    assert_eq!(
        shown.notes,
        [
            "The marking of Ada Smith, Plain front shoe, practice, Wednesday 25 Nov 2026: changed \
             later in the file, but sealed here. What is sealed stays."
        ]
    );
    let shown = view(&there, &file(&here, &[]));
    assert!(shown.notes[0].contains("sealed in the file and changed later here"));
    let twice = after(&there, seal(marking), &stamp_of(3, 70)).0;
    let shown = view(&here, &file(&twice, &[]));
    assert!(
        shown.notes[0].contains("sealed on both devices, and not alike. The one here is of 25 Nov"),
        "{:?}",
        shown.notes
    );
    assert!(!shown.changes);
}

#[test]
fn taken_over_it_is_stored_in_one_batch_and_the_same_again_is_none() {
    let bundle = read_ledger_file(file(&full_ledger(), &[]).as_bytes()).unwrap();
    let store = MemoryStore::default();
    let mut desk = Desk::new(Ledger::default());
    assert!(!TakeOver::is_in(desk.ledger(), &[], &bundle));
    desk.perform(TakeOver::command(&[], &bundle), stamp(0))
        .unwrap();
    let batch = desk.take_batch().unwrap();
    now(store.commit(&batch)).unwrap();
    desk.batch_saved();
    assert!(TakeOver::is_in(desk.ledger(), &[], &bundle));
    let stored = now(store.load()).unwrap();
    assert_eq!(stored.ledger, full_ledger());
    desk.perform(TakeOver::command(&[], &bundle), stamp(1))
        .unwrap();
    assert!(desk.is_saved());
    assert_eq!(desk.take_batch(), None);
}

/// A record of the file stands under a key whose text cannot be read here: it is left
/// out, and all else is stored.
#[test]
fn what_cannot_be_read_here_does_not_stop_the_rest() {
    let full = full_ledger();
    let key = full.records().next().unwrap().key().to_string();
    let store = MemoryStore::holding([(key.clone(), "{".to_owned())]);
    let loaded = now(store.load()).unwrap();
    let bundle = read_ledger_file(file(&full, &[]).as_bytes()).unwrap();
    let shown = TakeOver::of(&loaded.ledger, &loaded.unreadable, &bundle);
    assert!(shown.notes[0].contains("is never overwritten"), "{shown:?}");
    let mut desk = Desk::new(loaded.ledger);
    desk.perform(TakeOver::command(&loaded.unreadable, &bundle), stamp(0))
        .unwrap();
    now(store.commit(&desk.take_batch().unwrap())).unwrap();
    assert_eq!(store.texts()[&key], "{");
    assert_eq!(store.texts().len(), full.records().count());
}

/// Another tab wrote meanwhile: the file is merged anew with what is there now.
#[test]
fn a_change_of_another_tab_is_merged_with() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let there = after(&draft, level(marking, "finish", "fair"), &stamp_of(3, 60)).0;
    let bundle = read_ledger_file(file(&there, &[]).as_bytes()).unwrap();
    let mut desk = Desk::new(draft.clone());
    desk.perform(TakeOver::command(&[], &bundle), stamp(70))
        .unwrap();
    let sealed = after(&draft, seal(marking), &stamp_of(2, 65)).0;
    assert_eq!(desk.rebase(sealed.clone()).unwrap().len(), 0);
    assert_eq!(desk.ledger(), &sealed, "the seal came first");
    assert!(desk.take_batch().is_none());
}

#[test]
fn what_is_wrong_is_told_with_where_and_how_to_mend_it() {
    let text = file(&full_ledger(), &[]);
    let cut = read_ledger_file(&text.as_bytes()[..text.len() / 2]).unwrap_err();
    assert!(cut.starts_with("The end of the file is missing: "), "{cut}");
    assert!(
        cut.contains(" of 14 records are there; copy it again"),
        "{cut}"
    );
    let record: Record = full_ledger().records().next().unwrap();
    let one = read_ledger_file(record.write().unwrap().as_bytes()).unwrap_err();
    assert!(one.starts_with("This is no ledger file"), "{one}");
    assert_eq!(too_large(5_000_000), None);
    assert!(too_large(2_000_000_000).unwrap().contains("2000 MB"));
    assert!(not_handed_over("gone").contains("(gone)"));
}
