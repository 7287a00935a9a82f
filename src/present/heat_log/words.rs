use crate::marking::heat_log::{Progress, What};
use crate::quantity::Moment;
use crate::records::Ended;
use crate::rubric::Rubric;
use crate::sheet::capital;

/// How far making has come, in a few words.
pub(in crate::present) fn state_words(state: Progress) -> &'static str {
    match state {
        Progress::NotStarted => "not started",
        Progress::AtAnvil => "at the anvil",
        Progress::InFire => "in the fire",
        Progress::Paused => "paused",
        Progress::Finished => "finished",
        Progress::Stopped(_) => "stopped",
    }
}

/// The time of day to the second: `10:42:07`.
pub(super) fn clock(at: Moment) -> String {
    let (hour, minute, second) = at.time_of_day();
    format!("{hour:02}:{minute:02}:{:02.0}", second.floor())
}

/// What a tap says, in words.
pub(super) fn what_words(rubric: &Rubric, what: &What) -> String {
    let with = |words: &str, why: &str| {
        let why = why.trim();
        if why.is_empty() {
            words.to_owned()
        } else {
            format!("{words}: {why}")
        }
    };
    match what {
        What::Start => "Clock started".to_owned(),
        What::Fire => "Into the fire".to_owned(),
        What::Anvil { weld: false } => "Out to the anvil".to_owned(),
        What::Anvil { weld: true } => "Out at welding heat".to_owned(),
        What::Heat { weld: false } => "A heat".to_owned(),
        What::Heat { weld: true } => "A weld heat".to_owned(),
        What::Step { step } => {
            let name = rubric.step(step).map_or(step.as_str(), |step| &step.name);
            format!("Step: {name}")
        }
        What::Fault { entry, fault } => format!("Fault: {}", fault_name(rubric, entry, fault)),
        What::Note { text } => with("Note", text),
        What::NotWatched => "Not watched for a while".to_owned(),
        What::Pause { reason } => with("Paused", reason),
        What::Resume => "Went on".to_owned(),
        What::Called => "Examiner called".to_owned(),
        What::Finished => "Finished".to_owned(),
        What::Stopped { how, reason } => with(&capital(Ended::from(*how).word()), reason),
    }
}

/// The name of a fault at an entry; its id where the rubric does not know it.
pub(in crate::present) fn fault_name(rubric: &Rubric, entry: &str, fault: &str) -> String {
    let entries = rubric.entries();
    let found = entries.iter().find(|known| known.id == entry);
    let faults = found.map_or(&[][..], |entry| &entry.criterion.faults);
    let known = faults.iter().find(|known| known.id == fault);
    known.map_or_else(|| fault.to_owned(), |known| known.name.clone())
}
