//! Rubrics in work, and those that are kept.

use super::apply::{missing, put};
use super::error::CommandError;
use super::start::keep_rubric;
use super::{Change, RubricText};
use crate::records::{Kind, Ledger, RecordKey, RubricDraft, RubricDraftId, Stamp};
use crate::rubric::is_shipped;

pub(super) fn begin(ledger: &Ledger, text: String, stamp: &Stamp) -> Change {
    let id = RubricDraftId::made_by(stamp, 5);
    let stamp = stamp.clone();
    let mut change = match ledger.rubric_draft(id) {
        Some(_) => Change::default(),
        None => put(RubricDraft { id, stamp, text }),
    };
    change.made.rubric_draft = Some(id);
    change
}

pub(super) fn write(
    ledger: &Ledger,
    id: RubricDraftId,
    text: String,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = draft(ledger, id)?;
    if old.text == text {
        return Ok(Change::default());
    }
    let stamp = stamp.after(&old.stamp);
    Ok(put(RubricDraft { id, stamp, text }))
}

pub(super) fn drop_draft(ledger: &Ledger, id: RubricDraftId) -> Result<Change, CommandError> {
    draft(ledger, id)?;
    Ok(Change {
        deletes: vec![RecordKey::new(Kind::RubricDraft, id)],
        ..Change::default()
    })
}

/// One id and version is one text for good, so that a version on a sheet says enough.
pub(super) fn keep(
    ledger: &Ledger,
    rubric: RubricText,
    from: Option<RubricDraftId>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    if is_shipped(&rubric.rubric_id) {
        let RubricText { rubric_id, .. } = rubric;
        return Err(CommandError::IdOfShipped { rubric_id });
    }
    let is_taken = ledger.rubrics().any(|kept| {
        kept.rubric_id == rubric.rubric_id
            && kept.version == rubric.version
            && kept.digest != rubric.digest
    });
    if is_taken {
        let RubricText {
            rubric_id, version, ..
        } = rubric;
        return Err(CommandError::VersionTaken { rubric_id, version });
    }
    let mut change = Change::default();
    keep_rubric(ledger, rubric, stamp, &mut change)?;
    if let Some(from) = from {
        draft(ledger, from)?;
        change.deletes.push(RecordKey::new(Kind::RubricDraft, from));
    }
    Ok(change)
}

pub(super) fn remove(ledger: &Ledger, digest: &str) -> Result<Change, CommandError> {
    if ledger.rubric(digest).is_none() {
        return Err(missing(Kind::Rubric, digest));
    }
    let is_marked_by = ledger.markings().any(|marking| marking.rubric == digest);
    if is_marked_by || ledger.pieces_by(digest).next().is_some() {
        return Err(CommandError::RubricInUse);
    }
    Ok(Change {
        deletes: vec![RecordKey::new(Kind::Rubric, digest)],
        ..Change::default()
    })
}

fn draft(ledger: &Ledger, id: RubricDraftId) -> Result<&RubricDraft, CommandError> {
    ledger
        .rubric_draft(id)
        .ok_or_else(|| missing(Kind::RubricDraft, id))
}
