use std::collections::{BTreeMap, BTreeSet};

use super::apply::{missing, same_name, tidy};
use super::error::CommandError;
use super::instrument::in_place_of_the_rubrics;
use super::{Change, Made, RubricText, StartPiece, Who};
use crate::marking::Facts;
use crate::records::{
    Day, Ended, Examiner, ExaminerId, Kind, Learner, LearnerId, Ledger, Marking, MarkingId, Moment,
    Piece, PieceId, Record, RecordKey, Role, RubricVersion, Sitting, SittingId, SittingKind, Stamp,
    Unit,
};

/// Finds or makes learner, examiner, sitting and rubric version, and makes the
/// piece and its first marking.
pub(super) fn start(
    ledger: &Ledger,
    what: StartPiece,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let id = PieceId::made_by(stamp, 3);
    let ids = [Ordinals::FIRST, Ordinals::BESIDE, Ordinals::SECOND]
        .map(|ordinals| MarkingId::made_by(stamp, ordinals.marking));
    let [first, ..] = ids;
    if let Some(change) = ids.into_iter().find_map(|id| made_already(ledger, id)) {
        return Ok(change);
    }
    let mut change = Change::default();
    let rubric = keep_rubric(ledger, what.rubric, stamp, &mut change)?;
    let own_rubric = match what.own.as_ref().and_then(|own| own.rubric.clone()) {
        Some(other) if other.digest != rubric.digest => {
            keep_rubric(ledger, other, stamp, &mut change)?.digest
        }
        _ => rubric.digest.clone(),
    };
    let sitting = find_sitting(ledger, what.sitting, what.day, stamp, &mut change);
    let (learner, ticket) = find_maker(ledger, what.who, sitting, stamp, &mut change)?;
    let maker = maker_name(ledger, &change, learner, ticket.as_deref());
    let name = marker_name(what.role, what.examiner, &maker);
    let examiner = find_examiner(ledger, &name, stamp, Ordinals::FIRST, &mut change)?;
    change.puts.push(
        Piece {
            id,
            stamp: stamp.clone(),
            learner,
            hidden_until_sealed: ticket.is_some(),
            ticket,
            sitting,
            attempt: learner.map_or(1, |learner| {
                next_attempt(ledger, learner, &rubric.digest, Some(&rubric.rubric_id))
            }),
            rubric: rubric.digest.clone(),
            ended: None,
            feedback: None,
        }
        .into(),
    );
    let begun = Begun {
        piece: id,
        sitting,
        role: what.role,
        examiner,
        rubric: rubric.digest,
        unit: what.unit,
        at: what.at,
    };
    if what.own.is_some() {
        if what.role == Role::Own {
            return Err(CommandError::RoleRefused {
                role: Role::Own,
                why: "it has one already; name the examiner of the other",
            });
        }
        let by = find_examiner(ledger, &maker, stamp, Ordinals::BESIDE, &mut change)?;
        let own = Begun {
            role: Role::Own,
            examiner: by,
            rubric: own_rubric,
            ..begun.clone()
        };
        let mut own = own.ready(ledger, &change, stamp, Ordinals::BESIDE);
        // One person who is both marks the piece twice.
        own.order = own.order.saturating_add(u32::from(by == examiner));
        change.puts.push(own.into());
    }
    if let Some(second) = what.second {
        let by = find_examiner(ledger, &second, stamp, Ordinals::SECOND, &mut change)?;
        if what.role != Role::First || by == examiner {
            return Err(CommandError::RoleRefused {
                role: Role::Second,
                why: "its first marking is by the same person; name another examiner",
            });
        }
        let second = Begun {
            role: Role::Second,
            examiner: by,
            ..begun.clone()
        };
        let marking = second.ready(ledger, &change, stamp, Ordinals::SECOND);
        change.puts.push(marking.into());
    }
    let marking = begun.ready(ledger, &change, stamp, Ordinals::FIRST);
    change.puts.push(marking.into());
    // Where this command was stored before and another tab has gone on from it,
    // what stands there now stays.
    change
        .puts
        .retain(|record| ledger.get(&record.key()).is_none());
    change.made = Made {
        learner,
        examiner: Some(examiner),
        piece: Some(id),
        marking: Some(first),
        ..Made::default()
    };
    Ok(change)
}

/// Which ids of its stamp a command gives to a marking and to whoever makes it;
/// [`Record::was_made_by`] knows them too.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ordinals {
    pub examiner: u8,
    pub marking: u8,
}

impl Ordinals {
    /// Of a command's only marking, or its examiner's.
    pub(super) const FIRST: Self = Self {
        examiner: 1,
        marking: 4,
    };
    /// Of the maker's own, begun beside that one.
    pub(super) const BESIDE: Self = Self {
        examiner: 6,
        marking: 7,
    };
    /// Of the second examiner's, begun beside the first one's.
    pub(super) const SECOND: Self = Self {
        examiner: 8,
        marking: 9,
    };
}

/// A marking that is begun, of a piece that may be begun with it.
#[derive(Debug, Clone)]
pub(super) struct Begun {
    pub piece: PieceId,
    pub sitting: SittingId,
    pub role: Role,
    pub examiner: ExaminerId,
    pub rubric: String,
    pub unit: Unit,
    pub at: Moment,
}

impl Begun {
    /// The marking, ready to be filled in: with the ledger's instruments that count in
    /// place of the rubric's. `change` is what is begun with it.
    pub(super) fn ready(
        self,
        ledger: &Ledger,
        change: &Change,
        stamp: &Stamp,
        ids: Ordinals,
    ) -> Marking {
        let facts = Facts {
            instruments: in_place_of_the_rubrics(ledger, change, &self.rubric),
            ..Facts::default()
        };
        Marking {
            facts,
            ..self.marking(ledger, stamp, ids)
        }
    }

    /// The marking, with nothing in it.
    pub(super) fn marking(self, ledger: &Ledger, stamp: &Stamp, ids: Ordinals) -> Marking {
        Marking {
            id: MarkingId::made_by(stamp, ids.marking),
            stamp: stamp.clone(),
            piece: self.piece,
            role: self.role,
            examiner: self.examiner,
            order: next_order(ledger, self.examiner, self.sitting),
            rubric: self.rubric,
            unit: self.unit,
            facts: Facts::default(),
            comments: BTreeMap::new(),
            overall: None,
            typist: None,
            photos: Vec::new(),
            started: self.at,
            replaces: None,
            seal: None,
            agreement: None,
            signature: None,
            erased: None,
        }
    }
}

/// What beginning a marking of a piece that is here has made.
pub(super) fn made_of(piece: &Piece, examiner: ExaminerId, marking: MarkingId) -> Made {
    Made {
        learner: piece.learner,
        examiner: Some(examiner),
        piece: Some(piece.id),
        marking: Some(marking),
        ..Made::default()
    }
}

pub(super) fn made_already(ledger: &Ledger, id: MarkingId) -> Option<Change> {
    let marking = ledger.marking(id)?;
    let piece = ledger.piece(marking.piece);
    Some(Change {
        made: Made {
            learner: piece.and_then(|piece| piece.learner),
            examiner: Some(marking.examiner),
            piece: Some(marking.piece),
            marking: Some(id),
            ..Made::default()
        },
        ..Change::default()
    })
}

pub(super) fn keep_rubric(
    ledger: &Ledger,
    rubric: RubricText,
    stamp: &Stamp,
    change: &mut Change,
) -> Result<RubricText, CommandError> {
    match ledger.rubric(&rubric.digest) {
        Some(kept) if kept.text != rubric.text => {
            return Err(CommandError::RubricDiffers {
                title: rubric.title,
            });
        }
        Some(_) => change
            .relies_on
            .push(RecordKey::new(Kind::Rubric, &rubric.digest)),
        None => {
            let RubricText {
                digest,
                rubric_id,
                version,
                title,
                text,
            } = rubric.clone();
            let stamp = stamp.clone();
            change.puts.push(
                RubricVersion {
                    digest,
                    stamp,
                    rubric_id,
                    version,
                    title,
                    text,
                }
                .into(),
            );
        }
    }
    Ok(rubric)
}

fn find_sitting(
    ledger: &Ledger,
    kind: SittingKind,
    day: Day,
    stamp: &Stamp,
    change: &mut Change,
) -> SittingId {
    if let Some(sitting) = ledger.sitting_on(kind, day) {
        change
            .relies_on
            .push(RecordKey::new(Kind::Sitting, sitting.id));
        return sitting.id;
    }
    let id = SittingId::made_by(stamp, 2);
    change.puts.push(
        Sitting {
            id,
            stamp: stamp.clone(),
            kind,
            day,
            name: String::new(),
            released: None,
        }
        .into(),
    );
    id
}

fn find_maker(
    ledger: &Ledger,
    who: Who,
    sitting: SittingId,
    stamp: &Stamp,
    change: &mut Change,
) -> Result<(Option<LearnerId>, Option<String>), CommandError> {
    match who {
        Who::Learner(id) => Ok((Some(known_learner(ledger, id, change)?), None)),
        Who::Ticket { ticket, learner } => {
            let ticket = tidy(&ticket, "the ticket")?;
            refuse_taken(ledger, sitting, &ticket)?;
            let learner = learner
                .map(|id| known_learner(ledger, id, change))
                .transpose()?;
            Ok((learner, Some(ticket)))
        }
        Who::Name(name) => {
            let id = LearnerId::made_by(stamp, 0);
            let learner = find_learner(ledger, &name, (id, stamp), change)?;
            Ok((Some(learner), None))
        }
    }
}

/// A ticket stands once in a sitting, but for a piece that was broken or begun again.
fn refuse_taken(ledger: &Ledger, sitting: SittingId, ticket: &str) -> Result<(), CommandError> {
    let taken = ledger.pieces().any(|piece| {
        piece.sitting == sitting
            && piece.ticket.as_deref() == Some(ticket)
            && ledger.ended(piece) != Some(Ended::BrokenOrRestarted)
    });
    if taken {
        let ticket = ticket.to_owned();
        return Err(CommandError::TicketTaken { ticket });
    }
    Ok(())
}

/// A learner of the ledger whose name is known.
pub(super) fn known_learner(
    ledger: &Ledger,
    id: LearnerId,
    change: &mut Change,
) -> Result<LearnerId, CommandError> {
    let Some(learner) = ledger.learner(id) else {
        return Err(missing(Kind::Learner, id));
    };
    if learner.erased.is_some() {
        return Err(CommandError::NameErased);
    }
    change.relies_on.push(RecordKey::new(Kind::Learner, id));
    Ok(id)
}

/// The learner of that name, or a new one with this id.
pub(super) fn find_learner(
    ledger: &Ledger,
    name: &str,
    (id, stamp): (LearnerId, &Stamp),
    change: &mut Change,
) -> Result<LearnerId, CommandError> {
    let name = tidy(name, "the learner")?;
    let called: Vec<_> = ledger
        .learners()
        .filter(|learner| learner.erased.is_none() && same_name(&learner.name, &name))
        .collect();
    let numbers: BTreeSet<_> = called.iter().map(|learner| &learner.given_number).collect();
    if numbers.len() > 1 {
        let count = numbers.len();
        return Err(CommandError::NameOfMany { name, count });
    }
    // Two that nothing tells apart are one person whom two tabs or tablets added at once: the
    // earliest counts.
    if let Some(learner) = called.first() {
        return known_learner(ledger, learner.id, change);
    }
    let learner = Learner::named(id, stamp.clone(), name);
    change.puts.push(learner.into());
    Ok(id)
}

/// What the maker of a piece is called where the maker marks.
pub(super) fn maker_name(
    ledger: &Ledger,
    change: &Change,
    learner: Option<LearnerId>,
    ticket: Option<&str>,
) -> String {
    let added = change.puts.iter().find_map(|record| match record {
        Record::Learner(added) if learner == Some(added.id) => Some(added.name.clone()),
        _ => None,
    });
    let known = || Some(ledger.learner(learner?)?.name.clone());
    added.or_else(known).unwrap_or_else(|| match ticket {
        Some(ticket) => format!("Maker of ticket {ticket}"),
        None => "The maker".to_owned(),
    })
}

/// Who marks: without a name an own marking is by the maker.
pub(super) fn marker_name(role: Role, named: String, maker: &str) -> String {
    if role == Role::Own && named.trim().is_empty() {
        maker.to_owned()
    } else {
        named
    }
}

pub(super) fn find_examiner(
    ledger: &Ledger,
    name: &str,
    stamp: &Stamp,
    ids: Ordinals,
    change: &mut Change,
) -> Result<ExaminerId, CommandError> {
    let name = tidy(name, "the examiner")?;
    let found = ledger
        .examiners()
        .find(|examiner| examiner.erased.is_none() && same_name(&examiner.name, &name));
    if let Some(examiner) = found {
        change
            .relies_on
            .push(RecordKey::new(Kind::Examiner, examiner.id));
        return Ok(examiner.id);
    }
    let added = change.puts.iter().find_map(|record| match record {
        Record::Examiner(added) if same_name(&added.name, &name) => Some(added.id),
        _ => None,
    });
    if let Some(id) = added {
        return Ok(id);
    }
    let id = ExaminerId::made_by(stamp, ids.examiner);
    let stamp = stamp.clone();
    change.puts.push(Examiner::named(id, stamp, name).into());
    Ok(id)
}

/// One more than the highest attempt, so that a deleted draft gives no number
/// out twice while a later piece stands.
pub(super) fn next_attempt(
    ledger: &Ledger,
    learner: LearnerId,
    rubric: &str,
    rubric_id: Option<&str>,
) -> u32 {
    let attempts = ledger.pieces_of(learner).filter(|piece| {
        let version = ledger.rubric(&piece.rubric);
        let id = version.map(|version| version.rubric_id.as_str());
        piece.rubric == rubric || rubric_id.is_some() && id == rubric_id
    });
    let highest = attempts.map(|piece| piece.attempt).max().unwrap_or(0);
    highest.saturating_add(1)
}

pub(super) fn next_order(ledger: &Ledger, examiner: ExaminerId, sitting: SittingId) -> u32 {
    let orders = ledger.markings().filter(|marking| {
        marking.examiner == examiner
            && ledger
                .piece(marking.piece)
                .is_some_and(|piece| piece.sitting == sitting)
    });
    let highest = orders.map(|marking| marking.order).max().unwrap_or(0);
    highest.saturating_add(1)
}
