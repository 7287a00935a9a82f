use std::collections::VecDeque;
use std::sync::Arc;

use super::message::{Answer, Job, Outcome, Request, Said};

/// What a result is about, and of which version of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Topic {
    /// What it is about, such as a marking's id. Of each there is one result at a time.
    pub about: String,
    /// What the result holds for, such as the stamp of the marking as it was.
    pub version: String,
}

/// How a result stands.
#[derive(Debug, Clone, PartialEq)]
pub enum State {
    /// Other work comes first, or the worker is starting.
    Waiting,
    /// The worker is at it; so much is done, from 0 to 1.
    Working(f64),
    /// Here it is.
    Done(Arc<Outcome>),
    /// It was stopped by whoever asked for it.
    Stopped,
    /// There is none.
    Failed(Fault),
}

/// Why there is no result.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// The worker cannot start here; what the browser says about it.
    NotStarted(String),
    /// The worker broke off; what the browser says about it.
    Broken(String),
    /// The job cannot be done: why, in words for people.
    Refused(String),
}

/// What the page has to do now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// Start a worker.
    Start,
    /// Post this text to the worker.
    Post(String),
    /// End the worker, and hear nothing of it any more.
    End,
}

#[derive(Debug, Clone, PartialEq)]
struct Ask {
    topic: Topic,
    job: Job,
}

#[derive(Debug, Clone, Default, PartialEq, Eq)]
enum Worker {
    #[default]
    None,
    Starting,
    Idle,
    Busy(u64, Topic),
}

/// What the page has asked for and what has come of it.
///
/// One job is done at a time. A newer ask takes the place of one about the same that has
/// not begun. A worker starts with the first ask and is kept, but for one
/// that has measured a large photo: its memory comes back only as it ends. The last results are kept
/// too, so that coming back to one shows it at once.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Queue {
    worker: Worker,
    latest: u64,
    waiting: VecDeque<Ask>,
    /// The latest asked for comes last.
    states: VecDeque<(Topic, State)>,
}

/// As many results are kept; one is some ten kilobytes.
const MOST_KEPT: usize = 32;

impl Queue {
    /// How the result of `topic` stands; `None` where it was not asked for, or so long
    /// ago that it is forgotten.
    pub fn state(&self, topic: &Topic) -> Option<&State> {
        let mut states = self.states.iter();
        states.find_map(|(own, state)| (own == topic).then_some(state))
    }

    /// Asks for a result. One that is here, or on its way, is not asked for again.
    #[must_use]
    pub fn ask(&mut self, topic: Topic, job: Job) -> Vec<Step> {
        if let Some(State::Waiting | State::Working(_) | State::Done(_)) = self.state(&topic) {
            return Vec::new();
        }
        self.states.retain(|(own, _)| own.about != topic.about);
        self.states.push_back((topic.clone(), State::Waiting));
        self.forget_old();
        self.waiting.retain(|ask| ask.topic.about != topic.about);
        self.waiting.push_back(Ask { topic, job });
        self.advance()
    }

    /// Takes in what the worker says.
    #[must_use]
    pub fn hear(&mut self, text: &str) -> Vec<Step> {
        let (id, answer) = match Said::read(text) {
            Ok(Said::Ready) => {
                if self.worker == Worker::Starting {
                    self.worker = Worker::Idle;
                }
                return self.advance();
            }
            Ok(Said::About { id, answer }) => (id, answer),
            Err(fault) => return self.broke(&fault.to_string()),
        };
        let topic = match &self.worker {
            Worker::Busy(own, topic) if *own == id => topic.clone(),
            // Of a request that was stopped.
            _ => return Vec::new(),
        };
        let state = match answer {
            Answer::Progress(share) => {
                self.set(&topic, State::Working(share.clamp(0.0, 1.0)));
                return Vec::new();
            }
            Answer::Done(outcome) => {
                let is_large = matches!(&outcome, Outcome::Photo(found) if found.is_large());
                self.set(&topic, State::Done(Arc::new(outcome)));
                self.worker = Worker::Idle;
                // A program in WebAssembly gives memory back by ending only.
                if is_large {
                    self.worker = Worker::None;
                    return self.end();
                }
                return self.advance();
            }
            Answer::Failed(why) => State::Failed(Fault::Refused(why)),
        };
        self.set(&topic, state);
        self.worker = Worker::Idle;
        self.advance()
    }

    /// Takes in that the worker failed, or that a step could not be taken.
    #[must_use]
    pub fn broke(&mut self, why: &str) -> Vec<Step> {
        match std::mem::take(&mut self.worker) {
            Worker::Busy(_, topic) => {
                self.set(&topic, State::Failed(Fault::Broken(why.to_owned())));
            }
            Worker::None | Worker::Starting => {
                for ask in std::mem::take(&mut self.waiting) {
                    let fault = Fault::NotStarted(why.to_owned());
                    self.set(&ask.topic, State::Failed(fault));
                }
            }
            Worker::Idle => {}
        }
        self.end()
    }

    /// Stops what is asked for about this. Work that has begun ends with its worker.
    #[must_use]
    pub fn stop(&mut self, about: &str) -> Vec<Step> {
        self.waiting.retain(|ask| ask.topic.about != about);
        for (topic, state) in &mut self.states {
            if topic.about == about && matches!(state, State::Waiting | State::Working(_)) {
                *state = State::Stopped;
            }
        }
        match &self.worker {
            Worker::Busy(_, topic) if topic.about == about => {
                self.worker = Worker::None;
                self.end()
            }
            _ => Vec::new(),
        }
    }

    /// Drops what is here about this: whoever asked for it has taken it.
    pub fn forget(&mut self, about: &str) {
        self.states
            .retain(|(topic, state)| topic.about != about || is_coming(state));
    }

    /// Ends the worker, and starts the next where somebody waits.
    fn end(&mut self) -> Vec<Step> {
        let mut steps = vec![Step::End];
        steps.extend(self.advance());
        steps
    }

    /// What the next ask needs, where one waits.
    fn advance(&mut self) -> Vec<Step> {
        if self.waiting.is_empty() {
            return Vec::new();
        }
        match self.worker {
            Worker::None => {
                self.worker = Worker::Starting;
                vec![Step::Start]
            }
            Worker::Starting | Worker::Busy(..) => Vec::new(),
            Worker::Idle => self.post_next(),
        }
    }

    fn post_next(&mut self) -> Vec<Step> {
        while let Some(Ask { topic, job }) = self.waiting.pop_front() {
            self.latest += 1;
            let id = self.latest;
            match (Request { id, job }).write() {
                Ok(text) => {
                    self.worker = Worker::Busy(id, topic);
                    return vec![Step::Post(text)];
                }
                Err(fault) => {
                    self.set(&topic, State::Failed(Fault::Refused(fault.to_string())));
                }
            }
        }
        Vec::new()
    }

    /// Where a newer version was asked for since, this is of no more use.
    fn set(&mut self, topic: &Topic, state: State) {
        let mut states = self.states.iter_mut();
        if let Some((_, own)) = states.find(|(own, _)| own == topic) {
            *own = state;
        }
    }

    /// Drops the oldest results; what is still to come stays.
    fn forget_old(&mut self) {
        while self.states.len() > MOST_KEPT {
            let oldest = self.states.iter().position(|(_, state)| !is_coming(state));
            let Some(oldest) = oldest else { return };
            self.states.remove(oldest);
        }
    }
}

fn is_coming(state: &State) -> bool {
    matches!(state, State::Waiting | State::Working(_))
}
