//! One tap after the other, with the time between them.

use super::count::Count;
use super::elapsed::Jump;
use super::plan::PlannedPart;
use super::steps::Steps;
use super::taps::{Stop, What};
use super::timeline::{Place, Progress, Stretch, Timeline};

/// How making ended.
#[derive(Debug, Clone, Copy)]
enum End {
    Finished,
    Stopped(Stop),
}

/// What is known after the taps so far.
#[derive(Debug)]
pub(super) struct Walk {
    /// Milliseconds passed, pauses counted.
    passed: u64,
    worked: u64,
    fire: u64,
    anvil: u64,
    place: Place,
    is_paused: bool,
    /// A clock runs: started, or in the fire once.
    is_begun: bool,
    end: Option<End>,
    /// The heat that is out is a weld heat.
    is_weld: bool,
    stretches: Vec<Stretch>,
    /// How many stretches there were when the trip to the fire began.
    trip_from: usize,
    count: Count,
    steps: Steps,
    marks: Vec<(u64, usize)>,
    jumps: Vec<Jump>,
}

impl Walk {
    pub fn of(parts: &[PlannedPart]) -> Self {
        Self {
            passed: 0,
            worked: 0,
            fire: 0,
            anvil: 0,
            place: Place::Elsewhere,
            is_paused: false,
            is_begun: false,
            end: None,
            is_weld: false,
            stretches: Vec::new(),
            trip_from: 0,
            count: Count::of(parts),
            steps: Steps::of(parts),
            marks: Vec::new(),
            jumps: Vec::new(),
        }
    }

    pub fn has_ended(&self) -> bool {
        self.end.is_some()
    }

    /// Time passes as things stand.
    pub fn pass(&mut self, (ms, jump): (u64, Option<Jump>)) {
        self.jumps.extend(jump);
        let from_ms = self.passed;
        self.passed = from_ms.saturating_add(ms);
        let ms = self.passed - from_ms;
        if ms == 0 {
            return;
        }
        let at = if self.is_paused {
            Place::Paused
        } else {
            self.work(ms);
            self.place
        };
        self.lengthen(Stretch {
            from_ms,
            to_ms: self.passed,
            at,
            step: self.steps.on().map(str::to_owned),
            weld: self.is_weld && at == Place::Anvil,
        });
    }

    fn work(&mut self, ms: u64) {
        // None passes what has passed in all, so nothing overflows.
        self.worked += ms;
        self.steps.work(ms);
        match self.place {
            Place::Fire => self.fire += ms,
            Place::Anvil => self.anvil += ms,
            Place::Elsewhere | Place::Paused => {}
        }
    }

    /// Adds a stretch, or lengthens the last one where nothing has changed.
    fn lengthen(&mut self, new: Stretch) {
        let is_same_trip = self.stretches.len() > self.trip_from;
        match self.stretches.last_mut() {
            Some(last)
                if is_same_trip
                    && (last.at, &last.step, last.weld) == (new.at, &new.step, new.weld) =>
            {
                last.to_ms = new.to_ms;
            }
            _ => self.stretches.push(new),
        }
    }

    /// What the tap `index` says.
    pub fn tap(&mut self, index: usize, what: &What) {
        if matches!(what, What::Note { .. }) {
            self.marks.push((self.passed, index));
        }
        if self.has_ended() {
            return;
        }
        match what {
            What::Start => self.begin(),
            What::Fire => self.fire_in(),
            What::Anvil { weld } => self.out(*weld),
            What::Heat { weld } => self.heat(*weld),
            What::Step { step } => self.steps.turn_to(step),
            What::Fault { .. } | What::Called => self.marks.push((self.passed, index)),
            What::Note { .. } => {}
            What::NotWatched => self.count.is_watched = false,
            What::Pause { .. } => self.is_paused = true,
            What::Resume => self.is_paused = false,
            What::Finished => self.end = Some(End::Finished),
            What::Stopped { how, .. } => self.end = Some(End::Stopped(*how)),
        }
    }

    fn begin(&mut self) {
        // A later start changes nothing, and so ends no pause.
        if self.passed == 0 {
            self.is_paused = false;
        }
        self.is_begun = true;
    }

    fn fire_in(&mut self) {
        self.is_begun = true;
        if self.place != Place::Fire {
            self.place = Place::Fire;
            self.is_weld = false;
            self.trip_from = self.stretches.len();
        }
    }

    fn out(&mut self, weld: bool) {
        let trip = self.stretches.iter_mut().skip(self.trip_from);
        if self.place == Place::Fire {
            trip.filter(|stretch| stretch.at == Place::Fire)
                .for_each(|stretch| stretch.weld = weld);
        }
        self.place = Place::Anvil;
        self.is_weld = weld;
        self.heat(weld);
    }

    fn heat(&mut self, weld: bool) {
        self.is_begun = true;
        self.count.heat(weld);
        self.steps.heat();
    }

    fn state(&self) -> Progress {
        match self.end {
            Some(End::Finished) => Progress::Finished,
            Some(End::Stopped(how)) => Progress::Stopped(how),
            None if self.is_paused => Progress::Paused,
            None if self.place == Place::Fire => Progress::InFire,
            None if self.is_begun => Progress::AtAnvil,
            None => Progress::NotStarted,
        }
    }

    /// What it all comes to; `is_timed` where a start was tapped.
    pub fn finish(self, is_timed: bool) -> Timeline {
        let state = self.state();
        let is_whole = is_timed && state == Progress::Finished;
        Timeline {
            total_ms: self.passed,
            worked_ms: self.worked,
            heats: self.count.heats(),
            weld_heats: self.count.weld_heats(),
            fire_ms: self.fire,
            anvil_ms: self.anvil,
            step: self.steps.on().map(str::to_owned),
            steps: self.steps.all(),
            marks: self.marks,
            state,
            time_ms: is_whole.then_some(self.worked),
            heats_in_fire_open: self.place == Place::Fire,
            jumps: self.jumps,
            stretches: self.stretches,
        }
    }
}
