use std::sync::Arc;

use super::scored::{NoSheet, rubric_of, shown_marking, with_scored};
use super::scores::Rubrics;
use crate::job::{Fault, Job, Outcome, State, Topic};
use crate::output::sheet_base;
use crate::records::{Ledger, Marking, MarkingId, PieceId, RubricVersion, Stamp};
use crate::sheet::{Document, Scored, scored_sheet, sure_document};

/// What the page that says how sure a marking is needs, before it is worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct SurePage {
    /// The piece.
    pub piece: PieceId,
    /// The marking.
    pub marking: MarkingId,
    /// What it is about: the rubric's title.
    pub title: String,
    /// What a file of it is called, without an ending.
    pub file_base: String,
    /// By what the result is known again: the marking as it stands.
    pub topic: Topic,
    /// What the worker is to do.
    pub job: Job,
}

/// What stands on a page, or a part of it, that the worker has time for.
#[derive(Debug, Clone, PartialEq)]
pub enum Sure<T = Document> {
    /// The result.
    Known(T),
    /// It is being worked out.
    Busy {
        /// How it stands.
        text: &'static str,
        /// How much is done, from 0 to 1, where that is known.
        share: Option<f64>,
    },
    /// There is none.
    Unknown {
        /// Why, and what to do.
        text: String,
        /// What the button to ask again is called; `None` where that would not help.
        again: Option<&'static str>,
    },
}

/// Which marking of `piece` is asked about (as for [`super::sheet_page`]), and what the
/// worker needs for it.
///
/// *Errors:* [`NoSheet`].
pub fn sure_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: PieceId,
    wanted: Option<MarkingId>,
) -> Result<SurePage, NoSheet> {
    let marking = shown_marking(ledger, piece, wanted)?;
    // What was measured stands in the markings that an agreed one is made from.
    if marking.agreement.is_some() {
        return Err(NoSheet::Lost);
    }
    with_scored(ledger, rubrics, marking, |scored| SurePage {
        piece,
        marking: marking.id,
        title: scored.rubric.title.clone(),
        file_base: format!("{}_how-sure", sheet_base(scored)),
        topic: topic(marking),
        job: job(scored.parts.rubric, marking),
    })
    .ok_or(NoSheet::NoRubric)
}

/// By what the worker's result for `marking` as it stands is known; `None` as for
/// [`certainty_job`].
pub fn certainty_topic(ledger: &Ledger, marking: &Marking) -> Option<Topic> {
    // How sure an agreed marking is lies in those that it is made from.
    let is_agreed = marking.agreement.is_some();
    ledger.rubric(&marking.rubric).filter(|_| !is_agreed)?;
    Some(topic(marking))
}

/// What the worker needs to say how sure `marking` is as it stands; `None` where its rubric
/// is not here, and for an agreed one, which has no readings of its own.
pub fn certainty_job(ledger: &Ledger, marking: &Marking) -> Option<(Topic, Job)> {
    let topic = certainty_topic(ledger, marking)?;
    Some((topic, job(ledger.rubric(&marking.rubric)?, marking)))
}

/// What the worker came to, where it is done.
pub fn done(state: &State) -> Option<Arc<Outcome>> {
    match state {
        State::Done(outcome) => Some(Arc::clone(outcome)),
        _ => None,
    }
}

/// The scored sheet of `marking` with how sure it is; `None` where it or its rubric is not
/// here.
pub fn weighed_sheet(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: MarkingId,
    outcome: &Outcome,
) -> Option<Document> {
    let Outcome::Certainty(certainty) = outcome else {
        return None;
    };
    let marking = ledger.marking(marking)?;
    let rubric = rubric_of(ledger, rubrics, marking)?;
    let scored = Scored::in_ledger(ledger, marking, &rubric)?;
    Some(scored_sheet(&scored.weighed(certainty)))
}

/// By what the result for a marking as it stands is known again.
fn topic(marking: &Marking) -> Topic {
    Topic {
        about: marking.id.to_string(),
        version: stamp_words(&marking.stamp),
    }
}

fn job(rubric: &RubricVersion, marking: &Marking) -> Job {
    Job::Certainty {
        rubric: rubric.text.clone(),
        facts: Box::new(marking.facts.clone()),
    }
}

/// A stamp as a text of its own.
pub(super) fn stamp_words(stamp: &Stamp) -> String {
    format!("{} {} {}", stamp.time, stamp.counter, stamp.device.text())
}

/// What the page says while the result stands so.
pub fn sure(ledger: &Ledger, rubrics: &Rubrics, marking: MarkingId, state: Option<&State>) -> Sure {
    const WORDS: Meanwhile = Meanwhile {
        ready: "Getting ready to work out how sure these marks are.",
        working: "Working out how sure these marks are.",
        stopped: "Stopped before it was worked out. Marks and award stand as they are.",
        what: "How sure the marks are",
        stays: "marks and award stand as they are",
    };
    stands(state, &WORDS, |outcome| {
        let certainty = match outcome {
            Outcome::Certainty(certainty) => Some(certainty),
            _ => None,
        };
        let marking = ledger.marking(marking).zip(certainty);
        let document = marking.and_then(|(marking, certainty)| {
            with_scored(ledger, rubrics, marking, |scored| {
                sure_document(scored, certainty)
            })
        });
        document.ok_or("This marking is no longer here.")
    })
}

/// What is said while a result is not there.
pub(super) struct Meanwhile {
    /// Before the worker has begun.
    pub ready: &'static str,
    /// While it works.
    pub working: &'static str,
    /// Once somebody has stopped it.
    pub stopped: &'static str,
    /// What it is, as the beginning of a sentence.
    pub what: &'static str,
    /// What is none the worse if it fails.
    pub stays: &'static str,
}

/// How a result stands: `known` takes it out of what the worker did, or says why it is not
/// there.
pub(super) fn stands<T>(
    state: Option<&State>,
    words: &Meanwhile,
    known: impl FnOnce(&Outcome) -> Result<T, &'static str>,
) -> Sure<T> {
    let unknown = |text: String, again| Sure::Unknown { text, again };
    match state {
        None | Some(State::Waiting) => Sure::Busy {
            text: words.ready,
            share: None,
        },
        Some(State::Working(share)) => Sure::Busy {
            text: words.working,
            share: (*share > 0.0).then_some(*share),
        },
        Some(State::Done(outcome)) => {
            known(outcome).map_or_else(|why| unknown(why.to_owned(), None), Sure::Known)
        }
        Some(State::Stopped) => unknown(words.stopped.to_owned(), Some("Work it out")),
        Some(State::Failed(fault)) => {
            let again = (!matches!(fault, Fault::Refused(_))).then_some("Try again");
            unknown(fault_words(fault, words.what, words.stays), again)
        }
    }
}

/// Why the worker did not do it, and what to do; `what` begins a sentence, `stays` says what
/// is none the worse: `marks stand as they are`.
pub(super) fn fault_words(fault: &Fault, what: &str, stays: &str) -> String {
    match fault {
        Fault::NotStarted(why) => format!(
            "{what} cannot be worked out here: the part of the page that does it did not start. \
             Everything else works without it, and {stays}. Try again once there is a \
             connection; if it says this again, update the browser. The reason given: {why}."
        ),
        Fault::Broken(why) => format!(
            "{what} is not worked out: that broke off. Nothing kept on this device is lost, and \
             {stays}. Try again; if it says this again, reload the page. The reason given: {why}."
        ),
        Fault::Refused(why) => format!("{what} cannot be worked out: {why}."),
    }
}
