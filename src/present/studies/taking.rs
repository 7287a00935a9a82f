use super::instrument_name;
use crate::command::{Command, InstrumentDetails};
use crate::quantity::Dimension;
use crate::records::{Ledger, StudyId};
use crate::study::taken;

/// What taking a study over changes in its instrument.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StudyTaking {
    /// It changes something.
    Changes {
        /// Each figure that changes: what it is, what it says now, and what it will say.
        rows: Vec<(&'static str, String, String)>,
        /// What to say once it is done.
        done: String,
        /// The command.
        command: Box<Command>,
        /// What takes it back, field by field.
        undo: Box<Command>,
    },
    /// There is nothing to take over, or nothing to change: why.
    Nothing(String),
}

/// What taking `repeatability` over from `study` changes; `None` where the study is not here.
pub fn study_taking(
    ledger: &Ledger,
    study: StudyId,
    repeatability: Option<&str>,
) -> Option<StudyTaking> {
    let facts = &ledger.study(study)?.facts;
    let name = instrument_name(ledger, &facts.instrument);
    let nothing = |text: String| Some(StudyTaking::Nothing(text));
    let Some(repeatability) = repeatability else {
        return nothing(
            "There is no repeatability to take over yet: it takes readings of one part by one \
             person that differ."
                .to_owned(),
        );
    };
    let Some(own) = ledger.instrument(&facts.instrument) else {
        return nothing(format!(
            "There is no instrument `{name}` in this ledger; add it on the page Instruments, with \
             that short name."
        ));
    };
    if own.fact.measures != Dimension::Length {
        return nothing(format!("{name} does not measure lengths."));
    }
    let fact = taken(facts, repeatability.to_owned()).over(&own.fact);
    if fact == own.fact {
        return nothing(format!("{name} has this repeatability."));
    }
    let before = InstrumentDetails::of(own);
    let said = |text: &Option<String>| text.clone().unwrap_or_else(|| "none".to_owned());
    let rows = vec![
        (
            "Repeatability",
            said(&own.fact.repeatability),
            said(&fact.repeatability),
        ),
        (
            "Where its figures come from",
            own.fact.source.clone(),
            fact.source.clone(),
        ),
    ];
    let after = InstrumentDetails {
        fact,
        ..before.clone()
    };
    let set = |before: &InstrumentDetails, after: &InstrumentDetails| {
        Box::new(Command::SetInstrument {
            id: facts.instrument.clone(),
            before: Some(Box::new(before.clone())),
            after: Box::new(after.clone()),
        })
    };
    Some(StudyTaking::Changes {
        rows,
        done: format!("{name} has this repeatability from now on."),
        command: set(&before, &after),
        undo: set(&after, &before),
    })
}
