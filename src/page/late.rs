//! What the browser fetches once the first screen stands.
//!
//! The program comes as two modules, so that the first is small: it opens the ledger,
//! shows the bench and the help. The second one is all that nothing but [`table`]
//! reaches: the other pages, reading rubrics and marking, writing. The build takes
//! them apart (`scripts/lib/split`). So a call past the table, from what the first
//! one has, brings what it calls back into the first; the size bar of
//! `scripts/check` finds out.

use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen_futures::spawn_local;

use super::keeper::Keeper;
use super::learner::LearnerPage;
use super::learners::LearnersPage;
use super::ledger::LedgerPage;
use super::mark_sheet::MarkSheetPage;
use super::notices::{Notice, Remedy, Weight};
use super::sheet::SheetPage;
use super::start::StartPage;
use super::{dom, writer};
use crate::present::Scorer;

/// Key of the notice that the second module is missing.
const NOT_FETCHED: &str = "not-fetched";

/// A page of the second module.
type Page = fn() -> AnyView;

/// The ways into the second module.
#[derive(Debug, Clone, Copy)]
pub(super) struct Table {
    pub(super) start: Page,
    pub(super) mark_sheet: Page,
    pub(super) sheet: Page,
    pub(super) learners: Page,
    pub(super) learner: Page,
    pub(super) ledger: Page,
    pub(super) save: fn(Keeper),
    pub(super) scorer: fn() -> Scorer,
}

// A call fetches the module first. The macro gives the symbol that the build looks for.
#[wasm_split(late, wasm_split_path = ::leptos::wasm_split, fallible)]
fn table() -> Result<Table, SplitLoaderError> {
    Ok(Table {
        start: || view! { <StartPage /> }.into_any(),
        mark_sheet: || view! { <MarkSheetPage /> }.into_any(),
        sheet: || view! { <SheetPage /> }.into_any(),
        learners: || view! { <LearnersPage /> }.into_any(),
        learner: || view! { <LearnerPage /> }.into_any(),
        ledger: || view! { <LedgerPage /> }.into_any(),
        save: writer::save,
        scorer: Scorer::new,
    })
}

/// Whether the second module is there.
#[derive(Debug, Clone, Copy)]
enum Stage {
    Coming,
    Here(Table),
    Failed,
}

/// The second module. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Late(RwSignal<Stage>);

impl Late {
    pub(super) fn new() -> Self {
        Self(RwSignal::new(Stage::Coming))
    }

    /// The ways into the module; whoever asks in a view or memo hears of its coming.
    pub(super) fn table(self) -> Option<Table> {
        in_stage(self.0.get())
    }

    /// As [`Late::table`], for tasks and event handlers.
    pub(super) fn table_now(self) -> Option<Table> {
        in_stage(self.0.get_untracked())
    }
}

fn in_stage(stage: Stage) -> Option<Table> {
    match stage {
        Stage::Here(table) => Some(table),
        Stage::Coming | Stage::Failed => None,
    }
}

/// Fetches the module; again, should the network come back after it failed.
pub(super) fn fetch(keeper: Keeper) {
    request(keeper);
    // Lives as long as the page.
    let _ = window_event_listener(ev::online, move |_| fetch_again(keeper));
}

/// Fetches the module if it has failed to come.
pub(super) fn fetch_again(keeper: Keeper) {
    let Late(stage) = keeper.late();
    if matches!(stage.get_untracked(), Stage::Failed) {
        stage.set(Stage::Coming);
        keeper.notices().clear(NOT_FETCHED);
        request(keeper);
    }
}

fn request(keeper: Keeper) {
    let Late(stage) = keeper.late();
    spawn_local(async move {
        match table().await {
            Ok(table) => {
                keeper.score_with((table.scorer)());
                stage.set(Stage::Here(table));
                // What another tab has stored in the meantime.
                keeper.save();
            }
            Err(_) => {
                stage.set(Stage::Failed);
                keeper.notices().show(Notice {
                    key: NOT_FETCHED,
                    weight: Weight::Stop,
                    text: "Only a part of the page came over the network: marks and most pages \
                           are missing. Nothing kept on this device is lost. Try again once \
                           there is a connection."
                        .to_owned(),
                    remedy: Some(Remedy::FetchAgain),
                    closes: false,
                });
            }
        }
    });
}

/// A page of the second module, or a word while there is none.
pub(super) fn late_page(pick: fn(&Table) -> Page) -> AnyView {
    let keeper = Keeper::here();
    let Late(stage) = keeper.late();
    fetch_again(keeper);
    (move || match stage.get() {
        Stage::Here(table) => {
            if dom::is_heading_focused() {
                // The one that stood for it goes.
                request_animation_frame(dom::focus_heading);
            }
            pick(&table)()
        }
        Stage::Coming => stand_in("Opening…", true),
        Stage::Failed => stand_in("This page is missing", false),
    })
    .into_any()
}

fn stand_in(text: &'static str, is_busy: bool) -> AnyView {
    dom::set_title(text);
    view! {
        <div class="page-head" aria-busy=is_busy.then_some("true")>
            <div>
                <h1>{text}</h1>
            </div>
        </div>
    }
    .into_any()
}
