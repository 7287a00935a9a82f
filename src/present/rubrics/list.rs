use std::collections::{BTreeMap, BTreeSet};

use super::super::dates::when_clock;
use super::super::makers::{maker_name, piece_words};
use super::super::offers::{Offer, entry_ids, offer_words};
use super::super::pieces::last_written;
use super::super::scored::sheet_marking;
use super::super::scores::Rubrics;
use crate::command::RubricText;
use crate::quantity::counted;
use crate::records::{Ledger, Moment, PieceId, RubricDraftId, RubricVersion};
use crate::rubric::edit::{Outline, Path};

/// Every rubric there is.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RubricList {
    /// Rubrics in work, the latest begun first.
    pub drafts: Vec<DraftRow>,
    /// Own ones in their newest version.
    pub own: Vec<RubricRow>,
    /// Those that come with the program.
    pub shipped: Vec<RubricRow>,
}

/// One rubric in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RubricRow {
    /// Its digest, for its address.
    pub digest: String,
    /// Title.
    pub title: String,
    /// What it comes to, and its version.
    pub about: String,
    /// Who uses it.
    pub now: String,
}

/// One rubric in work in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DraftRow {
    /// Which.
    pub id: RubricDraftId,
    /// Title as far as it has one.
    pub title: String,
    /// Id, version and when it was written.
    pub about: String,
}

/// The rubrics of `ledger` and those that ship.
pub fn rubric_list(
    ledger: &Ledger,
    rubrics: &Rubrics,
    shipped: &[Offer],
    now: Moment,
) -> RubricList {
    let row = |offer: &Offer| RubricRow {
        digest: offer.key().to_owned(),
        title: offer.rubric.title.clone(),
        about: format!("version {}, {}", offer.rubric.version, offer.about),
        now: uses_words(ledger, &[offer.key()]),
    };
    RubricList {
        drafts: ledger
            .rubric_drafts()
            .map(|draft| DraftRow {
                id: draft.id,
                title: title_of(&draft.text),
                about: format!(
                    "written {}",
                    when_clock(last_written(&draft.stamp, now), now)
                ),
            })
            .collect(),
        own: own_offers(ledger, rubrics, shipped)
            .iter()
            .map(row)
            .collect(),
        shipped: shipped.iter().map(row).collect(),
    }
}

/// The newest kept version of each own rubric that can be read, by title.
pub fn own_offers(ledger: &Ledger, rubrics: &Rubrics, shipped: &[Offer]) -> Vec<Offer> {
    let of_shipped: BTreeSet<&str> = shipped
        .iter()
        .map(|offer| offer.rubric.rubric_id.as_str())
        .collect();
    let mut newest: BTreeMap<&str, &RubricVersion> = BTreeMap::new();
    for version in ledger.rubrics() {
        if of_shipped.contains(version.rubric_id.as_str()) {
            continue;
        }
        let kept = newest.entry(&version.rubric_id).or_insert(version);
        if kept.stamp < version.stamp {
            *kept = version;
        }
    }
    let mut offers: Vec<Offer> = newest
        .into_values()
        .filter_map(|version| {
            let rubric = rubrics.get(version)?;
            Some(Offer {
                about: offer_words(&rubric),
                entries: entry_ids(&rubric),
                rubric: rubric_text(version),
            })
        })
        .collect();
    offers.sort_by(|one, other| one.rubric.title.cmp(&other.rubric.title));
    offers
}

/// A kept rubric as commands take it.
fn rubric_text(version: &RubricVersion) -> RubricText {
    RubricText {
        digest: version.digest.clone(),
        rubric_id: version.rubric_id.clone(),
        version: version.version.clone(),
        title: version.title.clone(),
        text: version.text.clone(),
    }
}

/// The text that an address names: a kept or shipped rubric by its digest, one in work
/// by its id.
pub fn text_of(ledger: &Ledger, shipped: &[Offer], key: &str) -> Option<String> {
    if let Ok(id) = key.parse::<RubricDraftId>() {
        return ledger.rubric_draft(id).map(|draft| draft.text.clone());
    }
    let kept = ledger.rubric(key).map(|version| version.text.clone());
    kept.or_else(|| {
        let offer = shipped.iter().find(|offer| offer.key() == key)?;
        Some(offer.rubric.text.clone())
    })
}

/// Who uses the rubrics with these digests.
pub(super) fn uses_words(ledger: &Ledger, digests: &[&str]) -> String {
    let is_used = |rubric: &String| digests.contains(&rubric.as_str());
    let marked: BTreeSet<PieceId> = ledger
        .markings()
        .filter(|marking| is_used(&marking.rubric))
        .map(|marking| marking.piece)
        .collect();
    let pieces: Vec<_> = ledger
        .pieces()
        .filter(|piece| is_used(&piece.rubric) || marked.contains(&piece.id))
        .collect();
    let learners: BTreeSet<_> = pieces.iter().filter_map(|piece| piece.learner).collect();
    match (pieces.len(), learners.len()) {
        (0, _) => "no piece yet".to_owned(),
        (pieces, 0) => counted(pieces, "piece", "pieces"),
        (pieces, learners) => format!(
            "{} of {}",
            counted(pieces, "piece", "pieces"),
            counted(learners, "learner", "learners")
        ),
    }
}

/// The title that a text has, however far it is from a rubric.
pub(super) fn title_of(text: &str) -> String {
    let outline = Outline::of(text).ok();
    let title = outline.and_then(|outline| outline.text(&Path::root().key("title")));
    title
        .map(|title| title.trim().to_owned())
        .filter(|title| !title.is_empty())
        .unwrap_or_else(|| "Rubric without a title".to_owned())
}

/// An old piece that a rubric can be tried on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TryRow {
    /// The rubric, as its address names it.
    pub rubric: String,
    /// The piece.
    pub piece: PieceId,
    /// Whose it is.
    pub title: String,
    /// What it was made to.
    pub about: String,
}

/// Pieces that are offered to try a rubric on.
const MOST_TRIES: usize = 20;

/// The latest pieces with a marking that the rubric called `key` can be tried on.
pub fn try_rows(ledger: &Ledger, key: &str) -> Vec<TryRow> {
    let marked = ledger
        .pieces()
        .filter(|piece| sheet_marking(ledger, piece).is_some());
    marked
        .take(MOST_TRIES)
        .map(|piece| TryRow {
            rubric: key.to_owned(),
            piece: piece.id,
            title: maker_name(ledger, piece),
            about: piece_words(ledger, piece),
        })
        .collect()
}
