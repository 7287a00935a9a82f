use super::apply::missing;
use super::error::CommandError;
use super::start::{Begun, Ordinals, find_examiner, made_already, made_of};
use super::{Agree, Change};
use crate::records::{
    Agreement, Kind, Ledger, MadeFrom, Marking, MarkingId, PieceId, RecordKey, Role, Stamp,
};
use crate::rubric::{Rubric, read_rubric};

/// Makes the draft of the agreed marking from what examiners have sealed of a piece.
pub(super) fn agree(ledger: &Ledger, what: Agree, stamp: &Stamp) -> Result<Change, CommandError> {
    let id = MarkingId::made_by(stamp, Ordinals::FIRST.marking);
    if let Some(change) = made_already(ledger, id) {
        return Ok(change);
    }
    let piece = ledger
        .piece(what.piece)
        .ok_or_else(|| missing(Kind::Piece, what.piece))?;
    let rubric = rubric_of(ledger, &piece.rubric)?;
    let sources = ledger.examiners_markings(piece.id);
    if let Some(why) = refused(ledger, piece.id, &sources, &rubric) {
        return Err(CommandError::RoleRefused {
            role: Role::Agreed,
            why,
        });
    }
    let from = sources.iter().filter_map(|source| {
        Some(MadeFrom {
            marking: source.id,
            digest: source.seal.as_ref()?.digest.clone(),
        })
    });
    let named = sources
        .iter()
        .map(|source| RecordKey::new(Kind::Marking, source.id));
    let mut change = Change {
        relies_on: [
            RecordKey::new(Kind::Piece, piece.id),
            RecordKey::new(Kind::Rubric, &piece.rubric),
        ]
        .into_iter()
        .chain(named)
        .collect(),
        ..Change::default()
    };
    let examiner = find_examiner(ledger, &what.examiner, stamp, Ordinals::FIRST, &mut change)?;
    let begun = Begun {
        piece: piece.id,
        sitting: piece.sitting,
        role: Role::Agreed,
        examiner,
        rubric: piece.rubric.clone(),
        unit: sources.first().map_or(rubric.unit, |source| source.unit),
        at: what.at,
    };
    let marking = Marking {
        agreement: Some(Agreement {
            from: from.collect(),
            settled: Default::default(),
        }),
        ..begun.marking(ledger, stamp, Ordinals::FIRST)
    };
    change.puts.push(marking.into());
    change.made = made_of(piece, examiner, id);
    Ok(change)
}

/// Why examiners cannot agree on `piece` now.
fn refused(
    ledger: &Ledger,
    piece: PieceId,
    sources: &[&Marking],
    rubric: &Rubric,
) -> Option<&'static str> {
    let mut all = ledger.markings_of(piece);
    let drafts = ledger.standing(piece);
    if drafts.drafts().iter().any(|draft| draft.role.is_blind()) {
        return Some("a marking of it is still open; seal that one first, or throw it away");
    }
    let is_of_these = |marking: &Marking| {
        let from = marking.agreement.as_ref().map(|agreement| &agreement.from);
        from.is_some_and(|from| {
            sources.len() == from.len()
                && sources
                    .iter()
                    .all(|source| from.iter().any(|one| one.marking == source.id))
        })
    };
    if sources.len() < 2 {
        return Some(
            "it is made from two examiners’ sealed markings or more; have it marked again",
        );
    }
    if all.any(is_of_these) {
        return Some("it has one already; open that one");
    }
    if ledger.asks_third(sources, rubric) {
        return Some("the two awards differ, and the rubric asks for a third examiner then");
    }
    None
}

/// Whether an agreed marking may be sealed: people have settled what they have to.
///
/// *Errors:* [`CommandError::NotSettled`], [`CommandError::Missing`].
pub(super) fn refuse_open(ledger: &Ledger, marking: &Marking) -> Result<(), CommandError> {
    let Some(agreement) = &marking.agreement else {
        return Ok(());
    };
    let rubric = rubric_of(ledger, &marking.rubric)?;
    let Some(agreed) = ledger.agreed(marking, &rubric) else {
        let first = agreement.from.first().map(|from| from.marking);
        return Err(missing(Kind::Marking, first.unwrap_or(marking.id)));
    };
    match agreed.open().count() {
        0 => Ok(()),
        count => Err(CommandError::NotSettled { count }),
    }
}

fn rubric_of(ledger: &Ledger, digest: &str) -> Result<Rubric, CommandError> {
    let version = ledger.rubric(digest);
    version
        .and_then(|version| read_rubric(&version.text).rubric)
        .ok_or_else(|| missing(Kind::Rubric, digest))
}
