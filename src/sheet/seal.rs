//! The seal as it stands on a sheet.

use crate::records::{PersonalText, SealCheck, check_seal};

use super::document::{Block, Fact, Weight};
use super::scored::{Scored, heading, notice};

/// Digits of a digest in one group.
const GROUP: usize = 8;

const PROVES: &str = "The digest is that of a text with all readings, levels, faults, states, the \
    occasion and the whole rubric. Save the sheet as JSON and compute it again: if it comes out \
    the same, nothing of that was changed since sealing. Names and comments are in it as salted \
    digests, so they can be erased and the marks still stand. It does not show who sealed it, or \
    that a reading was right.";

/// The digest with what it proves, and what checking it found.
pub(super) fn seal_blocks(scored: &Scored<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Seal")];
    let Some(seal) = &scored.parts.marking.seal else {
        blocks.push(Block::Paragraph(
            "Draft, not sealed: there is no digest yet, and everything on this sheet may still \
             change."
                .to_owned(),
        ));
        return blocks;
    };
    blocks.push(Block::Facts(vec![
        Fact {
            label: "Sealed".into(),
            value: seal.at.to_string(),
        },
        Fact {
            label: "By".into(),
            value: scored.parts.examiner.name.clone(),
        },
    ]));
    blocks.push(Block::Code {
        label: "Digest (SHA-256)".to_owned(),
        groups: groups(&seal.digest),
    });
    match check_seal(scored.parts) {
        Ok(check) => blocks.extend(found(&check)),
        Err(error) => blocks.push(notice(Weight::Warn, error.to_string(), Vec::new())),
    }
    blocks.push(Block::Paragraph(PROVES.to_owned()));
    blocks
}

fn groups(digest: &str) -> Vec<String> {
    let mut groups: Vec<String> = Vec::new();
    for (at, letter) in digest.chars().enumerate() {
        match groups.last_mut() {
            Some(group) if at % GROUP != 0 => group.push(letter),
            _ => groups.push(letter.to_string()),
        }
    }
    groups
}

fn found(check: &SealCheck) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !check.intact {
        blocks.push(notice(
            Weight::Stop,
            "The records no longer give this digest: something was changed since sealing.",
            Vec::new(),
        ));
    }
    let changed: Vec<String> = check
        .personal
        .iter()
        .filter_map(|(label, text)| {
            let word = match text {
                PersonalText::Same => return None,
                PersonalText::Changed => "changed since sealing",
                PersonalText::Erased => "erased since sealing",
                PersonalText::Added => "added since sealing",
            };
            Some(format!("{}: {word}", label.replace('/', " on ")))
        })
        .collect();
    if !changed.is_empty() {
        let text = "These texts are not as they were sealed; the marks do not rest on them";
        blocks.push(notice(Weight::Info, text, changed));
    }
    blocks
}
