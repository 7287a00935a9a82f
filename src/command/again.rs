use super::apply::missing;
use super::error::CommandError;
use super::start::{
    Begun, Ordinals, find_examiner, keep_rubric, made_already, made_of, maker_name, marker_name,
};
use super::{Change, MarkAgain};
use crate::records::{ExaminerId, Kind, Ledger, MarkingId, Piece, RecordKey, Role, Stamp};

/// Finds or makes the examiner and the rubric version, and makes one more marking of a piece.
pub(super) fn mark_again(
    ledger: &Ledger,
    what: MarkAgain,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let id = MarkingId::made_by(stamp, Ordinals::FIRST.marking);
    if let Some(change) = made_already(ledger, id) {
        return Ok(change);
    }
    let piece = ledger
        .piece(what.piece)
        .ok_or_else(|| missing(Kind::Piece, what.piece))?;
    if ledger.rubric(&piece.rubric).is_none() {
        return Err(missing(Kind::Rubric, &piece.rubric));
    }
    let mut change = Change {
        relies_on: vec![
            RecordKey::new(Kind::Piece, piece.id),
            RecordKey::new(Kind::Rubric, &piece.rubric),
        ],
        ..Change::default()
    };
    let maker = maker_name(ledger, &change, piece.learner, piece.ticket.as_deref());
    let name = marker_name(what.role, what.examiner, &maker);
    let examiner = find_examiner(ledger, &name, stamp, Ordinals::FIRST, &mut change)?;
    refuse_role(ledger, piece, what.role, examiner)?;
    let other = what.rubric.filter(|other| other.digest != piece.rubric);
    let rubric = match other {
        None => piece.rubric.clone(),
        Some(other) if what.role == Role::Own => {
            keep_rubric(ledger, other, stamp, &mut change)?.digest
        }
        Some(_) => {
            return Err(CommandError::RoleRefused {
                role: what.role,
                why: "examiners mark by the rubric that the piece is made to; leave that one",
            });
        }
    };
    let begun = Begun {
        piece: piece.id,
        sitting: piece.sitting,
        role: what.role,
        examiner,
        rubric,
        unit: what.unit,
        at: what.at,
    };
    let marking = begun.ready(ledger, &change, stamp, Ordinals::FIRST);
    change.puts.push(marking.into());
    change.made = made_of(piece, examiner, id);
    Ok(change)
}

fn refuse_role(
    ledger: &Ledger,
    piece: &Piece,
    role: Role,
    examiner: ExaminerId,
) -> Result<(), CommandError> {
    let of = |role: Role| {
        ledger
            .markings_of(piece.id)
            .find(|marking| marking.role == role)
    };
    let has_marked = || {
        ledger
            .markings_of(piece.id)
            .any(|marking| marking.role.is_examiners() && marking.examiner == examiner)
    };
    let mut drafts = ledger.standing(piece.id).drafts().to_vec().into_iter();
    let why = match role {
        Role::Agreed | Role::Amended => {
            "it comes of markings that are sealed, and is not begun from the piece"
        }
        role if of(role).is_some() => "it has one already; open that one",
        _ if drafts.any(|draft| draft.role == Role::Agreed) => {
            "its examiners are agreeing on it now; seal the agreed marking, or throw it away"
        }
        Role::Own | Role::First => return Ok(()),
        Role::Second if of(Role::First).is_none() => {
            "nobody has marked it first; begin the first marking"
        }
        Role::Third if of(Role::Second).is_none() => {
            "nobody has marked it second; begin the second marking"
        }
        Role::Second | Role::Third if has_marked() => {
            "that examiner has marked it already; name another"
        }
        Role::Second | Role::Third => return Ok(()),
    };
    Err(CommandError::RoleRefused { role, why })
}
