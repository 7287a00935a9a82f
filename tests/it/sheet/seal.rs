//! What a sheet says of its seal: altered, erased, corrected, signed.

use evenshod::command::{Amend, Command, Edit};
use evenshod::present::{Rubrics, sheet_page, side_page};
use evenshod::records::{Change, Ledger, MarkingId, Whom};
use evenshod::sheet::{Block, Document, Weight};

use super::sample::{performed, plain, sealed_bar_shoe, whole_bar_shoe};
use crate::records::sample::{erase, jpeg, keep, level, now, photos, seal, signature};

fn page(ledger: &Ledger, marking: MarkingId) -> Document {
    let piece = ledger.marking(marking).unwrap().piece;
    let shown = sheet_page(ledger, &Rubrics::default(), piece, Some(marking));
    shown.unwrap().document
}

/// The ledger with a level of the sealed marking changed past every command.
fn tampered(ledger: &Ledger, marking: MarkingId) -> Ledger {
    let mut changed = ledger.marking(marking).unwrap().clone();
    let level = changed.facts.levels.get_mut("toe-bend").unwrap();
    *level = "true".to_owned();
    ledger.with(&Change {
        puts: vec![changed.into()],
        ..Change::default()
    })
}

fn top_notice(document: &Document) -> Option<(Weight, &str)> {
    match document.blocks.first()? {
        Block::Notice(notice) => Some((notice.weight, &notice.text)),
        _ => None,
    }
}

#[test]
fn an_altered_marking_says_so_on_top() {
    let (ledger, marking) = sealed_bar_shoe();
    let sealed = page(&ledger, marking);
    assert!(!plain(&sealed).contains("altered since sealing"));
    let altered = page(&tampered(&ledger, marking), marking);
    let (weight, text) = top_notice(&altered).unwrap();
    assert_eq!(weight, Weight::Stop);
    assert!(text.contains("altered since sealing"), "{text}");
}

#[test]
fn side_by_side_says_so_too() {
    let (ledger, marking) = sealed_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let own = Command::MarkAgain(Box::new(evenshod::command::MarkAgain {
        piece,
        examiner: String::new(),
        rubric: None,
        unit: evenshod::records::Unit::Millimetre,
        role: evenshod::records::Role::Own,
        at: now(),
    }));
    let ledger = performed(ledger, vec![own]);
    let own = ledger.drafts().next().unwrap().id;
    let ledger = performed(ledger, vec![seal(own)]);
    let look =
        |ledger: &Ledger| side_page(ledger, &Rubrics::default(), piece, Whom::Learner).unwrap();
    assert_eq!(top_notice(&look(&ledger).document), None);
    let side = look(&tampered(&ledger, marking)).document;
    let (weight, text) = top_notice(&side).unwrap();
    assert_eq!(weight, Weight::Stop);
    assert!(
        text.starts_with("The examiner’s marking: altered"),
        "{text}"
    );
}

#[test]
fn the_code_holds_the_digest_and_says_so_in_words() {
    let (ledger, marking) = sealed_bar_shoe();
    let digest = &ledger
        .marking(marking)
        .unwrap()
        .seal
        .as_ref()
        .unwrap()
        .digest;
    let document = page(&ledger, marking);
    let mut codes = document.blocks.iter().filter_map(|block| match block {
        Block::Illustrated { drawing, .. } => Some(drawing),
        _ => None,
    });
    let code = codes.next().unwrap();
    assert_eq!(
        code.description,
        format!("A QR code that reads evenshod:sha256:{digest}")
    );
    // 32 mm wide on paper, with four modules of clear edge on each side.
    assert!(32.0 * (code.width - 8.0) / code.width >= 25.0);
}

#[test]
fn erased_text_is_said_with_its_day_and_the_marks_stay() {
    let (ledger, marking) = sealed_bar_shoe();
    let overall = ledger.marking(marking).unwrap().overall.clone().unwrap();
    let overall = overall.lines().next().unwrap();
    assert!(plain(&page(&ledger, marking)).contains(overall));
    let ledger = performed(ledger, vec![erase(marking)]);
    let text = plain(&page(&ledger, marking));
    assert!(!text.contains(overall));
    assert!(text.contains("Marks intact, personal text erased on 25 Nov 2026"));
    assert!(text.contains("The comment on the whole: erased since sealing"));
    assert!(text.contains("Pass 67 of 100"));
}

#[test]
fn photos_stand_on_the_sheet_and_go_when_they_are_erased() {
    let (ledger, marking) = whole_bar_shoe();
    let mut commands = vec![keep(&jpeg(1)), keep(&jpeg(2))];
    let add = |photo| Command::edit(marking, Edit::AddPhoto { photo });
    commands.extend(photos().into_iter().map(add));
    commands.push(seal(marking));
    let ledger = performed(ledger, commands);
    let document = page(&ledger, marking);
    let shown = document.blocks.iter().find_map(|block| match block {
        Block::Pictures(pictures) => Some(pictures),
        _ => None,
    });
    let digests = shown.unwrap().iter().map(|one| one.digest.as_str());
    let named = photos();
    assert!(digests.eq(named.iter().map(|photo| photo.picture.as_str())));
    let text = plain(&document);
    let lines = "[Photo 1] Photo 1: ground side, the bar\n[Photo 2] Photo 2\n";
    assert!(text.contains(lines), "{text}");
    let text = plain(&page(&performed(ledger, vec![erase(marking)]), marking));
    assert!(!text.contains("[Photo"), "{text}");
    assert!(text.contains("Photo 1: erased since sealing"), "{text}");
    assert!(text.contains("Photo 2: erased since sealing"), "{text}");
}

#[test]
fn a_correction_and_what_it_corrects_name_each_other() {
    let (ledger, old) = sealed_bar_shoe();
    let amend = Command::Amend(Box::new(Amend {
        marking: old,
        examiner: "Nora Finch".to_owned(),
        reason: "toe bend read on the wrong shoe".to_owned(),
        at: now(),
    }));
    let ledger = performed(ledger, vec![amend]);
    let new = ledger.drafts().next().unwrap().id;
    assert_eq!(
        top_notice(&page(&ledger, old)),
        None,
        "not before it is sealed"
    );
    let ledger = performed(ledger, vec![level(new, "toe-bend", "true"), seal(new)]);
    let before = plain(&page(&ledger, old));
    assert!(before.contains("Warn! Replaced on 25 Nov 2026"), "{before}");
    assert!(before.contains("by Nora Finch. This marking no longer counts"));
    assert!(before.contains("  Because: toe bend read on the wrong shoe"));
    assert!(before.contains("Pass 67 of 100"));
    let after = plain(&page(&ledger, new));
    assert!(after.contains("A correction of the marking that Wm. Green sealed on 25 Nov 2026"));
    assert!(after.contains("Pass 68 of 100"));
    let piece = ledger.marking(old).unwrap().piece;
    let shown = sheet_page(&ledger, &Rubrics::default(), piece, None).unwrap();
    assert_eq!(shown.marking, new);
    assert_eq!(shown.after_seal.before, Some(old));
    let shown = sheet_page(&ledger, &Rubrics::default(), piece, Some(old)).unwrap();
    assert_eq!(shown.after_seal.after, Some(new));
    assert!(!shown.after_seal.corrects);
}

#[test]
fn a_signed_sheet_prints_the_fingerprint_and_an_unsigned_one_says_none() {
    let (ledger, marking) = sealed_bar_shoe();
    assert!(plain(&page(&ledger, marking)).contains("Signature: none"));
    let mut signed = ledger.marking(marking).unwrap().clone();
    signed.signature = Some(signature());
    let ledger = ledger.with(&Change {
        puts: vec![signed.into()],
        ..Change::default()
    });
    let text = plain(&page(&ledger, marking));
    assert!(text.contains("Signature: by the key of a device"));
    assert!(text.contains("Fingerprint of the key (SHA-256) 247f426a 754a323f"));
}

#[test]
fn a_draft_has_nothing_to_do_after_the_seal() {
    let (ledger, marking) = whole_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let shown = sheet_page(&ledger, &Rubrics::default(), piece, None).unwrap();
    assert_eq!(shown.after_seal, Default::default());
}
