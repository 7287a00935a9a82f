//! Issuing tickets of a sitting: the form as it is read.

use std::collections::BTreeSet;

use super::learners::learner_choices;
use super::offers::Offer;
use super::sittings::pieces_in_order;
use super::start::{StartForm, read_day, sentence};
use crate::command::{Command, CommandError, IssueTickets, TicketAsked};
use crate::records::{Ledger, Moment, Piece, PieceId, SittingId, SittingKind};
use crate::sheet::{Document, ticket_sheet};

/// The form, every field as text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TicketForm {
    /// Tickets, one a line with the learner's name behind the number, or how many.
    pub list: String,
    /// [`TicketForm::HIDDEN`] or [`TicketForm::SHOWN`].
    pub names: String,
    /// Key of an [`Offer`].
    pub rubric: String,
    /// A [`SittingKind`] word.
    pub sitting: String,
    /// The date as date fields hold it.
    pub day: String,
    /// The examiner's name.
    pub examiner: String,
    /// A word of [`StartForm::UNITS`].
    pub unit: String,
}

/// What is wrong, by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TicketErrors {
    /// About the list.
    pub list: Option<String>,
    /// About the rubric.
    pub rubric: Option<String>,
    /// About the kind of sitting.
    pub sitting: Option<String>,
    /// About the date.
    pub day: Option<String>,
    /// About the examiner.
    pub examiner: Option<String>,
}

impl TicketForm {
    /// Names stay hidden until sealing.
    pub const HIDDEN: &'static str = "hidden";
    /// Names are shown all along.
    pub const SHOWN: &'static str = "shown";

    /// The sittings that have tickets: in a self-check the maker alone marks.
    pub const KINDS: [SittingKind; 3] =
        [SittingKind::Exam, SittingKind::Mock, SittingKind::Practice];

    /// The form as it is first shown: for the sitting in the address, if there is one.
    pub fn fresh(ledger: &Ledger, start: StartForm, sitting: Option<SittingId>) -> Self {
        let sitting = sitting.and_then(|id| ledger.sitting(id));
        let (kind, day) = match sitting {
            Some(sitting) => (sitting.kind, sitting.day.iso()),
            None => (SittingKind::Exam, start.day),
        };
        Self {
            list: String::new(),
            names: Self::HIDDEN.to_owned(),
            rubric: start.rubric,
            sitting: kind.word().to_owned(),
            day,
            examiner: start.examiner,
            unit: start.unit,
        }
    }

    /// The command that the form asks for, or all that is wrong with it.
    pub fn read(&self, offers: &[Offer], at: Moment) -> Result<Command, Box<TicketErrors>> {
        let mut errors = TicketErrors::default();
        let tickets = read_list(&self.list).map_err(|why| errors.list = Some(why));
        let offer = offers.iter().find(|offer| offer.key() == self.rubric);
        if offer.is_none() {
            errors.rubric = Some("Choose a rubric.".to_owned());
        }
        let mut kinds = Self::KINDS.into_iter();
        let sitting = kinds.find(|kind| kind.word() == self.sitting);
        if sitting.is_none() {
            errors.sitting = Some("Say what the pieces are made for.".to_owned());
        }
        let day = read_day(&self.day, at.day()).map_err(|why| errors.day = Some(why));
        if self.examiner.trim().is_empty() {
            errors.examiner = Some("Give the name of whoever marks.".to_owned());
        }
        let (Ok(tickets), Some(offer), Some(sitting), Ok(day), None) =
            (tickets, offer, sitting, day, &errors.examiner)
        else {
            return Err(Box::new(errors));
        };
        Ok(Command::IssueTickets(Box::new(IssueTickets {
            tickets,
            hidden: self.names != Self::SHOWN,
            rubric: offer.rubric.clone(),
            sitting,
            day,
            examiner: self.examiner.clone(),
            unit: StartForm::unit_of(&self.unit),
            at,
        })))
    }
}

impl TicketErrors {
    /// What a refused command says, beside the field that it is about.
    pub fn refused(error: &CommandError) -> Self {
        let mut errors = Self::default();
        let field = match error {
            CommandError::RubricDiffers { .. } => &mut errors.rubric,
            _ => &mut errors.list,
        };
        *field = Some(sentence(&error.to_string()));
        errors
    }

    /// The id of the first field with an error, from the top of the form.
    pub fn first_field(&self) -> Option<&'static str> {
        let fields = [
            ("tickets", &self.list),
            ("rubric", &self.rubric),
            ("sitting", &self.sitting),
            ("date", &self.day),
            ("examiner", &self.examiner),
        ];
        let mut wrong = fields.into_iter().filter(|(_, error)| error.is_some());
        wrong.next().map(|(id, _)| id)
    }
}

/// One number alone is how many; else each line is a ticket and perhaps whose it is.
fn read_list(text: &str) -> Result<Vec<TicketAsked>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err("Write how many tickets there are to be, or one a line.".to_owned());
    }
    if let Ok(count) = text.parse::<usize>() {
        if count == 0 || count > IssueTickets::MOST {
            let most = IssueTickets::MOST;
            return Err(format!("`{count}` is no count from 1 to {most}."));
        }
        let ticket = |number: usize| TicketAsked {
            ticket: number.to_string(),
            learner: None,
        };
        return Ok((1..=count).map(ticket).collect());
    }
    let mut seen = BTreeSet::new();
    let lines = (1..).zip(text.lines()).map(|(number, line): (u32, &str)| {
        let mut words = line.split_whitespace();
        let Some(ticket) = words.next() else {
            return Err(format!("Line {number} is blank; take it out."));
        };
        if !ticket.contains(char::is_numeric) {
            return Err(format!(
                "Line {number}: `{ticket}` is no ticket; begin the line with its number."
            ));
        }
        if !seen.insert(ticket) {
            return Err(format!(
                "Line {number}: ticket {ticket} stands twice; give each piece a number of its own."
            ));
        }
        let name = words.collect::<Vec<_>>().join(" ");
        Ok(TicketAsked {
            ticket: ticket.to_owned(),
            learner: (!name.is_empty()).then_some(name),
        })
    });
    lines.collect()
}

/// The tickets of a sitting to print and tie on; `None` where it has none that is not sealed.
pub fn ticket_document(ledger: &Ledger, sitting: SittingId, origin: &str) -> Option<Document> {
    ticket_sheet(ledger, sitting, &open_tickets(ledger, sitting), origin)
}

/// Pieces with a ticket of which nothing is sealed.
fn open_tickets(ledger: &Ledger, sitting: SittingId) -> Vec<&Piece> {
    let mut pieces = pieces_in_order(ledger, sitting);
    pieces.retain(|piece| {
        let mut markings = ledger.markings_of(piece.id);
        piece.ticket.is_some() && markings.all(|marking| marking.seal.is_none())
    });
    pieces
}

/// Whose a ticket is, to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TicketLink {
    /// Its piece.
    pub piece: PieceId,
    /// `Ticket 12`.
    pub title: String,
    /// Id and name of each learner, nobody first.
    pub options: Vec<(String, String)>,
    /// The one that is chosen.
    pub chosen: String,
}

/// The tickets of a sitting that can still be linked to a learner.
pub fn ticket_links(ledger: &Ledger, sitting: SittingId) -> Vec<TicketLink> {
    let link = |piece: &Piece| {
        let chosen = piece.learner.map(|id| id.to_string()).unwrap_or_default();
        let learners = learner_choices(ledger, &chosen).into_iter();
        let learners = learners.map(|learner| (learner.id.to_string(), learner.name));
        let nobody = (String::new(), "Not known yet".to_owned());
        TicketLink {
            piece: piece.id,
            title: format!("Ticket {}", piece.ticket.clone().unwrap_or_default()),
            options: std::iter::once(nobody).chain(learners).collect(),
            chosen,
        }
    };
    open_tickets(ledger, sitting)
        .into_iter()
        .map(link)
        .collect()
}
