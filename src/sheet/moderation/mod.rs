//! Whether examiners mark alike, as a document: what was marked by several of them, how far
//! they lie apart and on what, what to do about it.

mod criteria;
mod day;
mod naming;
mod needs;
mod pairs;
mod pieces;
mod rewrite;
mod short;
mod strictness;
mod totals;
mod words;

use super::document::{Block, Document, Fact, Weight};
use super::scored::notice;
use crate::moderation::{Agreement, Gathered, LEAST};
use crate::quantity::counted;
use crate::records::{Ledger, RubricVersion};
use naming::Naming;
use serde::{Deserialize, Serialize};

/// What a document about agreement is made of.
#[derive(Debug)]
pub struct Moderated<'a> {
    /// The ledger that the pieces are in.
    pub ledger: &'a Ledger,
    /// The version of the rubric that is told about.
    pub version: &'a RubricVersion,
    /// The markings.
    pub gathered: &'a Gathered<'a>,
    /// What they come to.
    pub agreement: &'a Agreement,
    /// Letters stand for examiners, and numbers alone for pieces.
    pub hides_names: bool,
    /// A day to plan.
    pub day: DayAsked,
}

/// A day on which examiners are to mark the same pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DayAsked {
    /// How many examiners come.
    pub examiners: usize,
    /// How many pieces lie ready.
    pub pieces: usize,
    /// By how many of the examiners each piece is marked.
    pub each: usize,
}

/// What enters, on top of every such document.
const ENTERS: &str = "Only what examiners gave apart enters: the first sealed marking of each, \
    before any correction, and none of a piece of which a marking is still open. A maker’s own \
    marking and what examiners agreed on afterwards do not. Whether somebody had seen another’s \
    sheet before they began theirs is not on record: from then on this program shows it to \
    nobody.";

/// All that is known of how well examiners agree who mark by one version of a rubric.
pub fn agreement_document(moderated: &Moderated<'_>) -> Document {
    let Moderated {
        ledger,
        version,
        gathered,
        agreement,
        hides_names,
        day,
    } = *moderated;
    let naming = Naming::of(ledger, gathered, hides_names);
    let mut blocks = vec![
        Block::Facts(facts(moderated, &naming)),
        Block::Paragraph(ENTERS.to_owned()),
    ];
    blocks.extend(held(ledger, gathered));
    if gathered.twice.is_empty() {
        blocks.push(notice(Weight::Info, NOTHING, vec![HOW_TO.to_owned()]));
    } else {
        if gathered.twice.len() < LEAST {
            blocks.push(notice(
                Weight::Info,
                few_words(gathered.twice.len()),
                Vec::new(),
            ));
        }
        blocks.extend(short::blocks(agreement, &naming));
        blocks.extend(pieces::blocks(gathered, &naming));
        blocks.extend(totals::blocks(&agreement.totals, &naming));
        blocks.extend(criteria::blocks(&agreement.criteria, &naming));
        blocks.extend(strictness::blocks(agreement, &naming));
        blocks.extend(rewrite::blocks(&agreement.descriptors));
        blocks.extend(needs::blocks(&agreement.needs));
    }
    blocks.extend(day::blocks(gathered, agreement, &naming, day));
    Document {
        title: version.title.clone(),
        about: format!("Agreement between examiners, version {}", version.version),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

const NOTHING: &str = "No piece was marked by two examiners apart yet, in these days and by this \
    version of the rubric.";
const HOW_TO: &str = "Let a second examiner mark a piece: from its sheet choose “Mark as a second \
    examiner”, or name both when the piece is begun. Neither sees what the other gave before \
    both have sealed.";

fn few_words(count: usize) -> String {
    let pieces = counted(count, "piece was", "pieces were");
    format!(
        "{pieces} marked by two examiners. What each gave is shown; nothing is claimed from fewer \
         than {LEAST}."
    )
}

fn facts(moderated: &Moderated<'_>, naming: &Naming) -> Vec<Fact> {
    let gathered = moderated.gathered;
    let fact = |label: &'static str, value: String| Fact {
        label: label.into(),
        value,
    };
    let version = moderated.version;
    let markings = gathered.twice.iter().map(|seen| seen.by.len()).sum();
    let examiners = gathered.examiners.iter().map(|one| naming.examiner(*one));
    let mut facts = vec![
        fact(
            "Rubric",
            format!("{}, version {}", version.rubric_id, version.version),
        ),
        fact(
            "Marked by two examiners or more",
            format!(
                "{}, {}",
                counted(gathered.twice.len(), "piece", "pieces"),
                counted(markings, "marking", "markings")
            ),
        ),
        fact("Examiners", examiners.collect::<Vec<_>>().join(", ")),
    ];
    let days = gathered.twice.first().zip(gathered.twice.last());
    facts.extend(days.map(|(first, last)| {
        let value = if first.day == last.day {
            first.day.to_string()
        } else {
            format!("{} to {}", first.day, last.day)
        };
        fact("Made", value)
    }));
    facts.retain(|fact| !fact.value.is_empty());
    facts
}

/// That learners may not see all of this yet.
fn held(ledger: &Ledger, gathered: &Gathered<'_>) -> Option<Block> {
    let sitting = |seen: &&crate::moderation::Seen<'_>| {
        let sitting = ledger.sitting(seen.piece.sitting);
        sitting.is_none_or(|sitting| sitting.is_held())
    };
    let count = gathered.twice.iter().filter(sitting).count();
    (count > 0).then(|| {
        let pieces = counted(count, "piece", "pieces");
        let text = format!("The marks of {pieces} are not released yet: keep this from learners.");
        notice(Weight::Warn, text, Vec::new())
    })
}

/// What stands under a figure: how it comes about.
fn how(text: &str) -> Block {
    Block::Paragraph(format!("How this is worked out: {text}"))
}
