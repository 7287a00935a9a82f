use super::faults::{FaultTile, fault_tiles};
use super::words::{clock, what_words};
use crate::marking::Facts;
use crate::marking::heat_log::{
    Progress, StepTime, Stop, Timeline, What, may, next_weld, timeline,
};
use crate::records::Ended;
use crate::rubric::{Rubric, Step};
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
        faults: fault_tiles(rubric, facts),
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
        (made, 0) => heats(made),
        (made, planned) => format!("{made} of {}", heats(planned)),
    }
}

/// The ways to end without being finished: each with a key for forms, and its words.
pub fn stop_choices() -> [(Stop, &'static str, String); 4] {
    Stop::ALL.map(|how| {
        let word = Ended::from(how).word();
        (how, word, capital(word))
    })
}
