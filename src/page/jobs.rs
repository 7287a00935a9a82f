//! The worker beside the page: asked here, heard here, and started when it is first asked.
//!
//! Only pages of the later modules reach this. What it keeps outlives them, so that a
//! result is there at once when its page is opened again.

use std::cell::RefCell;
use std::collections::VecDeque;

use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{ErrorEvent, Event, MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::job::{Job, Queue, State, Step, Topic};

thread_local! {
    static QUEUE: ArcRwSignal<Queue> = ArcRwSignal::new(Queue::default());
    static WORKER: RefCell<Option<Running>> = const { RefCell::new(None) };
}

/// A worker with what hears it.
struct Running {
    worker: Worker,
    _heard: Closure<dyn Fn(MessageEvent)>,
    _broke: Closure<dyn Fn(Event)>,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

/// Asks for a result, unless it is here or on its way. Call it from event handlers,
/// effects and tasks.
pub(super) fn ask(topic: Topic, job: Job) {
    tell(|queue| queue.ask(topic, job));
}

/// Stops the work on this.
pub(super) fn stop(about: &str) {
    tell(|queue| queue.stop(about));
}

/// Lets go of the result about this, which whoever asked has taken.
pub(super) fn forget(about: &str) {
    queue().update(|queue| queue.forget(about));
}

/// How a result stands; whoever asks in a view or memo hears of changes.
pub(super) fn state(topic: &Topic) -> Option<State> {
    queue().with(|queue| queue.state(topic).cloned())
}

fn queue() -> ArcRwSignal<Queue> {
    QUEUE.with(Clone::clone)
}

/// Tells the queue something and takes the steps that it asks for.
fn tell(something: impl FnOnce(&mut Queue) -> Vec<Step>) {
    let queue = queue();
    let mut first = Vec::new();
    queue.update(|queue| first = something(queue));
    let mut steps = VecDeque::from(first);
    while let Some(step) = steps.pop_front() {
        if let Err(why) = take(&step) {
            queue.update(|queue| steps = queue.broke(&why).into());
        }
    }
}

/// Takes a step.
///
/// *Errors:* what the browser says.
fn take(step: &Step) -> Result<(), String> {
    match step {
        Step::Start => {
            let running = start()?;
            WORKER.with_borrow_mut(|slot| *slot = Some(running));
            Ok(())
        }
        Step::Post(text) => WORKER.with_borrow(|slot| match slot {
            Some(running) => {
                let posted = running.worker.post_message(&JsValue::from_str(text));
                posted.map_err(|fault| words(&fault))
            }
            None => Err("it has ended".to_owned()),
        }),
        Step::End => {
            WORKER.take();
            Ok(())
        }
    }
}

fn start() -> Result<Running, String> {
    let script = document().query_selector("script[data-worker]").ok();
    let address = script
        .flatten()
        .and_then(|script| script.get_attribute("data-worker"));
    let address = address.ok_or("this page was built without one")?;
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&address, &options).map_err(|fault| words(&fault))?;
    let heard = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        let text = event.data().as_string().unwrap_or_default();
        tell(|queue| queue.hear(&text));
    });
    let broke = Closure::<dyn Fn(Event)>::new(|event: Event| {
        // A file that does not come is told of without a word.
        let fault = event.dyn_ref::<ErrorEvent>().map(ErrorEvent::message);
        let why = fault.unwrap_or_else(|| "its file did not come".to_owned());
        tell(|queue| queue.broke(&why));
    });
    worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    worker.set_onerror(Some(broke.as_ref().unchecked_ref()));
    Ok(Running {
        worker,
        _heard: heard,
        _broke: broke,
    })
}

/// What the browser says about a fault.
fn words(fault: &JsValue) -> String {
    let error = fault.dyn_ref::<js_sys::Error>();
    error.map_or_else(|| format!("{fault:?}"), |error| error.message().into())
}
