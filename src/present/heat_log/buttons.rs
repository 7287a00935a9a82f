use crate::marking::Facts;
use crate::marking::heat_log::{
    Progress, StepTime, Stop, Timeline, What, may, next_weld, timeline,
};
use crate::quantity::{Moment, counted};
use crate::records::Ended;
use crate::rubric::{Effect, Rubric, Step, When};
use crate::sheet::capital;

/// A large button and the tap that it makes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BigTap {
    /// What it says.
    pub label: &'static str,
    /// What it is called in the style sheet.
    pub kind: &'static str,
    /// What is tapped.
    pub what: What,
}

/// A making step that can be named as the one at hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepTile {
    /// Its id.
    pub step: String,
    /// Its name.
    pub name: String,
    /// Heats made of those planned: `1 of 2 heats`.
    pub heats: String,
    /// Whether it is the one at hand.
    pub is_now: bool,
}

/// A fault that can be noted while the piece is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultTile {
    /// The entry it belongs to.
    pub entry: String,
    /// Its id there.
    pub fault: String,
    /// Its name.
    pub name: String,
    /// What it does, and how often it was seen; may be empty.
    pub says: String,
}

/// What can be tapped now.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HeatButtons {
    /// The one to tap next, and beside it what may be tapped in its place.
    pub big: Vec<BigTap>,
    /// Steps in the order of the rubric.
    pub steps: Vec<StepTile>,
    /// Faults of what is looked at during the making.
    pub faults: Vec<FaultTile>,
    /// Whether the piece is being made.
    pub is_running: bool,
    /// Whether it is paused.
    pub is_paused: bool,
    /// The last tap in words, with its time; `None` where nothing was tapped.
    pub last: Option<String>,
    /// Its number.
    pub last_index: usize,
    /// How many taps there are.
    pub count: usize,
}

/// What can be tapped by what was tapped so far.
pub fn heat_buttons(rubric: &Rubric, facts: &Facts) -> HeatButtons {
    let log = &facts.heat_log;
    let parts = log.parts(rubric);
    let timeline = timeline(log, &parts);
    let is_weld = next_weld(&timeline, &parts);
    let wanted: Vec<BigTap> = match timeline.state {
        Progress::NotStarted => vec![big("Start the clock", "start", What::Start)],
        Progress::AtAnvil => vec![big("Into the fire", "fire", What::Fire)],
        Progress::InFire => out(is_weld),
        Progress::Paused => vec![big("Go on", "start", What::Resume)],
        Progress::Finished | Progress::Stopped(_) => Vec::new(),
    };
    let last = log.taps.last();
    HeatButtons {
        big: wanted
            .into_iter()
            .filter(|big| may(log, &big.what))
            .collect(),
        steps: steps(rubric, &timeline),
        faults: faults(rubric, facts),
        is_running: matches!(
            timeline.state,
            Progress::AtAnvil | Progress::InFire | Progress::Paused
        ),
        is_paused: timeline.state == Progress::Paused,
        last: last.map(|tap| format!("{}, {}", what_words(rubric, &tap.what), clock(tap.at))),
        last_index: log.taps.len().saturating_sub(1),
        count: log.taps.len(),
    }
}

fn big(label: &'static str, kind: &'static str, what: What) -> BigTap {
    BigTap { label, kind, what }
}

/// Both ways out of the fire, the one that the plan has next first.
fn out(is_weld: bool) -> Vec<BigTap> {
    let plain = big("Out to the anvil", "anvil", What::Anvil { weld: false });
    let weld = big("Out at welding heat", "weld", What::Anvil { weld: true });
    if is_weld {
        vec![weld, plain]
    } else {
        vec![plain, weld]
    }
}

/// The time of day to the second: `10:42:07`.
pub(super) fn clock(at: Moment) -> String {
    let (hour, minute, second) = at.time_of_day();
    format!("{hour:02}:{minute:02}:{:02.0}", second.floor())
}

fn steps(rubric: &Rubric, timeline: &Timeline) -> Vec<StepTile> {
    let tile = |step: &Step| {
        let time = timeline.steps.iter().find(|time| time.step == step.id);
        StepTile {
            heats: time.map_or_else(String::new, heats_words),
            is_now: timeline.step.as_ref() == Some(&step.id),
            step: step.id.clone(),
            name: step.name.clone(),
        }
    };
    rubric.steps.iter().map(tile).collect()
}

/// Heats made of those planned; nothing where there are neither.
pub(super) fn heats_words(time: &StepTime) -> String {
    let heats = |count: u32| format!("{count} {}", if count == 1 { "heat" } else { "heats" });
    match (time.heats, time.planned) {
        (0, 0) => String::new(),
        (made, 0) => format!("{}, none planned", heats(made)),
        (made, planned) => format!("{made} of {}", heats(planned)),
    }
}

fn faults(rubric: &Rubric, facts: &Facts) -> Vec<FaultTile> {
    let entries = rubric.entries().into_iter();
    let during = entries.filter(|entry| entry.criterion.when == When::During);
    let tiles = during.flat_map(|entry| {
        let noted = facts.faults.get(&entry.id).cloned().unwrap_or_default();
        let shoe = entry
            .shoe
            .map(|shoe| format!("{}: ", shoe.name))
            .unwrap_or_default();
        let faults = entry.criterion.faults.iter();
        let tiles = faults.map(|fault| {
            let seen = noted.iter().filter(|id| **id == fault.id).count();
            let does = match fault.effect {
                Effect::Noted => "",
                Effect::Warn => "a warning",
                Effect::Stop => "stops the award",
            };
            let seen = if seen == 0 {
                String::new()
            } else {
                counted(seen, "time", "times")
            };
            let says: Vec<&str> = [does, &seen]
                .into_iter()
                .filter(|text| !text.is_empty())
                .collect();
            FaultTile {
                entry: entry.id.clone(),
                fault: fault.id.clone(),
                name: format!("{shoe}{}", fault.name),
                says: says.join(", "),
            }
        });
        tiles.collect::<Vec<FaultTile>>()
    });
    tiles.collect()
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

fn fault_name(rubric: &Rubric, entry: &str, fault: &str) -> String {
    let entries = rubric.entries();
    let found = entries.iter().find(|known| known.id == entry);
    let faults = found.map_or(&[][..], |entry| &entry.criterion.faults);
    let known = faults.iter().find(|known| known.id == fault);
    known.map_or_else(|| fault.to_owned(), |known| known.name.clone())
}

/// The ways to end without being finished: a key and words for each, in the order of
/// [`Stop::ALL`](crate::marking::heat_log::Stop::ALL).
pub fn stop_choices() -> Vec<(&'static str, String)> {
    let all = Stop::ALL.into_iter();
    all.map(|how| {
        let word = Ended::from(how).word();
        (word, capital(word))
    })
    .collect()
}
