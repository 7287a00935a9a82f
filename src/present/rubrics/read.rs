use super::super::dates::when_clock;
use super::super::offers::Offer;
use super::super::pieces::last_written;
use super::list::{text_of, uses_words};
use crate::records::{Ledger, Moment, RubricVersion, Unit};
use crate::rubric::{Severity, read_rubric};
use crate::sheet::{Document, rubric_document};

/// One rubric as it is read.
#[derive(Debug, Clone, PartialEq)]
pub struct RubricPage {
    /// What it says.
    pub document: Document,
    /// The file, for saving.
    pub text: String,
    /// What the file is called, without its ending.
    pub file_name: String,
    /// Title of the rubric.
    pub title: String,
    /// Whether it comes with the program.
    pub is_shipped: bool,
    /// Whether it may be removed: an own one that no piece was made to.
    pub is_free: bool,
    /// What a person should look at.
    pub warnings: Vec<String>,
    /// All versions of it, the newest first.
    pub versions: Vec<VersionRow>,
}

/// One version in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VersionRow {
    /// Its digest.
    pub digest: String,
    /// `version 2`.
    pub name: String,
    /// When it was kept, and who uses it.
    pub about: String,
    /// Whether it is the one that is read.
    pub is_here: bool,
    /// Digest of the version before it.
    pub before: Option<String>,
}

/// The rubric with this digest; `None` where there is none that can be read.
pub fn rubric_page(
    ledger: &Ledger,
    shipped: &[Offer],
    digest: &str,
    unit: Option<Unit>,
    now: Moment,
) -> Option<RubricPage> {
    let text = text_of(ledger, shipped, digest)?;
    let checked = read_rubric(&text);
    let rubric = checked.rubric?;
    let own = shipped.iter().find(|offer| offer.key() == digest);
    let warnings = checked
        .diagnostics
        .iter()
        .filter(|found| found.severity == Severity::Warning);
    Some(RubricPage {
        document: rubric_document(&rubric, unit.unwrap_or(rubric.unit)),
        file_name: format!("{}-{}", rubric.id, rubric.version),
        title: rubric.title.clone(),
        is_shipped: own.is_some(),
        is_free: own.is_none() && ledger.pieces_by(digest).next().is_none(),
        warnings: warnings.map(ToString::to_string).collect(),
        versions: versions(ledger, shipped, &rubric.id, digest, now),
        text,
    })
}

/// The shipped one, which has no date, counts as the newest.
fn versions(
    ledger: &Ledger,
    shipped: &[Offer],
    rubric_id: &str,
    here: &str,
    now: Moment,
) -> Vec<VersionRow> {
    let mut kept: Vec<&RubricVersion> = ledger
        .rubrics()
        .filter(|version| version.rubric_id == rubric_id)
        .filter(|version| shipped.iter().all(|offer| offer.key() != version.digest))
        .collect();
    kept.sort_by(|one, other| other.stamp.cmp(&one.stamp));
    let own = shipped
        .iter()
        .filter(|offer| offer.rubric.rubric_id == rubric_id);
    let own = own.map(|offer| {
        let (digest, version) = (offer.key(), &offer.rubric.version);
        (digest, version, "comes with Evenshod".to_owned())
    });
    let kept = kept.iter().map(|version| {
        let when = when_clock(last_written(&version.stamp, now), now);
        (
            version.digest.as_str(),
            &version.version,
            format!("kept {when}"),
        )
    });
    let all: Vec<_> = own.chain(kept).collect();
    let before = all
        .iter()
        .skip(1)
        .map(|(digest, ..)| Some((*digest).to_owned()));
    all.iter()
        .zip(before.chain([None]))
        .map(|((digest, version, since), before)| VersionRow {
            digest: (*digest).to_owned(),
            name: format!("version {version}"),
            about: format!("{since}; {}", uses_words(ledger, &[*digest])),
            is_here: *digest == here,
            before,
        })
        .collect()
}
