//! Marks that are handed over: released to the learners of a sitting, explained to one.

use super::apply::{missing, put};
use super::{Change, CommandError};
use crate::records::{
    Deed, ExaminerId, Kind, Ledger, PieceId, RecordKey, Release, Role, Sitting, SittingId, Stamp,
    Whom,
};

/// Releases what examiners gave in a sitting.
pub(super) fn release(
    ledger: &Ledger,
    id: SittingId,
    done: Deed,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let (old, examiner) = waiting(ledger, id, done.by)?;
    if old.release().is_some() {
        return Ok(Change::default());
    }
    let pieces = ledger.pieces().filter(|piece| piece.sitting == id);
    let markings = pieces.flat_map(|piece| ledger.markings_of(piece.id));
    let (sealed, open): (Vec<_>, Vec<_>) = markings.partition(|marking| marking.seal.is_some());
    let open = open
        .iter()
        .filter(|marking| marking.role.is_blind())
        .count();
    if open > 0 {
        return Err(CommandError::StillOpen { count: open });
    }
    // What makers gave is held back from nobody.
    if sealed.iter().all(|marking| marking.role == Role::Own) {
        return Err(CommandError::NothingSealed);
    }
    let Deed { at, by } = done;
    let released = Release {
        at,
        by,
        held_back: None,
    };
    Ok(write(old, Some(released), examiner, stamp))
}

/// Takes the release of a sitting back.
pub(super) fn hold_back(
    ledger: &Ledger,
    id: SittingId,
    done: Deed,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let (old, examiner) = waiting(ledger, id, done.by)?;
    let Some(release) = old.release() else {
        return Ok(Change::default());
    };
    let released = Release {
        held_back: Some(done),
        ..*release
    };
    Ok(write(old, Some(released), examiner, stamp))
}

/// Notes that the learner of a piece was told what to make of its marks.
pub(super) fn give_feedback(
    ledger: &Ledger,
    id: PieceId,
    done: Deed,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.piece(id).ok_or_else(|| missing(Kind::Piece, id))?;
    let examiner = known(ledger, done.by)?;
    if old.feedback.is_some() {
        return Ok(Change::default());
    }
    let standing = ledger.standing_for(id, Whom::Learner);
    if standing.is_held() {
        return Err(CommandError::Held);
    }
    if standing.counts().is_none() {
        return Err(CommandError::NothingToTell);
    }
    let mut new = old.clone();
    new.feedback = Some(done);
    new.stamp = stamp.after(&old.stamp);
    Ok(Change {
        // It must not be held back meanwhile.
        relies_on: vec![examiner, RecordKey::new(Kind::Sitting, old.sitting)],
        ..put(new)
    })
}

/// Takes that back, where it was noted by mistake.
pub(super) fn take_back_feedback(
    ledger: &Ledger,
    id: PieceId,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.piece(id).ok_or_else(|| missing(Kind::Piece, id))?;
    if old.feedback.is_none() {
        return Ok(Change::default());
    }
    let mut new = old.clone();
    new.feedback = None;
    new.stamp = stamp.after(&old.stamp);
    Ok(put(new))
}

/// The sitting `id`, whose marks wait for a release, and the key of whoever decides on it.
fn waiting(
    ledger: &Ledger,
    id: SittingId,
    by: ExaminerId,
) -> Result<(&Sitting, RecordKey), CommandError> {
    let sitting = ledger
        .sitting(id)
        .ok_or_else(|| missing(Kind::Sitting, id))?;
    if sitting.kind.waits() {
        Ok((sitting, known(ledger, by)?))
    } else {
        Err(CommandError::NeedsNoRelease { kind: sitting.kind })
    }
}

/// The key of the examiner `id`, who has to be here.
fn known(ledger: &Ledger, id: ExaminerId) -> Result<RecordKey, CommandError> {
    match ledger.examiner(id) {
        Some(_) => Ok(RecordKey::new(Kind::Examiner, id)),
        None => Err(missing(Kind::Examiner, id)),
    }
}

fn write(old: &Sitting, released: Option<Release>, examiner: RecordKey, stamp: &Stamp) -> Change {
    let mut new = old.clone();
    new.released = released;
    new.stamp = stamp.after(&old.stamp);
    Change {
        relies_on: vec![examiner],
        ..put(new)
    }
}
