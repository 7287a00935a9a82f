//! What a saved file of a sealed marking says.

use std::collections::BTreeMap;

use super::award::{notices, verdict};
use super::criteria::{CRITERIA, criteria_table};
use super::document::{Block, Document};
use super::notes::comments;
use super::photos::photos;
use super::scored::{Scored, heading, who_and_when};
use super::seal::{altered_blocks, checked, digest_block, text_words};
use crate::records::PersonalText;

/// A sealed marking as its saved file has it, without a ledger: who, when, by what, and
/// marks and award worked out again from the sealed facts by the sealed rubric. `found` is
/// the digest of the file's document.
pub fn verified(scored: &Scored<'_>, found: &str) -> Document {
    let mut blocks = altered_blocks(&checked(scored), "This file");
    blocks.push(Block::Facts(who_and_when(scored)));
    blocks.push(Block::Verdict(verdict(scored)));
    blocks.extend(notices(scored));
    blocks.push(heading(CRITERIA));
    blocks.push(Block::Table(criteria_table(scored)));
    blocks.extend(comments(scored));
    blocks.extend(photos(scored));
    blocks.push(heading("Digest"));
    blocks.push(digest_block("Of this file (SHA-256)", found));
    let sealed = scored.parts.marking.seal.as_ref();
    let sealed = sealed.map_or_else(String::new, |seal| format!(", sealed {}", seal.at));
    Document {
        title: scored.rubric.title.clone(),
        about: format!("What the file says{sealed}. Marks are worked out again"),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

/// What became of each personal text since it was sealed, a line each.
pub fn text_lines(scored: &Scored<'_>, texts: &BTreeMap<String, PersonalText>) -> Vec<String> {
    let lines = texts.iter();
    lines
        .map(|(label, text)| text_words(scored, label, *text))
        .collect()
}
