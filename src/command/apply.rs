use super::again::mark_again;
use super::agree::{agree, refuse_open};
use super::amend::amend;
use super::edit::edit;
use super::erase::{erase_learner, erase_text};
use super::error::CommandError;
use super::impression::first_look_rubric;
use super::many::{include, removal};
use super::release::{give_feedback, hold_back, release, take_back_feedback};
use super::start::start;
use super::{Change, Command, Made};
use super::{columns, instrument, learner, milestone, picture, rubrics, study, tickets};
use crate::records::{
    Deed, Ended, Examiner, ExaminerId, Kind, Ledger, Marking, MarkingId, Merge, Moment, PieceId,
    Record, RecordKey, SignedDigest, Stamp, seal,
};

/// What `command` does to `ledger`, written at `stamp`.
///
/// The same command and stamp always make the same ids, and a command that made
/// its record already gives an empty change with those ids. *Errors:*
/// [`CommandError`]; then nothing is to be written.
pub fn apply(ledger: &Ledger, command: Command, stamp: &Stamp) -> Result<Change, CommandError> {
    match command {
        Command::AddLearner { name, given_number } => {
            learner::add(ledger, &name, given_number, stamp)
        }
        Command::SetLearner {
            learner,
            before,
            after,
        } => learner::set(ledger, learner, *before, *after, stamp),
        Command::AddMilestone { learner, day, text } => {
            milestone::add(ledger, learner, day, &text, stamp)
        }
        Command::SetMilestone {
            milestone: id,
            before,
            after,
        } => milestone::set(ledger, id, &before, *after, stamp),
        Command::SetInstrument { id, before, after } => {
            instrument::set(ledger, &id, before.map(|before| *before), *after, stamp)
        }
        Command::BeginStudy { facts } => study::begin(ledger, *facts, stamp),
        Command::SetStudy {
            study,
            before,
            after,
        } => study::set(ledger, study, &before, *after, stamp),
        Command::SetStudyAside { study, set_aside } => {
            study::set_aside(ledger, study, set_aside, stamp)
        }
        Command::SetColumns {
            layout,
            columns: wanted,
        } => columns::set(ledger, layout, wanted, stamp),
        Command::AddExaminer { name } => add_examiner(ledger, &name, stamp),
        Command::StartPiece(what) => start(ledger, *what, stamp),
        Command::IssueTickets(what) => tickets::issue(ledger, &what, stamp),
        Command::LinkTicket { piece, learner } => tickets::link(ledger, piece, learner, stamp),
        Command::MarkAgain(what) => mark_again(ledger, *what, stamp),
        Command::Agree(what) => agree(ledger, *what, stamp),
        Command::SetEnded { piece, ended } => set_ended(ledger, piece, ended, stamp),
        Command::Edit {
            marking,
            edit: what,
        } => {
            let old = draft(ledger, marking)?;
            let mut new = old.clone();
            edit(&mut new, *what, &|| first_look_rubric(ledger, old))?;
            Ok(replace(old, new, stamp))
        }
        Command::Seal {
            marking,
            seed,
            at,
            signature,
        } => seal_draft(ledger, marking, &seed, at, signature, stamp),
        Command::Amend(what) => amend(ledger, *what, stamp),
        Command::EraseText { marking, at } => erase_text(ledger, marking, at, stamp),
        Command::EraseLearner { learner, at } => erase_learner(ledger, learner, at, stamp),
        Command::TakeOver { bundle, leave } => Ok(Merge::of(ledger, &bundle, &leave).change),
        Command::DeleteDraft { marking } => delete_draft(ledger, marking),
        Command::DraftRubric { text } => Ok(rubrics::begin(ledger, text, stamp)),
        Command::WriteRubric { draft, text } => rubrics::write(ledger, draft, text, stamp),
        Command::DropRubricDraft { draft } => rubrics::drop_draft(ledger, draft),
        Command::KeepRubric { rubric, draft } => rubrics::keep(ledger, *rubric, draft, stamp),
        Command::RemoveRubric { digest } => rubrics::remove(ledger, &digest),
        Command::KeepPicture { bytes } => picture::keep(ledger, bytes, stamp),
        Command::DropUnusedPictures => Ok(picture::drop_unused(ledger)),
        Command::Include { records } => Ok(include(ledger, records)),
        Command::RemoveMadeBy { device } => Ok(Change {
            deletes: removal(ledger, &device).goes,
            ..Change::default()
        }),
        Command::Release { sitting, by, at } => release(ledger, sitting, Deed { at, by }, stamp),
        Command::HoldBack { sitting, by, at } => hold_back(ledger, sitting, Deed { at, by }, stamp),
        Command::GiveFeedback { piece, by, at } => {
            give_feedback(ledger, piece, Deed { at, by }, stamp)
        }
        Command::TakeBackFeedback { piece } => take_back_feedback(ledger, piece, stamp),
    }
}

/// `name` without needless spaces.
///
/// *Errors:* [`CommandError::NoName`] where nothing is left.
pub(super) fn tidy(name: &str, what: &'static str) -> Result<String, CommandError> {
    let words: Vec<_> = name.split_whitespace().collect();
    if words.is_empty() {
        return Err(CommandError::NoName { what });
    }
    Ok(words.join(" "))
}

/// Whether people would take two tidy names for one.
pub(super) fn same_name(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

pub(super) fn missing(kind: Kind, id: impl ToString) -> CommandError {
    CommandError::Missing {
        key: RecordKey::new(kind, id),
    }
}

fn add_examiner(ledger: &Ledger, name: &str, stamp: &Stamp) -> Result<Change, CommandError> {
    let id = ExaminerId::made_by(stamp, 1);
    let mut change = Change {
        made: Made {
            examiner: Some(id),
            ..Made::default()
        },
        ..Change::default()
    };
    if ledger.examiner(id).is_none() {
        let name = tidy(name, "the examiner")?;
        if ledger
            .examiners()
            .any(|examiner| same_name(&examiner.name, &name))
        {
            return Err(CommandError::NameTaken { name });
        }
        let stamp = stamp.clone();
        change.puts.push(Examiner::named(id, stamp, name).into());
    }
    Ok(change)
}

fn set_ended(
    ledger: &Ledger,
    id: PieceId,
    ended: Option<Ended>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.piece(id).ok_or_else(|| missing(Kind::Piece, id))?;
    for marking in ledger.markings_of(id) {
        refuse_sealed(marking)?;
    }
    if old.ended == ended {
        return Ok(Change::default());
    }
    let mut new = old.clone();
    new.ended = ended;
    new.stamp = stamp.after(&old.stamp);
    let markings = ledger.markings_of(id);
    Ok(Change {
        // None of them may be sealed meanwhile.
        relies_on: markings
            .map(|marking| RecordKey::new(Kind::Marking, marking.id))
            .collect(),
        ..put(new)
    })
}

fn seal_draft(
    ledger: &Ledger,
    id: MarkingId,
    seed: &[u8; 32],
    at: Moment,
    signed: Option<Box<SignedDigest>>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = draft(ledger, id)?;
    let piece = RecordKey::new(Kind::Piece, old.piece);
    let Some(parts) = ledger.seal_parts(old) else {
        return Err(first_missing(ledger, old));
    };
    refuse_open(ledger, old)?;
    let relies_on = [
        piece,
        RecordKey::new(Kind::Sitting, parts.sitting.id),
        RecordKey::new(Kind::Rubric, &parts.rubric.digest),
        RecordKey::new(Kind::Examiner, parts.examiner.id),
    ];
    let learner = parts
        .learner
        .map(|learner| RecordKey::new(Kind::Learner, learner.id));
    let sources = old.agreement.iter();
    let sources = sources.flat_map(|agreement| &agreement.from);
    let sources = sources.map(|from| RecordKey::new(Kind::Marking, from.marking));
    let mut new = old.clone();
    let made = seal(parts, seed, at)?;
    new.signature = signed
        .filter(|signed| signed.digest == made.digest)
        .map(|signed| signed.signature);
    new.seal = Some(made);
    Ok(Change {
        relies_on: relies_on
            .into_iter()
            .chain(learner)
            .chain(sources)
            .collect(),
        ..replace(old, new, stamp)
    })
}

fn first_missing(ledger: &Ledger, marking: &Marking) -> CommandError {
    let Some(piece) = ledger.piece(marking.piece) else {
        return missing(Kind::Piece, marking.piece);
    };
    if ledger.sitting(piece.sitting).is_none() {
        return missing(Kind::Sitting, piece.sitting);
    }
    if ledger.rubric(&marking.rubric).is_none() {
        return missing(Kind::Rubric, &marking.rubric);
    }
    missing(Kind::Examiner, marking.examiner)
}

fn delete_draft(ledger: &Ledger, id: MarkingId) -> Result<Change, CommandError> {
    let marking = draft(ledger, id)?;
    let mut deletes = vec![RecordKey::new(Kind::Marking, id)];
    let alone = ledger
        .markings_of(marking.piece)
        .all(|other| other.id == id);
    if alone && ledger.piece(marking.piece).is_some() {
        deletes.push(RecordKey::new(Kind::Piece, marking.piece));
    }
    Ok(Change {
        deletes,
        ..Change::default()
    })
}

/// The marking `id`, which must be a draft.
fn draft(ledger: &Ledger, id: MarkingId) -> Result<&Marking, CommandError> {
    let marking = ledger
        .marking(id)
        .ok_or_else(|| missing(Kind::Marking, id))?;
    refuse_sealed(marking)?;
    Ok(marking)
}

pub(super) fn refuse_sealed(marking: &Marking) -> Result<(), CommandError> {
    match &marking.seal {
        Some(seal) => Err(CommandError::Sealed { at: seal.at }),
        None => Ok(()),
    }
}

fn replace(old: &Marking, mut new: Marking, stamp: &Stamp) -> Change {
    if new == *old {
        return Change::default();
    }
    new.stamp = stamp.after(&old.stamp);
    put(new)
}

pub(super) fn put(record: impl Into<Record>) -> Change {
    Change {
        puts: vec![record.into()],
        ..Change::default()
    }
}
