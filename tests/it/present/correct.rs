//! The form for a correction, and signing before a seal.

use evenshod::command::Command;
use evenshod::present::{
    AfterSeal, CorrectForm, KeyShown, correct_page, digest_to_sign, seal_commands, signed_digest,
    unsigned_words, with_signature,
};
use evenshod::records::{PublicKey, Signature};

use crate::records::sample::{PUBLIC_KEY, now, signature};
use crate::sheet::sample::{performed, sealed_bar_shoe, whole_bar_shoe};

#[test]
fn the_form_asks_for_who_and_why() {
    let (ledger, marking) = sealed_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let page = correct_page(&ledger, piece, marking).unwrap();
    assert!(page.title.contains("Ada Smith"));
    assert!(
        page.about.ends_with("sealed 25 Nov 2026 11:42"),
        "{}",
        page.about
    );
    let errors = CorrectForm::default().read(&page, now()).unwrap_err();
    assert!(errors.examiner.is_some() && errors.reason.is_some());
    let form = CorrectForm {
        examiner: "Nora Finch".to_owned(),
        reason: "misread".to_owned(),
    };
    let command = form.read(&page, now()).unwrap();
    let ledger = performed(ledger, vec![command]);
    let shown = AfterSeal::of(&ledger, marking);
    assert!(!shown.corrects && shown.erases);
    let draft = ledger.drafts().next().unwrap();
    assert_eq!(shown.open, Some(draft.id));
    assert_eq!(AfterSeal::of(&ledger, draft.id).before, Some(marking));
}

#[test]
fn a_draft_is_not_corrected() {
    let (ledger, marking) = whole_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    assert_eq!(correct_page(&ledger, piece, marking), None);
}

#[test]
fn what_is_signed_is_the_digest_that_the_seal_then_has() {
    let (ledger, marking) = whole_bar_shoe();
    // The piece's end is told first, which the seal covers.
    let commands = seal_commands(&ledger, marking, "withdrawn", [3; 32], now());
    let digest = digest_to_sign(&ledger, &commands, marking).unwrap();
    let key = PublicKey::read(PUBLIC_KEY).unwrap();
    let value = signature().bytes().unwrap();
    let signed = signed_digest(digest.clone(), &key, &value);
    assert_eq!(signed.signature, signature());
    let ledger = performed(ledger, with_signature(commands, &signed));
    let sealed = ledger.marking(marking).unwrap();
    assert_eq!(sealed.seal.as_ref().unwrap().digest, digest);
    assert_eq!(sealed.signature, Some(signature()));
    assert_eq!(Signature::signed_bytes(&digest).len(), 64);
    let none = Command::DeleteDraft { marking };
    assert_eq!(digest_to_sign(&ledger, &[none], marking), None);
}

#[test]
fn a_key_is_shown_by_its_fingerprint() {
    let shown = KeyShown::of(&PublicKey::read(PUBLIC_KEY).unwrap());
    assert!(shown.fingerprint.starts_with("247f426a 754a323f "));
    assert_eq!(shown.base, "evenshod-key-247f426a");
    assert!(shown.pem.starts_with("-----BEGIN PUBLIC KEY-----\n"));
    assert!(unsigned_words("the key is gone").ends_with("The key is gone."));
}
