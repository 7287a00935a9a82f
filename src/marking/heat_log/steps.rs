use super::plan::PlannedPart;
use super::timeline::StepTime;

/// Time and heats of each making step.
#[derive(Debug)]
pub(super) struct Steps {
    all: Vec<StepTime>,
    /// Place of the step that is on.
    on: Option<usize>,
}

impl Steps {
    pub fn of(parts: &[PlannedPart]) -> Self {
        let (all, on) = (Vec::new(), None);
        let mut steps = Self { all, on };
        for part in parts {
            if let Some(step) = &part.step {
                let place = steps.place(step);
                if let Some(time) = steps.all.get_mut(place) {
                    time.planned = time.planned.saturating_add(part.count);
                }
            }
        }
        steps
    }

    /// Where this step stands; behind the others where it is new.
    fn place(&mut self, step: &str) -> usize {
        let known = self.all.iter().position(|time| time.step == step);
        known.unwrap_or_else(|| {
            self.all.push(StepTime {
                step: step.to_owned(),
                planned: 0,
                heats: 0,
                ms: 0,
            });
            self.all.len() - 1
        })
    }

    pub fn turn_to(&mut self, step: &str) {
        self.on = Some(self.place(step));
    }

    fn current(&mut self) -> Option<&mut StepTime> {
        self.on.and_then(|on| self.all.get_mut(on))
    }

    pub fn work(&mut self, ms: u64) {
        if let Some(time) = self.current() {
            time.ms = time.ms.saturating_add(ms);
        }
    }

    pub fn heat(&mut self) {
        if let Some(time) = self.current() {
            time.heats = time.heats.saturating_add(1);
        }
    }

    pub fn on(&self) -> Option<&str> {
        let on = self.on.and_then(|on| self.all.get(on));
        on.map(|time| time.step.as_str())
    }

    pub fn all(self) -> Vec<StepTime> {
        self.all
    }
}
