//! What the browser fetches once the first screen stands.
//!
//! The program comes as three modules, so that the first is small: it opens the ledger,
//! shows the bench and the help. The second one is all that nothing but [`table`]
//! reaches: the pages of marking, reading rubrics and marking, writing. The third is
//! reached by [`desk_table`] alone: the pages of rubrics, of one learner, of a cohort, of
//! sittings, of the ledger, of how sure a marking is, agreement between examiners, the
//! invented school; it comes behind the second.
//! The build takes them apart (`scripts/lib/split`). So a call past a table, from what
//! the first one has, brings what it calls back into the first; the size bars of
//! `scripts/check` find out.

use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen_futures::spawn_local;

use super::again::AgainPage;
use super::agree::AgreePage;
use super::agreement::AgreementPage;
use super::cohort::{CohortPage, CohortPrintPage};
use super::correct::CorrectPage;
use super::heats::HeatsPage;
use super::keeper::Keeper;
use super::learner::{CardPage, ClassPage, LearnerPage, LearnerPrintPage, PortfolioPage, TalkPage};
use super::learners::LearnersPage;
use super::ledger::{InstrumentsPage, LedgerPage};
use super::mark_sheet::{MarkSheetPage, OnPaperPage};
use super::notices::{Notice, Remedy, Weight};
use super::over::OverPage;
use super::photo::{PhotoHelpPage, PhotoPage};
use super::plan::{BenchCardPage, LayOnPage, PlanPage};
use super::rubrics::{BlankPage, ComparePage, ReadPage, RubricsPage, TryPage, WorkPage};
use super::sheet::{ExaminersPage, SheetPage, SidePage, SurePage};
use super::sittings::{BoardPage, IssuePage, SittingPage, SittingsPage, TicketsPage};
use super::start::StartPage;
use super::studies::StudyPage;
use super::verify::VerifyPage;
use super::{dom, writer};
use crate::command::{Command, CommandError, Made};
use crate::present::{InventedSign, Scorer, invented_sign, open_invented, remove_invented};
use crate::records::{Day, Ledger, Stamp};
use crate::store::Desk;

/// Key of the notice that the second module is missing.
const NOT_FETCHED: &str = "not-fetched";

/// A page of the second module.
type Page = fn() -> AnyView;

/// The ways into the second module.
#[derive(Debug, Clone, Copy)]
pub(super) struct Table {
    pub(super) start: Page,
    pub(super) mark_sheet: Page,
    pub(super) on_paper: Page,
    pub(super) sheet: Page,
    pub(super) side: Page,
    pub(super) again: Page,
    pub(super) examiners: Page,
    pub(super) agree: Page,
    pub(super) correct: Page,
    pub(super) learners: Page,
    pub(super) perform: fn(&mut Desk, Command, Stamp) -> Result<Made, CommandError>,
    pub(super) save: fn(Keeper),
    pub(super) scorer: fn() -> Scorer,
}

/// The ways into the third module.
#[derive(Debug, Clone, Copy)]
pub(super) struct DeskTable {
    pub(super) list: Page,
    pub(super) read: Page,
    pub(super) work: Page,
    pub(super) blank: Page,
    pub(super) plan: Page,
    pub(super) bench_card: Page,
    pub(super) lay_on: Page,
    pub(super) compare: Page,
    pub(super) try_out: Page,
    pub(super) ledger: Page,
    pub(super) verify: Page,
    pub(super) instruments: Page,
    pub(super) study: Page,
    pub(super) learner: Page,
    pub(super) learner_print: Page,
    pub(super) card: Page,
    pub(super) talk: Page,
    pub(super) class: Page,
    pub(super) portfolio: Page,
    pub(super) over: Page,
    pub(super) cohort: Page,
    pub(super) cohort_print: Page,
    pub(super) sure: Page,
    pub(super) sittings: Page,
    pub(super) sitting: Page,
    pub(super) issue: Page,
    pub(super) board: Page,
    pub(super) tickets: Page,
    pub(super) agreement: Page,
    pub(super) photo: Page,
    pub(super) heats: Page,
    pub(super) photo_help: Page,
    pub(super) invented_sign: fn(&Ledger) -> Option<InventedSign>,
    pub(super) open_invented: fn(&Ledger, Day) -> Result<Command, String>,
    pub(super) remove_invented: fn() -> Command,
}

// A call fetches the module first. The macro gives the symbol that the build looks for.
#[wasm_split(late, wasm_split_path = ::leptos::wasm_split, fallible)]
fn table() -> Result<Table, SplitLoaderError> {
    Ok(Table {
        start: || view! { <StartPage /> }.into_any(),
        mark_sheet: || view! { <MarkSheetPage /> }.into_any(),
        on_paper: || view! { <OnPaperPage /> }.into_any(),
        sheet: || view! { <SheetPage /> }.into_any(),
        side: || view! { <SidePage /> }.into_any(),
        again: || view! { <AgainPage /> }.into_any(),
        examiners: || view! { <ExaminersPage /> }.into_any(),
        agree: || view! { <AgreePage /> }.into_any(),
        correct: || view! { <CorrectPage /> }.into_any(),
        learners: || view! { <LearnersPage /> }.into_any(),
        perform: Desk::perform,
        save: writer::save,
        scorer: Scorer::new,
    })
}

#[wasm_split(desk, wasm_split_path = ::leptos::wasm_split, fallible)]
fn desk_table() -> Result<DeskTable, SplitLoaderError> {
    Ok(DeskTable {
        list: || view! { <RubricsPage /> }.into_any(),
        read: || view! { <ReadPage /> }.into_any(),
        work: || view! { <WorkPage /> }.into_any(),
        blank: || view! { <BlankPage /> }.into_any(),
        plan: || view! { <PlanPage /> }.into_any(),
        bench_card: || view! { <BenchCardPage /> }.into_any(),
        lay_on: || view! { <LayOnPage /> }.into_any(),
        compare: || view! { <ComparePage /> }.into_any(),
        try_out: || view! { <TryPage /> }.into_any(),
        ledger: || view! { <LedgerPage /> }.into_any(),
        verify: || view! { <VerifyPage /> }.into_any(),
        instruments: || view! { <InstrumentsPage /> }.into_any(),
        study: || view! { <StudyPage /> }.into_any(),
        learner: || view! { <LearnerPage /> }.into_any(),
        learner_print: || view! { <LearnerPrintPage /> }.into_any(),
        card: || view! { <CardPage /> }.into_any(),
        talk: || view! { <TalkPage /> }.into_any(),
        class: || view! { <ClassPage /> }.into_any(),
        portfolio: || view! { <PortfolioPage /> }.into_any(),
        over: || view! { <OverPage /> }.into_any(),
        cohort: || view! { <CohortPage /> }.into_any(),
        cohort_print: || view! { <CohortPrintPage /> }.into_any(),
        sure: || view! { <SurePage /> }.into_any(),
        sittings: || view! { <SittingsPage /> }.into_any(),
        sitting: || view! { <SittingPage /> }.into_any(),
        issue: || view! { <IssuePage /> }.into_any(),
        board: || view! { <BoardPage /> }.into_any(),
        tickets: || view! { <TicketsPage /> }.into_any(),
        agreement: || view! { <AgreementPage /> }.into_any(),
        photo: || view! { <PhotoPage /> }.into_any(),
        heats: || view! { <HeatsPage /> }.into_any(),
        photo_help: || view! { <PhotoHelpPage /> }.into_any(),
        invented_sign,
        open_invented,
        remove_invented,
    })
}

/// How far the later modules have come.
#[derive(Debug, Clone, Copy)]
struct Stage {
    table: Option<Table>,
    desk: Option<DeskTable>,
    has_failed: bool,
}

/// The later modules. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Late(RwSignal<Stage>);

impl Late {
    pub(super) fn new() -> Self {
        Self(RwSignal::new(Stage {
            table: None,
            desk: None,
            has_failed: false,
        }))
    }

    /// The ways into the second module; whoever asks in a view or memo hears of its coming.
    pub(super) fn table(self) -> Option<Table> {
        self.0.with(|stage| stage.table)
    }

    /// The ways into the third module; as [`Late::table`].
    pub(super) fn desk(self) -> Option<DeskTable> {
        self.0.with(|stage| stage.desk)
    }

    /// As [`Late::table`], for tasks and event handlers.
    pub(super) fn table_now(self) -> Option<Table> {
        self.0.with_untracked(|stage| stage.table)
    }
}

/// Fetches the modules; again, should the network come back after one failed.
pub(super) fn fetch(keeper: Keeper) {
    request(keeper);
    // Lives as long as the page.
    let _ = window_event_listener(ev::online, move |_| fetch_again(keeper));
}

/// Fetches what has failed to come.
pub(super) fn fetch_again(keeper: Keeper) {
    let Late(stage) = keeper.late();
    if stage.with_untracked(|stage| stage.has_failed) {
        stage.update(|stage| stage.has_failed = false);
        keeper.notices().clear(NOT_FETCHED);
        request(keeper);
    }
}

fn request(keeper: Keeper) {
    spawn_local(async move {
        if bring(keeper).await.is_err() {
            let Late(stage) = keeper.late();
            stage.update(|stage| stage.has_failed = true);
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
    });
}

/// One module after the other, as far as they are not here yet.
async fn bring(keeper: Keeper) -> Result<(), SplitLoaderError> {
    let Late(stage) = keeper.late();
    if stage.with_untracked(|stage| stage.table.is_none()) {
        let table = table().await?;
        keeper.score_with((table.scorer)());
        stage.update(|stage| stage.table = Some(table));
        // What another tab has stored in the meantime.
        keeper.save();
    }
    let desk = desk_table().await?;
    stage.update(|stage| stage.desk = Some(desk));
    Ok(())
}

/// A page of the second module, or a word while there is none.
pub(super) fn late_page(pick: fn(&Table) -> Page) -> AnyView {
    once_here(move |stage| stage.table.as_ref().map(pick))
}

/// A page of the third module, or a word while there is none.
pub(super) fn desk_page(pick: fn(&DeskTable) -> Page) -> AnyView {
    once_here(move |stage| stage.desk.as_ref().map(pick))
}

fn once_here(pick: impl Fn(&Stage) -> Option<Page> + Send + Sync + 'static) -> AnyView {
    let keeper = Keeper::here();
    let Late(stage) = keeper.late();
    fetch_again(keeper);
    let pick = StoredValue::new(pick);
    let find = move |stage: &Stage| pick.with_value(|pick| pick(stage));
    // A page that is here stays as it is when other modules come.
    let is_here = Memo::new(move |_| stage.with(|stage| find(stage).is_some()));
    let has_failed = Memo::new(move |_| !is_here.get() && stage.with(|stage| stage.has_failed));
    (move || {
        let page = is_here.get().then(|| stage.with_untracked(find)).flatten();
        match page {
            Some(page) => {
                if dom::is_heading_focused() {
                    // The one that stood for it goes.
                    request_animation_frame(dom::focus_heading);
                }
                page()
            }
            None if has_failed.get() => stand_in("This page is missing", false),
            None => stand_in("Opening…", true),
        }
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
