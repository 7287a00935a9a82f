//! The page on which examiners agree: what differs, what settles it, how far they are.

mod choices;

use super::examiners::with_examiners;
use super::makers::{maker_name, piece_words};
use super::scored::NoSheet;
use super::scores::Rubrics;
use super::start::sentence;
use crate::command::{Agree, Command, Edit};
use crate::marking::{Agreed, Point, PointState, Settled, Settlement};
use crate::quantity::Marks;
use crate::records::{Ledger, Marking, MarkingId, Moment, PieceId};
use crate::rubric::{Rubric, Settle, Threshold};
use crate::sheet::{Between, Scored, between, percent_words};
use choices::choices;

pub use choices::AgreeChoice;

/// What the page says over everything else, and what it asks.
#[derive(Debug, Clone, PartialEq)]
pub struct AgreePage {
    /// The piece.
    pub piece: PieceId,
    /// Whose it is, as far as that may be said.
    pub title: String,
    /// What it is.
    pub about: String,
    /// The rubric's rule in words.
    pub rule: String,
    /// How far it is.
    pub stage: AgreeStage,
}

/// How far agreeing is.
#[derive(Debug, Clone, PartialEq)]
pub enum AgreeStage {
    /// Nobody has begun.
    Begin,
    /// A third examiner marks first.
    Third,
    /// The draft is open.
    Open(OpenAgreement),
    /// It is sealed.
    Sealed(MarkingId),
}

/// A draft that examiners agree in.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenAgreement {
    /// The draft.
    pub marking: MarkingId,
    /// `3 of 7 settled`.
    pub far: String,
    /// What the marks come to so far.
    pub total: String,
    /// Whether everything is settled.
    pub is_done: bool,
    /// What differs, most marks at stake first.
    pub points: Vec<AgreePoint>,
}

/// One criterion that examiners marked differently.
#[derive(Debug, Clone, PartialEq)]
pub struct AgreePoint {
    /// Its entry.
    pub entry: String,
    /// Part of the ids of its controls.
    pub dom: String,
    /// What it is called.
    pub name: String,
    /// What differs, in words.
    pub differs: String,
    /// What there is to choose.
    pub choices: Vec<AgreeChoice>,
    /// The key of the choice that stands; empty for none.
    pub chosen: String,
    /// Marks as typed, where the choice is [`AgreeChoice::OTHER`].
    pub marks: String,
    /// What the marks are of: `of 5`.
    pub out_of: String,
    /// The reason as typed.
    pub reason: String,
    /// Whether it has to have a reason.
    pub needs_reason: bool,
    /// How it stands: `settled`, `open`, `by the rubric’s rule`.
    pub state: &'static str,
    /// Whether it is settled.
    pub is_settled: bool,
    /// What is wrong with what was typed; empty for nothing.
    pub problem: String,
}

/// What the page of `piece` says.
///
/// *Errors:* [`NoSheet`].
pub fn agree_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
) -> Result<AgreePage, NoSheet> {
    let found = ledger.piece(piece).ok_or(NoSheet::Lost)?;
    let (title, about) = (maker_name(ledger, found), piece_words(ledger, found));
    with_examiners(ledger, rubrics, piece, |scored| {
        let rubric = scored.first().map(|one| one.rubric)?;
        Some(AgreePage {
            piece,
            title,
            about,
            rule: rule_words(rubric),
            stage: stage(ledger, rubric, piece, scored)?,
        })
    })?
    .ok_or(NoSheet::Lost)
}

fn stage(
    ledger: &Ledger,
    rubric: &Rubric,
    piece: PieceId,
    scored: &[Scored<'_>],
) -> Option<AgreeStage> {
    let standing = ledger.standing(piece);
    let is_agreed = |marking: &&&Marking| marking.agreement.is_some();
    if let Some(draft) = standing.drafts().iter().find(is_agreed) {
        let agreed = ledger.agreed(draft, rubric)?;
        return Some(AgreeStage::Open(open(draft, &agreed, scored)));
    }
    let markings: Vec<&Marking> = scored.iter().map(|one| one.parts.marking).collect();
    let counts = standing
        .counts()
        .filter(|marking| marking.agreement.is_some());
    let stands = counts.filter(|marking| ledger.lack(marking, rubric).is_none());
    Some(match stands {
        Some(marking) => AgreeStage::Sealed(marking.id),
        None if ledger.asks_third(&markings, rubric) => AgreeStage::Third,
        None => AgreeStage::Begin,
    })
}

/// What settles a criterion, in words.
fn rule_words(rubric: &Rubric) -> String {
    let moderation = &rubric.moderation;
    let limit = moderation.discuss_beyond.map(|limit| match limit {
        Threshold::Marks(marks) => format!("{marks} marks"),
        Threshold::Percent(share) => percent_words(share),
    });
    let rule = match (moderation.settle, &limit) {
        (Settle::Discussion, None) => {
            return "The rubric asks you to settle each criterion that you marked differently, \
                    with a reason."
                .to_owned();
        }
        (Settle::Discussion, Some(limit)) => {
            return format!(
                "The rubric asks you to settle each criterion that you marked differently; with \
                 a reason where the marks, or the totals, are more than {limit} apart."
            );
        }
        (Settle::Mean, _) => "the mean of your marks",
        (Settle::Lower, _) => "the lowest of your marks",
    };
    match limit {
        None => format!(
            "Where you marked differently, {rule} counts by the rubric. You may settle any \
             criterion yourselves, with a reason."
        ),
        Some(limit) => format!(
            "Where you marked differently, {rule} counts by the rubric; you settle it, with a \
             reason, where the marks, or the totals, are more than {limit} apart."
        ),
    }
}

fn open(draft: &Marking, agreed: &Agreed, scored: &[Scored<'_>]) -> OpenAgreement {
    let all = between(scored);
    let point_of = |entry: &str| agreed.points.iter().find(|point| point.entry == entry);
    let rows = all.iter().enumerate().filter_map(|(at, one)| {
        let point = point_of(&one.entry.id)?;
        let differs = point.state != PointState::Alike;
        differs.then(|| row(at, draft, agreed, scored, one, point))
    });
    let points: Vec<AgreePoint> = rows.collect();
    let settled = points.iter().filter(|point| point.is_settled).count();
    let outcome = &agreed.outcome;
    OpenAgreement {
        marking: draft.id,
        far: match points.len() {
            0 => "The examiners marked every criterion alike".to_owned(),
            count => format!("{settled} of {count} settled"),
        },
        total: format!(
            "{} of {} so far, {} in all; {} to pass",
            outcome.marks, outcome.marked_out_of, outcome.out_of, outcome.pass_mark
        ),
        is_done: settled == points.len(),
        points,
    }
}

fn row(
    at: usize,
    draft: &Marking,
    agreed: &Agreed,
    scored: &[Scored<'_>],
    one: &Between<'_, '_>,
    point: &Point,
) -> AgreePoint {
    let settled = draft
        .agreement
        .as_ref()
        .and_then(|agreement| agreement.settled.get(&point.entry));
    let out_of = one.results.iter().map(|result| result.out_of).max();
    let problems = agreed.outcome.problems.iter();
    let problem = problems.into_iter().find(|one| one.id == point.entry);
    let is_ruled = point.state == PointState::Ruled;
    let (chosen, marks) = match settled.map(|settled| &settled.by) {
        None if is_ruled => (AgreeChoice::RULE.to_owned(), String::new()),
        None => (String::new(), String::new()),
        Some(Settlement::From(id)) => (id.to_string(), String::new()),
        Some(Settlement::Mean) => (AgreeChoice::MEAN.to_owned(), String::new()),
        Some(Settlement::Marks(text)) => (AgreeChoice::OTHER.to_owned(), text.clone()),
    };
    let is_settled = point.state != PointState::Open;
    AgreePoint {
        entry: point.entry.clone(),
        dom: format!("agree-{at}"),
        name: one.entry.name(),
        differs: sentence(&one.words),
        choices: choices(scored, one, !point.needs_reason),
        marks,
        out_of: format!("of {}", out_of.unwrap_or(Marks::ZERO)),
        reason: settled.map_or_else(String::new, |settled| settled.reason.clone()),
        needs_reason: point.needs_reason,
        state: match (point.state, chosen.is_empty()) {
            (PointState::Open, false) if problem.is_none() => "give a reason",
            (PointState::Open, _) => "open",
            (PointState::Ruled, _) => "by the rubric’s rule",
            _ => "settled",
        },
        chosen,
        is_settled,
        problem: problem.map_or_else(String::new, |problem| sentence(&problem.message)),
    }
}

/// The command that settles an entry as the form has it.
pub fn settle_command(
    marking: MarkingId,
    entry: &str,
    chosen: &str,
    marks: &str,
    reason: &str,
) -> Command {
    let by = match chosen {
        "" | AgreeChoice::RULE => None,
        AgreeChoice::MEAN => Some(Settlement::Mean),
        AgreeChoice::OTHER => Some(Settlement::Marks(marks.to_owned())),
        id => id.parse().ok().map(Settlement::From),
    };
    let settled = by.map(|by| Settled {
        by,
        reason: reason.to_owned(),
    });
    Command::edit(
        marking,
        Edit::Settle {
            entry: entry.to_owned(),
            settled,
        },
    )
}

/// The command that begins an agreed marking, written by the examiner of this name.
///
/// *Errors:* what is wrong with the name.
pub fn agree_command(piece: PieceId, examiner: &str, at: Moment) -> Result<Command, String> {
    if examiner.trim().is_empty() {
        return Err("Give the name of whoever writes the agreed marking.".to_owned());
    }
    Ok(Command::Agree(Box::new(Agree {
        piece,
        examiner: examiner.to_owned(),
        at,
    })))
}
