//! The page that says whether examiners mark alike: what can be chosen, what the worker
//! needs, and what stands there meanwhile.

use super::paper_files::{MIXED_UP, sent};
use super::sure::{Meanwhile, Sure, stands};
use crate::job::{Agreed, Job, Outcome, State, Topic};
use crate::moderation::offers;
use crate::quantity::counted;
use crate::records::{Day, Ledger, Piece, Span};
use crate::sheet::DayAsked;

/// What is asked, as typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AgreementForm {
    /// Digest of a version of a rubric.
    pub rubric: String,
    /// The first day; empty for as far back as there is something.
    pub from: String,
    /// The last day; empty for up to now.
    pub to: String,
    /// Whether names are hidden.
    pub hides_names: bool,
    /// How many examiners come on a day to plan.
    pub examiners: String,
    /// How many pieces lie ready.
    pub pieces: String,
    /// By how many of the examiners each is marked.
    pub each: String,
}

/// What is wrong with it, field by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AgreementErrors {
    /// The first day.
    pub from: Option<String>,
    /// The last day.
    pub to: Option<String>,
    /// Examiners.
    pub examiners: Option<String>,
    /// Pieces.
    pub pieces: Option<String>,
    /// Examiners of each piece.
    pub each: Option<String>,
}

/// What is asked, read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AgreementAsked {
    rubric: String,
    span: Span,
    hides_names: bool,
    day: DayAsked,
}

/// What is said where nothing was marked by two examiners.
pub const NOTHING_TWICE: &str = "No piece was marked by two examiners apart yet.";
/// How that comes about.
pub const HOW_TWICE: &str = "Name a second examiner when you begin a piece, or choose “Mark as a \
    second examiner” on the sheet of one that is sealed. Neither sees what the other gave before \
    both have sealed. From five such pieces by one rubric on, this page says how well the marks \
    agree, on which criteria they lie apart, and how to bring examiners together.";

/// More examiners or pieces of one day are not planned here.
const MOST_EXAMINERS: usize = 20;
const MOST_PIECES: usize = 60;

/// The versions of rubrics to choose from: digest and words, the first is shown first.
pub fn agreement_choices(ledger: &Ledger) -> Vec<(String, String)> {
    let offers = offers(ledger).into_iter();
    let choices = offers.map(|offer| {
        let pieces = counted(offer.pieces, "piece", "pieces");
        let words = format!(
            "{}, version {}: {pieces} marked by two",
            offer.title, offer.version
        );
        (offer.digest, words)
    });
    choices.collect()
}

impl AgreementForm {
    /// What is asked before anybody has chosen; `None` where there is nothing to choose.
    pub fn first(choices: &[(String, String)]) -> Option<Self> {
        let (rubric, _) = choices.first()?;
        Some(Self {
            rubric: rubric.clone(),
            examiners: "4".to_owned(),
            pieces: "6".to_owned(),
            each: "2".to_owned(),
            ..Self::default()
        })
    }

    /// Reads it.
    ///
    /// *Errors:* what is wrong with each field.
    pub fn read(&self) -> Result<AgreementAsked, AgreementErrors> {
        let mut errors = AgreementErrors::default();
        let from = day(&self.from, &mut errors.from);
        let to = day(&self.to, &mut errors.to);
        if from.zip(to).is_some_and(|(from, to)| from > to) {
            errors.to = Some("The last day lies before the first one.".to_owned());
        }
        let examiners = whole(&self.examiners, 2..=MOST_EXAMINERS, &mut errors.examiners);
        let pieces = whole(&self.pieces, 1..=MOST_PIECES, &mut errors.pieces);
        // While nobody knows how many come, as many as may come.
        let most = match &errors.examiners {
            Some(_) => MOST_EXAMINERS,
            None => examiners,
        };
        let each = whole(&self.each, 2..=most, &mut errors.each);
        if errors != AgreementErrors::default() {
            return Err(errors);
        }
        Ok(AgreementAsked {
            rubric: self.rubric.clone(),
            span: Span { from, to },
            hides_names: self.hides_names,
            day: DayAsked {
                examiners,
                pieces,
                each,
            },
        })
    }
}

/// A day as typed; `None` for an empty field, and for one that is `wrong`.
pub(super) fn day(text: &str, wrong: &mut Option<String>) -> Option<Day> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    match text.parse() {
        Ok(day) => Some(day),
        Err(fault) => {
            *wrong = Some(super::start::sentence(&fault.to_string()));
            None
        }
    }
}

fn whole(
    text: &str,
    allowed: std::ops::RangeInclusive<usize>,
    wrong: &mut Option<String>,
) -> usize {
    let found = text.trim().parse().ok();
    found
        .filter(|own| allowed.contains(own))
        .unwrap_or_else(|| {
            let (least, most) = (allowed.start(), allowed.end());
            *wrong = Some(if least == most {
                format!("Write {least}: there is no other number here.")
            } else {
                format!("Write a whole number from {least} to {most}.")
            });
            0
        })
}

/// By what the result is known again, and what the worker is to do: the pieces of that
/// version made in these days, and what they name, are sent to it.
///
/// *Errors:* in words, where a record cannot be written.
pub fn agreement_job(ledger: &Ledger, asked: &AgreementAsked) -> Result<(Topic, Job), String> {
    let in_span = |piece: &&Piece| {
        let sitting = ledger.sitting(piece.sitting);
        sitting.is_some_and(|sitting| asked.span.holds(sitting.day))
    };
    let pieces = ledger.pieces_by(&asked.rubric).filter(in_span);
    let mut records = ledger.about(pieces.map(|piece| piece.id));
    if records.is_empty() {
        // The worker still says what the rubric is called.
        let key = crate::records::RecordKey::new(crate::records::Kind::Rubric, &asked.rubric);
        records.extend(ledger.get(&key));
    }
    let (stamp, records) = sent(&records)?;
    let topic = Topic {
        about: "agreement".to_owned(),
        version: format!("{stamp} {} {asked:?}", records.len()),
    };
    let job = Job::Agreement(Agreed {
        records,
        rubric: asked.rubric.clone(),
        from: asked.span.from,
        to: asked.span.to,
        hides_names: asked.hides_names,
        day: asked.day,
    });
    Ok((topic, job))
}

/// What the page says while the result stands so.
pub fn agreement_shown(state: Option<&State>) -> Sure {
    const WORDS: Meanwhile = Meanwhile {
        ready: "Getting ready to work out how well examiners agree.",
        working: "Working out how well examiners agree.",
        stopped: "Stopped before it was worked out.",
        what: "How well examiners agree",
        stays: "markings stand as they are",
    };
    stands(state, &WORDS, |outcome| match outcome {
        Outcome::Agreement(document) => Ok(document.clone()),
        _ => Err(MIXED_UP),
    })
}
