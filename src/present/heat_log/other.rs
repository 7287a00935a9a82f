//! Another examiner's heat log of the same piece, and taking it over.

use crate::command::Edit;
use crate::marking::heat_log::{Progress, TakenOver, timeline};
use crate::present::dates::when_clock;
use crate::present::makers::set_apart;
use crate::quantity::{Moment, counted};
use crate::records::{ExaminerId, Ledger, Marking, MarkingId};

/// A log that may be taken over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogOffer {
    /// The marking that it is of.
    pub marking: MarkingId,
    /// What the button says.
    pub words: String,
    /// What is in it.
    pub says: String,
}

/// What taking a log over does.
pub const TAKING_OVER_DOES: &str = "The taps come along with their clocks: heats, steps, pauses \
    and the end, as they were seen. Faults and notes do not: they are what that examiner thought, \
    and your marks are yours. That they were taken over stands in your marking, under its seal.";

/// What was taken over, and whether it can be given back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogTaken {
    /// In words.
    pub says: String,
    /// Whether nothing was tapped since.
    pub may_give_back: bool,
}

/// The logs that this marking may take over: it is an examiner's, open and without taps, and the
/// log is that of another examiner's marking of the same piece by the same rubric, tapped by that
/// examiner. A heat log says what happened and gives no marks, so it may be seen whatever is sealed;
/// faults and notes stay hidden, as they do not come along.
pub fn log_offers(ledger: &Ledger, marking: MarkingId) -> Vec<LogOffer> {
    let sources = sources(ledger, marking).into_iter();
    let offers = sources.map(|source| {
        let log = &source.facts.heat_log;
        let taps = counted(log.observed().len(), "tap", "taps");
        let state = match timeline(log, &[]).state {
            Progress::Finished => "finished",
            Progress::Stopped(_) => "stopped before it was finished",
            _ => "not ended: what is tapped there later does not come along",
        };
        LogOffer {
            marking: source.id,
            words: format!(
                "Take over the heat log of {}",
                examiner(ledger, source.examiner)
            ),
            says: format!("{taps}, {state}."),
        }
    });
    offers.collect()
}

/// What takes the log of the marking `from` over, at this moment; `None` where it may not be.
pub fn take_over_log(
    ledger: &Ledger,
    marking: MarkingId,
    from: MarkingId,
    at: Moment,
) -> Option<Edit> {
    let sources = sources(ledger, marking);
    let source = sources.into_iter().find(|source| source.id == from)?;
    let taps = source.facts.heat_log.observed();
    Some(Edit::TakeOverLog {
        from: TakenOver {
            marking: source.id.to_string(),
            examiner: source.examiner.to_string(),
            at,
            taps: u32::try_from(taps.len()).ok()?,
        },
        taps,
    })
}

/// What was taken over into a marking, as it is said at `now`.
pub fn log_taken(ledger: &Ledger, marking: MarkingId, now: Moment) -> Option<LogTaken> {
    let marking = ledger.marking(marking)?;
    let log = &marking.facts.heat_log;
    let taken = log.taken_over.as_ref()?;
    let by = taken.examiner.parse::<ExaminerId>().ok();
    let by = by.map_or_else(nobody, |by| examiner(ledger, by));
    let taps = counted(log.taken_over_taps(), "tap was", "taps were");
    Some(LogTaken {
        says: format!(
            "The first {taps} taken over from the heat log of {by}, {}.",
            when_clock(taken.at, now)
        ),
        may_give_back: marking.seal.is_none() && log.taps.len() <= log.taken_over_taps(),
    })
}

fn sources(ledger: &Ledger, marking: MarkingId) -> Vec<&Marking> {
    let Some(own) = ledger.marking(marking) else {
        return Vec::new();
    };
    let is_examiners = |one: &Marking| ledger.first_role(one).is_examiners();
    if own.seal.is_some() || !own.facts.heat_log.taps.is_empty() || !is_examiners(own) {
        return Vec::new();
    }
    let others = ledger.markings_of(own.piece).filter(|other| {
        let log = &other.facts.heat_log;
        other.id != own.id
            && other.rubric == own.rubric
            && other.examiner != own.examiner
            && is_examiners(other)
            && log.taken_over.is_none()
            && !log.observed().is_empty()
    });
    others.collect()
}

fn examiner(ledger: &Ledger, id: ExaminerId) -> String {
    let known = ledger.examiner(id);
    known.map_or_else(nobody, |known| set_apart(&known.name))
}

fn nobody() -> String {
    "an examiner who is not in this ledger".to_owned()
}
