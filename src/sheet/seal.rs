//! The seal as it stands on a sheet.

use crate::chart::qr_code;
use crate::records::{PersonalText, Seal, SealCheck, SealError, check_seal, in_groups};

use super::document::{Block, Fact, Weight};
use super::scored::{Scored, heading, notice};

const PROVES: &str = "The digest is that of a text with all readings, levels, faults, states, the \
    occasion and the whole rubric. Save the sheet as JSON and open it on the page Verify, or \
    compute the digest again: if it is the one printed here, nothing of that was changed since \
    sealing. Names, comments and photos are in it as salted digests, so they can be erased and the \
    marks still stand. It does not show who sealed it, or that a reading was right.";

/// What checking the seal of a marking found; none for a draft.
pub(super) type Checked = Option<Result<SealCheck, SealError>>;

/// Checks the seal, where there is one.
pub(super) fn checked(scored: &Scored<'_>) -> Checked {
    let seal = scored.parts.marking.seal.as_ref();
    seal.map(|_| check_seal(scored.parts))
}

/// What must be said on top where a seal does not stand; `which` names the marking.
pub(super) fn altered_blocks(checked: &Checked, which: &str) -> Vec<Block> {
    let why = match checked {
        None => return Vec::new(),
        Some(Ok(check)) if check.intact => return Vec::new(),
        Some(Ok(_)) => "What is marked no longer gives the digest that was sealed.".to_owned(),
        Some(Err(error)) => error.to_string(),
    };
    let text = format!("{which}: altered since sealing. These are not the marks that were sealed.");
    vec![notice(Weight::Stop, text, vec![why])]
}

/// The digest with what it proves, and what checking it found.
pub(super) fn seal_blocks(scored: &Scored<'_>, checked: &Checked) -> Vec<Block> {
    let mut blocks = vec![heading("Seal")];
    let Some(seal) = &scored.parts.marking.seal else {
        blocks.push(Block::Paragraph(
            "Draft, not sealed: there is no digest yet, and everything on this sheet may still \
             change."
                .to_owned(),
        ));
        return blocks;
    };
    if let Some(Ok(check)) = checked {
        blocks.extend(found(scored, check));
    }
    let mut said = vec![
        Block::Facts(sealed_facts(scored, seal)),
        digest_block("Digest (SHA-256)", &seal.digest),
    ];
    let signature = scored.parts.marking.signature.as_ref();
    if let Some(Ok(key)) = signature.map(|signature| signature.key()) {
        let label = "Fingerprint of the key (SHA-256)";
        said.push(digest_block(label, &key.fingerprint()));
    }
    said.push(Block::Paragraph(PROVES.to_owned()));
    blocks.extend(beside_code(&seal.digest, said));
    blocks
}

fn sealed_facts(scored: &Scored<'_>, seal: &Seal) -> Vec<Fact> {
    let signed = if scored.parts.marking.signature.is_some() {
        "by the key of a device; the page Verify checks it"
    } else {
        "none"
    };
    let said = [
        ("Sealed", seal.at.to_string()),
        ("By", scored.parts.examiner.name.clone()),
        ("Signature", signed.to_owned()),
    ];
    let said = said.into_iter().map(|(label, value)| Fact {
        label: label.into(),
        value,
    });
    said.collect()
}

/// A digest in groups that a person can compare.
pub(super) fn digest_block(label: &str, digest: &str) -> Block {
    Block::Code {
        label: label.to_owned(),
        groups: in_groups(digest),
    }
}

/// What is said of a digest, beside it to be scanned from the screen or from paper.
fn beside_code(digest: &str, said: Vec<Block>) -> Vec<Block> {
    let read = format!("evenshod:sha256:{digest}");
    let description = format!("A QR code that reads {read}");
    match qr_code(&read, "Digest to scan".to_owned(), description) {
        Some(drawing) => vec![Block::Illustrated {
            drawing,
            beside: said,
        }],
        None => said,
    }
}

fn found(scored: &Scored<'_>, check: &SealCheck) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(at) = scored.parts.marking.erased.filter(|_| check.intact) {
        let text = format!("Marks intact, personal text erased on {at}");
        blocks.push(notice(Weight::Info, text, Vec::new()));
    }
    let changed: Vec<String> = check
        .personal
        .iter()
        .filter(|(_, text)| **text != PersonalText::Same)
        .map(|(label, text)| text_words(scored, label, *text))
        .collect();
    if !changed.is_empty() {
        let text = "These texts are not as they were sealed; the marks do not rest on them";
        blocks.push(notice(Weight::Info, text, changed));
    }
    blocks
}

/// What became of a personal text: `The learner’s name: erased since sealing`.
pub(super) fn text_words(scored: &Scored<'_>, label: &str, text: PersonalText) -> String {
    let name = match label {
        "learner" => "The learner’s name".to_owned(),
        "examiner" => "The examiner’s name".to_owned(),
        "typist" => "The name of who typed it in".to_owned(),
        "overall" => "The comment on the whole".to_owned(),
        label => match label.split_once('/') {
            Some(("comment", entry)) => format!("The comment on {}", scored.name_of(entry)),
            Some(("photo", place)) => format!("Photo {}", place.trim_start_matches('0')),
            _ => label.to_owned(),
        },
    };
    let word = match text {
        PersonalText::Same => "as sealed",
        PersonalText::Changed => "changed since sealing",
        PersonalText::Erased => "erased since sealing",
        PersonalText::Added => "added since sealing",
    };
    format!("{name}: {word}")
}
