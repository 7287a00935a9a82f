//! The page that checks a saved file: what it is, whether it is as it was sealed, what it
//! says. Nothing of it is taken in.

mod ledger;
mod marking;
mod work;

use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

pub(super) use work::check_all;

use super::dom;
use super::file_choice::FileChoice;
use crate::present::verify::{LedgerFound, MarkingFound, Outcome, SignatureFound};

/// How far a file has come.
#[derive(Debug, Clone)]
enum Stage {
    Waiting,
    /// With how far it is.
    Working(String),
    Refused(String),
    Marking(Arc<MarkingFound>, SignatureFound),
    Ledger(Arc<LedgerFound>),
}

/// Whether the work on a file goes on: another file or a push on Stop ends it.
#[derive(Debug, Clone, Copy)]
struct Run {
    number: u32,
    latest: StoredValue<u32>,
    stopped: StoredValue<bool>,
}

impl Run {
    /// Whether this is the file that is looked at; not once the page is left.
    fn is_current(self) -> bool {
        self.latest.try_get_value() == Some(self.number)
    }

    fn is_stopped(self) -> bool {
        self.stopped.try_get_value() != Some(false)
    }
}

/// Choose or drop a file and learn whether it is intact.
#[component]
pub(super) fn VerifyPage() -> impl IntoView {
    dom::set_title("Verify");
    let stage = RwSignal::new(Stage::Waiting);
    let latest = StoredValue::new(0_u32);
    let stopped = StoredValue::new(false);
    let chosen = UnsyncCallback::new(move |file| {
        let number = latest.get_value().wrapping_add(1);
        latest.set_value(number);
        stopped.set_value(false);
        stage.set(Stage::Working("Reading the file…".to_owned()));
        let run = Run {
            number,
            latest,
            stopped,
        };
        spawn_local(work::look(file, stage, run));
    });
    let busy = Signal::derive(move || stage.with(|stage| matches!(stage, Stage::Working(_))));
    let refused = Signal::derive(move || stage.with(|stage| matches!(stage, Stage::Refused(_))));
    let found = Memo::new(move |_| stage.with(found_number));
    view! {
        <div class="page-head">
            <div>
                <h1>"Verify"</h1>
                <p>"See whether a saved file is as it was sealed. Nothing of it is taken in, and nothing leaves this device."</p>
            </div>
        </div>
        <div class="stack narrow">
            <FileChoice
                id="verify-file"
                label="Saved file"
                hint="The JSON of a sheet, or a ledger file. Choose it, or drop it here."
                accept=".json,application/json"
                busy
                refused
                chosen
            />
            <div class="stack" role="status" id="verify-says">
                {move || stage.with(|stage| says(stage, stopped))}
            </div>
        </div>
        {move || {
            found.get();
            stage.with_untracked(shown)
        }}
    }
}

/// Changes where another finding is to be shown, and not with each step of the work.
fn found_number(stage: &Stage) -> usize {
    match stage {
        Stage::Waiting | Stage::Working(_) | Stage::Refused(_) => 0,
        Stage::Marking(found, _) => Arc::as_ptr(found).addr(),
        Stage::Ledger(found) => Arc::as_ptr(found).addr(),
    }
}

fn says(stage: &Stage, stopped: StoredValue<bool>) -> Option<AnyView> {
    match stage {
        Stage::Waiting => None,
        Stage::Working(text) => {
            let text = text.clone();
            Some(
                view! {
                    <p>{text}</p>
                    <div class="actions">
                        <button
                            type="button"
                            class="button"
                            id="verify-stop"
                            on:click=move |_| stopped.set_value(true)
                        >
                            "Stop"
                        </button>
                    </div>
                }
                .into_any(),
            )
        }
        Stage::Refused(text) => {
            let text = text.clone();
            Some(
                view! { <div class="notice" data-kind="stop"><p dir="auto">{text}</p></div> }
                    .into_any(),
            )
        }
        Stage::Marking(found, signature) => {
            let (outcome, words) = found.with_signature(signature);
            let says = [found.says.clone(), signature.words()].concat();
            Some(verdict(outcome, words, &says))
        }
        Stage::Ledger(found) => Some(verdict(found.outcome, &found.verdict, &found.says)),
    }
}

fn verdict(outcome: Outcome, words: &str, says: &[String]) -> AnyView {
    let kind = match outcome {
        Outcome::Intact => None,
        Outcome::Partly => Some("warn"),
        Outcome::Altered => Some("stop"),
    };
    let says = says
        .iter()
        .map(|text| view! { <p dir="auto">{text.clone()}</p> })
        .collect_view();
    view! {
        <div class="notice" data-kind=kind>
            <p><b id="verify-verdict">{words.to_owned()}</b></p>
            {says}
        </div>
    }
    .into_any()
}

fn shown(stage: &Stage) -> Option<AnyView> {
    match stage {
        Stage::Waiting | Stage::Working(_) | Stage::Refused(_) => None,
        Stage::Marking(found, signature) => Some(marking::shown(found, signature)),
        Stage::Ledger(found) => Some(ledger::shown(found)),
    }
}
