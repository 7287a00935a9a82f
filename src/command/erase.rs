//! Erasing what is personal, for good: marks, salts and digests stay, so seals stand.

use super::apply::{missing, same_name};
use super::{Change, CommandError, milestone};
use crate::records::{
    Examiner, ExaminerId, Kind, Learner, LearnerId, Ledger, Marking, MarkingId, Moment,
    NAME_ERASED, Record, Role, Stamp, no_longer_named,
};

/// Takes comments, overall comment, photos and the typist's name out of a sealed marking.
/// Pictures that nothing else names go.
pub(super) fn erase_text(
    ledger: &Ledger,
    id: MarkingId,
    at: Moment,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger
        .marking(id)
        .ok_or_else(|| missing(Kind::Marking, id))?;
    if old.seal.is_none() {
        return Err(CommandError::EraseDraft);
    }
    let puts = without_text(old, at, stamp).map(Record::from);
    Ok(with_pictures(ledger, puts.into_iter().collect()))
}

/// Takes out all that says who a learner is: name and details, milestones, the name as a
/// marker of own pieces, what was written and photographed at every piece, and the name where
/// it stands for somebody in an instrument study.
///
/// *Errors:* [`CommandError::EraseWithDrafts`], as what is in work would be half erased.
pub(super) fn erase_learner(
    ledger: &Ledger,
    id: LearnerId,
    at: Moment,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger
        .learner(id)
        .ok_or_else(|| missing(Kind::Learner, id))?;
    let pieces = ledger.pieces_of(id);
    let markings: Vec<&Marking> = pieces
        .flat_map(|piece| ledger.markings_of(piece.id))
        .collect();
    let drafts = markings.iter().filter(|marking| marking.seal.is_none());
    match drafts.count() {
        0 => {}
        count => return Err(CommandError::EraseWithDrafts { count }),
    }
    let mut puts: Vec<Record> = Vec::new();
    if old.erased.is_none() {
        let is_called = |name: &str| same_name(name, &old.name);
        let studies = ledger
            .studies()
            .filter_map(|study| study.without_name(is_called, stamp.after(&study.stamp), at));
        puts.extend(studies.map(Record::from));
        puts.push(old.nameless(stamp.after(&old.stamp), at).into());
    }
    // One that is left over from before went with the learner.
    let gone = old.erased.unwrap_or(at);
    puts.extend(milestone::erased(ledger, id, gone, stamp));
    let makers = makers_only(ledger, old);
    puts.extend(makers.map(|maker| Record::from(nameless(maker, at, stamp))));
    let texts = markings.iter();
    let texts = texts.filter_map(|marking| without_text(marking, at, stamp));
    puts.extend(texts.map(Record::from));
    Ok(with_pictures(ledger, puts))
}

/// The marking without what was written in it; `None` where nothing was.
fn without_text(old: &Marking, at: Moment, stamp: &Stamp) -> Option<Marking> {
    let has_any = !old.comments.is_empty()
        || old.overall.is_some()
        || old.typist.is_some()
        || !old.photos.is_empty();
    has_any.then(|| Marking {
        comments: Default::default(),
        overall: None,
        typist: None,
        photos: Vec::new(),
        erased: Some(at),
        stamp: stamp.after(&old.stamp),
        ..old.clone()
    })
}

fn with_pictures(ledger: &Ledger, puts: Vec<Record>) -> Change {
    let change = Change {
        puts,
        ..Change::default()
    };
    Change {
        deletes: no_longer_named(ledger, &ledger.with(&change)),
        ..change
    }
}

/// Those who are in the ledger for no more than marking this learner's pieces as their
/// maker: own markings name their marker, who is the learner again.
fn makers_only<'a>(ledger: &'a Ledger, learner: &Learner) -> impl Iterator<Item = &'a Examiner> {
    let is_own = |marking: &&Marking| {
        let piece = ledger.piece(marking.piece);
        let made = piece.and_then(|piece| piece.learner) == Some(learner.id);
        made && marking.role == Role::Own
    };
    let (own, other): (Vec<_>, Vec<_>) = ledger.markings().partition(is_own);
    let of = |markings: Vec<&Marking>| -> Vec<ExaminerId> {
        markings.iter().map(|marking| marking.examiner).collect()
    };
    let (own, mut kept) = (of(own), of(other));
    kept.extend(ledger.pieces().filter_map(|piece| Some(piece.feedback?.by)));
    let released = ledger.sittings().filter_map(|one| one.released.as_ref());
    kept.extend(released.flat_map(|one| {
        let held_back = one.held_back.map(|deed| deed.by);
        std::iter::once(one.by).chain(held_back)
    }));
    let examiners = ledger.examiners();
    examiners
        .filter(move |one| one.erased.is_none() && own.contains(&one.id) && !kept.contains(&one.id))
}

fn nameless(old: &Examiner, at: Moment, stamp: &Stamp) -> Examiner {
    Examiner {
        id: old.id,
        stamp: stamp.after(&old.stamp),
        name: NAME_ERASED.to_owned(),
        erased: Some(at),
    }
}
