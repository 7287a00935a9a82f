use super::paper::{PaperField, PaperPart, Takes, paper_parts};
use crate::present::makers::maker_name;
use crate::present::offers::Offer;
use crate::present::rubrics::text_of;
use crate::present::scores::Rubrics;
use crate::quantity::Unit;
use crate::records::{Ledger, MarkingId};
use crate::rubric::{Rubric, read_rubric};
use crate::sheet::{BlankField, BlankPart, BlankSheet, Document, blank_sheet};

/// The sheet to fill in by hand for the piece of one marking, with what is known of it;
/// `None` where that, or its rubric, is not here.
pub fn blank_of_marking(ledger: &Ledger, rubrics: &Rubrics, id: MarkingId) -> Option<Document> {
    let marking = ledger.marking(id)?;
    let piece = ledger.piece(marking.piece)?;
    let sitting = ledger.sitting(piece.sitting)?;
    let examiner = ledger.examiner(marking.examiner)?;
    let rubric = rubrics.get(ledger.rubric(&marking.rubric)?)?;
    // As lists call it: by the ticket alone while the name waits for the seal.
    let maker = match &piece.ticket {
        Some(_) => String::new(),
        None => maker_name(ledger, piece),
    };
    let known = [
        maker,
        piece.ticket.clone().unwrap_or_default(),
        sitting.day.to_string(),
        examiner.name.clone(),
    ];
    Some(blank(&rubric, &marking.rubric, marking.unit, known))
}

/// The sheet to fill in by hand for any piece by the rubric with this digest; `None` where
/// there is none that can be read.
pub fn blank_of_rubric(ledger: &Ledger, shipped: &[Offer], digest: &str) -> Option<Document> {
    let text = text_of(ledger, shipped, digest)?;
    let rubric = read_rubric(&text).rubric?;
    Some(blank(&rubric, digest, rubric.unit, Default::default()))
}

fn blank(rubric: &Rubric, digest: &str, unit: Unit, known: [String; 4]) -> Document {
    let [learner, ticket, date, examiner] = known;
    let part = |part: PaperPart| BlankPart {
        name: part.name,
        fields: part
            .fields
            .iter()
            .map(|field| blank_field(field, unit))
            .collect(),
    };
    blank_sheet(&BlankSheet {
        rubric,
        digest,
        unit,
        known: [
            ("Learner", learner),
            ("Ticket", ticket),
            ("Date", date),
            ("Examiner", examiner),
        ],
        parts: paper_parts(rubric).into_iter().map(part).collect(),
    })
}

fn blank_field(field: &PaperField, unit: Unit) -> BlankField {
    // What can be written says all that is asked of a level or of faults.
    let is_measured = matches!(field.takes, Takes::Reading(_) | Takes::Tally(_));
    BlankField {
        number: field.number,
        name: field.name.clone(),
        entry: (is_measured && !field.row.unmarked).then(|| field.row.id.clone()),
        options: field.options(),
        unit: field.unit(unit),
    }
}
