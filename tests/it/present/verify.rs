//! The page that checks a saved file.

use evenshod::command::Command;
use evenshod::present::sheet_json;
use evenshod::present::verify::{
    LedgerCheck, LedgerFound, MarkingFound, Opened, Outcome, SignatureFound, Step, compared_with,
    key_compared, open_file, read_digest,
};
use evenshod::records::{Bundle, Change, Ledger, MarkingId, SignedDigest, sha256_hex};
use proptest::prelude::*;

use crate::records::sample::{PUBLIC_KEY, bundle, comment, erase, level, seal, signature};
use crate::sheet::sample::{performed, plain, sealed_bar_shoe, whole_bar_shoe};

fn saved() -> (String, String) {
    let (ledger, marking) = sealed_bar_shoe();
    let digest = ledger
        .marking(marking)
        .unwrap()
        .seal
        .as_ref()
        .unwrap()
        .digest
        .clone();
    (sheet_json(&ledger, marking).unwrap(), digest)
}

#[track_caller]
fn marking(text: &str) -> MarkingFound {
    match open_file(text.as_bytes()) {
        Ok(Opened::Marking(found)) => *found,
        other => panic!("{other:?}"),
    }
}

/// Checks a ledger file to its end, with every signature fitting.
#[track_caller]
fn checked(bytes: &[u8]) -> LedgerFound {
    match open_file(bytes) {
        Ok(Opened::Ledger(mut check)) => run(&mut check),
        other => panic!("{other:?}"),
    }
}

fn run(check: &mut LedgerCheck) -> LedgerFound {
    loop {
        match check.step() {
            Step::Done => return check.found(),
            Step::Checked(None) => {}
            Step::Checked(Some((marking, signed))) => {
                check.signature(marking, &signed.found(Some(true)));
            }
        }
    }
}

#[test]
fn an_intact_file_says_so_and_what_the_marking_says() {
    let (text, digest) = saved();
    let found = marking(&text);
    assert_eq!(found.outcome, Outcome::Intact);
    assert_eq!(found.verdict, "Intact: as it was sealed");
    assert_eq!(found.digest, digest);
    assert_eq!(found.signed, Err(SignatureFound::Unsigned));
    assert!(
        found
            .texts
            .contains(&"The learner’s name: as sealed".to_owned())
    );
    let said = plain(&found.document.unwrap());
    for line in [
        "Learner: Ada Smith",
        "Examiner: Wm. Green",
        "Date: Wednesday 25 Nov 2026",
        "Rubric: straight-bar-shoe, version 1",
        "Pass 67 of 100; 65 to pass",
        "Total |  | Pass | 67 of 100",
        &format!("Of this file (SHA-256) {}", &digest[..8]),
    ] {
        assert!(said.contains(line), "no {line} in\n{said}");
    }
    assert!(!said.contains("altered"));
}

#[test]
fn one_altered_byte_is_told_on_top_and_in_the_document() {
    let (text, digest) = saved();
    let changed = text.replacen("\"text\":\"62,4\"", "\"text\":\"61,4\"", 1);
    let bytes = text.bytes().zip(changed.bytes());
    assert_eq!(bytes.filter(|(one, other)| one != other).count(), 1);
    let found = marking(&changed);
    assert_eq!(found.outcome, Outcome::Altered);
    assert_eq!(found.verdict, "Altered since sealing");
    assert_ne!(found.digest, digest);
    let said = plain(&found.document.unwrap());
    assert!(
        said.contains("Stop! This file: altered since sealing"),
        "{said}"
    );
    // The digest in the file was altered instead: that does not fit either.
    let other = text.replacen(&digest, &sha256_hex(b"x"), 1);
    assert_eq!(marking(&other).outcome, Outcome::Altered);
    // A rubric's text of its own making is named.
    let eased = text.replacen("pass = \\\"65 %\\\"", "pass = \\\"60 %\\\"", 1);
    assert!(marking(&eased).says[1].contains("rubric’s text"));
}

#[test]
fn erased_changed_and_added_texts_are_told_apart() {
    let (ledger, id) = sealed_bar_shoe();
    let erased = sheet_json(&performed(ledger, vec![erase(id)]), id).unwrap();
    let found = marking(&erased);
    assert_eq!(found.outcome, Outcome::Partly);
    assert_eq!(
        found.verdict,
        "Marks intact, personal text erased on 25 Nov 2026 11:42"
    );
    assert!(
        found
            .texts
            .contains(&"The comment on Weld: erased since sealing".to_owned())
    );
    let (text, _) = saved();
    let renamed = text.replace("\"Ada Smith\"", "\"Ada Jones\"");
    let found = marking(&renamed);
    assert!(
        found
            .verdict
            .starts_with("Marks intact, but names or comments")
    );
    assert!(
        found
            .texts
            .contains(&"The learner’s name: changed since sealing".to_owned())
    );
}

#[test]
fn markup_and_turned_text_stay_text() {
    let (ledger, id) = whole_bar_shoe();
    let odd = "<script>alert(1)</script> e\u{301} \u{202e}\u{5e9}\u{5dc}";
    let ledger = performed(ledger, vec![comment(id, None, odd), seal(id)]);
    let found = marking(&sheet_json(&ledger, id).unwrap());
    assert_eq!(found.outcome, Outcome::Intact);
    assert!(plain(&found.document.unwrap()).contains(odd));
}

#[test]
fn other_files_are_refused_with_what_to_choose() {
    let (text, _) = saved();
    for (bytes, told) in [
        (&b""[..], "The file is empty"),
        (b"{\"a\":1}", "This is no sealed marking of this program"),
        (b"%PDF-1.7 \xff\xfe", "it is not text from byte 10 on"),
        (
            &text.as_bytes()[..text.len() / 2],
            "The end of the file is missing, it stops on line 1",
        ),
        (
            b"{\"format\":\"evenshod ledger\",\"schema\":1,",
            "The end of the file is missing",
        ),
    ] {
        let error = open_file(bytes).unwrap_err();
        assert!(error.starts_with(told) || error.contains(told), "{error}");
    }
    let newer = text.replace("\"schema\":2,\"sha256\"", "\"schema\":9,\"sha256\"");
    let error = open_file(newer.as_bytes()).unwrap_err();
    assert!(error.contains("use a newer version"), "{error}");
}

#[test]
fn the_sheets_digest_is_compared_however_it_is_written() {
    let (_, digest) = saved();
    let groups: Vec<&str> = (0..8).map(|at| &digest[at * 8..at * 8 + 8]).collect();
    for typed in [
        digest.clone(),
        groups.join(" "),
        groups.join("\n").to_uppercase(),
        format!("evenshod:sha256:{digest}"),
        format!("  Evenshod:SHA256:{digest} "),
    ] {
        assert!(compared_with(&typed, &digest).unwrap().0, "{typed}");
    }
    assert!(!compared_with(&sha256_hex(b"x"), &digest).unwrap().0);
    assert!(
        read_digest(&digest[1..])
            .unwrap_err()
            .contains("these are 63")
    );
    assert!(
        read_digest("xyz")
            .unwrap_err()
            .contains("`x` is none of them")
    );
}

#[test]
fn a_signature_is_handed_over_to_be_checked() {
    let (draft, id) = whole_bar_shoe();
    let sealed = performed(draft.clone(), vec![seal(id)]);
    let digest = sealed
        .marking(id)
        .unwrap()
        .seal
        .as_ref()
        .unwrap()
        .digest
        .clone();
    let Command::Seal {
        marking: which,
        seed,
        at,
        ..
    } = seal(id)
    else {
        unreachable!()
    };
    let signed = Command::Seal {
        marking: which,
        seed,
        at,
        signature: Some(Box::new(SignedDigest {
            digest: digest.clone(),
            signature: signature(),
        })),
    };
    let text = sheet_json(&performed(draft, vec![signed]), id).unwrap();
    let found = marking(&text);
    let to_check = found.signed.unwrap();
    assert_eq!(to_check.message, digest.as_bytes());
    let fits = to_check.found(Some(true));
    let SignatureFound::Fits(fingerprint) = &fits else {
        panic!("{fits:?}")
    };
    assert!(fits.words()[0].starts_with("Signed by the key 247f426a 754a323f"));
    assert!(key_compared(PUBLIC_KEY, fingerprint).unwrap().0);
    assert!(!key_compared(PUBLIC_KEY, "00").unwrap().0);
    assert!(
        key_compared("nothing", fingerprint)
            .unwrap_err()
            .contains("no public key")
    );
    assert_eq!(to_check.found(Some(false)), SignatureFound::DoesNotFit);
    assert_eq!(to_check.found(None), SignatureFound::Unchecked);
    let broken = text.replace(&signature().value, "AAAA");
    assert_eq!(marking(&broken).signed, Err(SignatureFound::Unreadable));
}

/// Two sealed markings of one ledger, the first of them altered past every command.
fn ledger_of_two() -> (Ledger, MarkingId) {
    let (ledger, id) = sealed_bar_shoe();
    let again = crate::records::sample::start(crate::records::sample::named("Bea Coe"));
    let ledger = performed(ledger, vec![again]);
    let other = ledger.drafts().next().unwrap().id;
    (
        performed(ledger, vec![level(other, "finish", "good"), seal(other)]),
        id,
    )
}

#[test]
fn every_sealed_marking_of_a_ledger_file_is_checked_and_the_altered_named() {
    let (ledger, id) = ledger_of_two();
    let found = checked(bundle(&ledger).write().unwrap().as_bytes());
    assert_eq!(found.outcome, Outcome::Intact);
    assert!(found.says[1].starts_with("2 of 2 sealed markings checked: 2 intact, 0 altered, 0"));
    let mut changed = ledger.marking(id).unwrap().clone();
    changed
        .facts
        .levels
        .insert("toe-bend".to_owned(), "true".to_owned());
    let puts = vec![changed.into()];
    let altered = ledger.with(&Change {
        puts,
        ..Change::default()
    });
    let found = checked(bundle(&altered).write().unwrap().as_bytes());
    assert_eq!(found.outcome, Outcome::Altered);
    assert_eq!(found.verdict, "1 marking altered since sealing");
    assert_eq!(found.altered.len(), 1);
    assert!(
        found.altered[0].starts_with("\u{2068}Ada Smith\u{2069}")
            || found.altered[0].contains("Ada Smith")
    );
    let digest = |id| {
        ledger
            .marking(id)
            .unwrap()
            .seal
            .as_ref()
            .unwrap()
            .digest
            .clone()
    };
    assert!(!found.compared(&digest(id)).unwrap().0);
    let other = ledger
        .markings()
        .find(|marking| marking.id != id)
        .unwrap()
        .id;
    let (fits, words) = found.compared(&digest(other)).unwrap();
    assert!(fits && words.contains("Bea Coe"), "{words}");
    assert!(found.compared("12").is_err());
    let erased = performed(ledger, vec![erase(id)]);
    let found = checked(bundle(&erased).write().unwrap().as_bytes());
    assert!(
        found.says[1].contains("1 with personal text erased"),
        "{:?}",
        found.says
    );
    assert_eq!(found.outcome, Outcome::Intact);
}

#[test]
fn an_altered_ledger_file_is_told_and_its_seals_are_checked_all_the_same() {
    let (ledger, _) = ledger_of_two();
    let text = bundle(&ledger).write().unwrap();
    let altered = text.replacen("\"toe-bend\":\"near\"", "\"toe-bend\":\"true\"", 1);
    assert_ne!(altered, text);
    assert!(
        Bundle::read(altered.as_bytes()).is_err(),
        "never taken over"
    );
    let found = checked(altered.as_bytes());
    assert_eq!(found.outcome, Outcome::Altered);
    assert!(found.says[1].starts_with("The file was altered after it was saved: record"));
    assert_eq!(found.altered.len(), 1);
    // A name that no seal covers in clear.
    let renamed = text.replacen("\"name\":\"Wm. Green\"", "\"name\":\"Wm. Brown\"", 1);
    let found = checked(renamed.as_bytes());
    assert_eq!((found.altered.len(), found.changed.len()), (0, 2));
    assert_eq!(found.verdict, "Altered since it was saved");
}

#[test]
fn stopped_before_the_end_it_says_so_and_claims_no_more() {
    let (ledger, _) = ledger_of_two();
    let mut check = LedgerCheck::of(&bundle(&ledger), None);
    assert_eq!(check.progress(), "0 of 2 sealed markings checked");
    assert!(matches!(check.step(), Step::Checked(None)));
    let found = check.found();
    assert_eq!(found.outcome, Outcome::Partly);
    assert_eq!(found.verdict, "Stopped before all were checked");
    assert_eq!(run(&mut check).outcome, Outcome::Intact);
}

proptest! {
    #[test]
    fn no_digest_panics_and_what_reads_is_64_hex_letters(text in "\\PC{0,90}", hex in "[0-9a-fA-F ]{60,75}") {
        for typed in [text, hex] {
            if let Ok(digest) = read_digest(&typed) {
                prop_assert!(digest.len() == 64 && digest.bytes().all(|c| c.is_ascii_hexdigit()));
                prop_assert_eq!(read_digest(&digest), Ok(digest));
            }
        }
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = open_file(&bytes);
        let _ = open_file(&[&b"{\"format\":\"evenshod ledger\","[..], &bytes].concat());
    }
}
