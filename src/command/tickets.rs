//! Tickets of a sitting: a piece for each number, and whose it is.

use std::collections::BTreeSet;

use super::apply::{missing, put, refuse_sealed, tidy};
use super::error::CommandError;
use super::start::{find_learner, known_learner, next_attempt, start};
use super::{Change, IssueTickets, StartPiece, TicketAsked, Who};
use crate::records::{Kind, LearnerId, Ledger, Piece, PieceId, Record, RecordKey, Role, Stamp};

/// Makes a piece and the examiner's first marking for each ticket, or nothing at all.
///
/// Each is begun as by a command of its own, at a stamp that follows the one before.
pub(super) fn issue(
    ledger: &Ledger,
    what: &IssueTickets,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    if what.tickets.len() > IssueTickets::MOST {
        return Err(CommandError::TooManyTickets);
    }
    refuse_twice(&what.tickets)?;
    let mut all = Change::default();
    let mut so_far = ledger.clone();
    for (at, asked) in (0..).zip(&what.tickets) {
        let part = one(&so_far, what, asked, &stamp.following(at))?;
        so_far.make(&part);
        if at == 0 {
            all.made = part.made;
        }
        all.puts.extend(part.puts);
        all.relies_on.extend(part.relies_on);
    }
    // What the command itself makes is not there to change meanwhile.
    let relied_on: BTreeSet<RecordKey> = all.relies_on.drain(..).collect();
    let relied_on = relied_on.into_iter();
    all.relies_on = relied_on.filter(|key| ledger.get(key).is_some()).collect();
    Ok(all)
}

fn one(
    ledger: &Ledger,
    what: &IssueTickets,
    asked: &TicketAsked,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let mut found = Change::default();
    let learner = match &asked.learner {
        Some(name) => {
            let id = LearnerId::made_by(stamp, 0);
            Some(find_learner(ledger, name, (id, stamp), &mut found)?)
        }
        None => None,
    };
    let begun = StartPiece {
        who: Who::Ticket {
            ticket: asked.ticket.clone(),
            learner,
        },
        rubric: what.rubric.clone(),
        sitting: what.sitting,
        day: what.day,
        examiner: what.examiner.clone(),
        unit: what.unit,
        role: Role::First,
        own: None,
        at: what.at,
        second: None,
    };
    let begun = start(&ledger.with(&found), begun, stamp)?;
    let named = begun.puts.into_iter().map(|record| match record {
        Record::Piece(piece) => Piece {
            hidden_until_sealed: what.hidden,
            ..Piece::clone(&piece)
        }
        .into(),
        other => other,
    });
    Ok(Change {
        puts: found.puts.into_iter().chain(named).collect(),
        relies_on: found.relies_on.into_iter().chain(begun.relies_on).collect(),
        made: begun.made,
        ..Change::default()
    })
}

/// A list of none, or with one number twice, was no list of tickets.
fn refuse_twice(tickets: &[TicketAsked]) -> Result<(), CommandError> {
    if tickets.is_empty() {
        return Err(CommandError::NoTickets);
    }
    let mut seen = BTreeSet::new();
    for asked in tickets {
        let ticket = tidy(&asked.ticket, "a ticket")?;
        if !seen.insert(ticket.clone()) {
            return Err(CommandError::TicketTwice { ticket });
        }
    }
    Ok(())
}

/// Says whose ticket a piece has, or that nobody knows, while nothing of it is sealed.
pub(super) fn link(
    ledger: &Ledger,
    id: PieceId,
    learner: Option<LearnerId>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let old = ledger.piece(id).ok_or_else(|| missing(Kind::Piece, id))?;
    for marking in ledger.markings_of(id) {
        refuse_sealed(marking)?;
    }
    if old.ticket.is_none() {
        return Err(CommandError::WithoutTicket);
    }
    if old.learner == learner {
        return Ok(Change::default());
    }
    let mut found = Change::default();
    let mut new = old.clone();
    new.learner = learner;
    new.attempt = match learner {
        None => 1,
        Some(learner) => {
            known_learner(ledger, learner, &mut found)?;
            let version = ledger.rubric(&old.rubric);
            let id = version.map(|version| version.rubric_id.as_str());
            next_attempt(ledger, learner, &old.rubric, id)
        }
    };
    new.stamp = stamp.after(&old.stamp);
    // None of them may be sealed meanwhile.
    let markings = ledger.markings_of(id);
    let markings = markings.map(|marking| RecordKey::new(Kind::Marking, marking.id));
    Ok(Change {
        relies_on: found.relies_on.into_iter().chain(markings).collect(),
        ..put(new)
    })
}
