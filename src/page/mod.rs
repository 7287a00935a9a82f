//! The page: routes, pages and widgets over one [`Keeper`] of the ledger.
//!
//! A page reads view-models through [`Keeper::with_ledger`] and sends commands
//! through [`Keeper::perform`]; formulas and formatting live in `present`. What
//! must outlive a page belongs to the keeper, which is made once, under the root
//! owner that is never disposed.

mod again;
mod agree;
mod agreement;
mod awake;
mod bench;
mod clock;
mod cohort;
mod correct;
mod crypto;
mod device_key;
mod dom;
mod file_choice;
mod frame;
mod heats;
mod help;
mod invented;
mod jobs;
mod keeper;
mod late;
mod learner;
mod learners;
mod ledger;
mod lost;
mod mark_sheet;
mod notices;
mod open_file;
mod open_store;
mod over;
mod paper;
mod paths;
mod photo;
mod pictures;
mod plan;
mod preferences;
mod rubrics;
mod save_file;
mod seal;
mod sheet;
mod sittings;
mod slices;
mod start;
mod studies;
mod tabs;
mod tapping;
mod verify;
mod ways;
mod widgets;
mod writer;

use leptos::prelude::*;
use leptos_router::components::{FlatRoutes, Route, Router};
use leptos_router::path;
use wasm_bindgen_futures::spawn_local;

use bench::BenchPage;
use frame::Frame;
use help::HelpPage;
use keeper::Keeper;
use late::{desk_page, late_page};
use lost::LostPage;

/// Opens the ledger and puts the page in place of the element `starting`.
pub fn mount() {
    console_error_panic_hook::set_once();
    preferences::theme().show();
    spawn_local(async {
        let opened = open_store::open().await;
        dom::remove("starting");
        mount_to_body(move || {
            let keeper = Keeper::new(opened);
            provide_context(keeper);
            // Behind the first screen's own files.
            request_animation_frame(move || late::fetch(keeper));
            view! { <App /> }
        });
    });
}

#[component]
fn App() -> impl IntoView {
    view! {
        <Router>
            <Frame>
                <FlatRoutes fallback=|| view! { <LostPage /> }.into_any()>
                    <Route path=path!("/") view=|| view! { <BenchPage /> }.into_any() />
                    <Route path=path!("/pieces/new") view=|| late_page(|table| table.start) />
                    <Route path=path!("/pieces/:piece") view=|| late_page(|table| table.mark_sheet) />
                    <Route path=path!("/pieces/:piece/marking/:marking") view=|| late_page(|table| table.mark_sheet) />
                    <Route path=path!("/pieces/:piece/marking/:marking/photo") view=|| desk_page(|table| table.photo) />
                    <Route path=path!("/pieces/:piece/marking/:marking/heats") view=|| desk_page(|table| table.heats) />
                    <Route path=path!("/pieces/:piece/marking/:marking/paper") view=|| late_page(|table| table.on_paper) />
                    <Route path=path!("/pieces/:piece/sheet") view=|| late_page(|table| table.sheet) />
                    <Route path=path!("/pieces/:piece/sheet/:marking") view=|| late_page(|table| table.sheet) />
                    <Route path=path!("/pieces/:piece/sure") view=|| desk_page(|table| table.sure) />
                    <Route path=path!("/pieces/:piece/sheet/:marking/sure") view=|| desk_page(|table| table.sure) />
                    <Route path=path!("/pieces/:piece/side") view=|| late_page(|table| table.side) />
                    <Route path=path!("/pieces/:piece/again") view=|| late_page(|table| table.again) />
                    <Route path=path!("/pieces/:piece/examiners") view=|| late_page(|table| table.examiners) />
                    <Route path=path!("/pieces/:piece/agree") view=|| late_page(|table| table.agree) />
                    <Route path=path!("/pieces/:piece/correct/:marking") view=|| late_page(|table| table.correct) />
                    <Route path=path!("/learners") view=|| late_page(|table| table.learners) />
                    <Route path=path!("/learners/class") view=|| desk_page(|table| table.class) />
                    <Route path=path!("/learners/:learner") view=|| desk_page(|table| table.learner) />
                    <Route path=path!("/learners/:learner/print") view=|| desk_page(|table| table.learner_print) />
                    <Route path=path!("/learners/:learner/card") view=|| desk_page(|table| table.card) />
                    <Route path=path!("/learners/:learner/portfolio") view=|| desk_page(|table| table.portfolio) />
                    <Route path=path!("/learners/:learner/talk") view=|| desk_page(|table| table.talk) />
                    <Route path=path!("/learners/:learner/over") view=|| desk_page(|table| table.over) />
                    <Route path=path!("/cohort") view=|| desk_page(|table| table.cohort) />
                    <Route path=path!("/cohort/print") view=|| desk_page(|table| table.cohort_print) />
                    <Route path=path!("/sittings") view=|| desk_page(|table| table.sittings) />
                    <Route path=path!("/sittings/issue") view=|| desk_page(|table| table.issue) />
                    <Route path=path!("/sittings/:sitting/tickets") view=|| desk_page(|table| table.tickets) />
                    <Route path=path!("/sittings/:sitting/board") view=|| desk_page(|table| table.board) />
                    <Route path=path!("/sittings/:sitting") view=|| desk_page(|table| table.sitting) />
                    <Route path=path!("/agreement") view=|| desk_page(|table| table.agreement) />
                    <Route path=path!("/rubrics") view=|| desk_page(|table| table.list) />
                    <Route path=path!("/rubrics/:rubric") view=|| desk_page(|table| table.read) />
                    <Route path=path!("/rubrics/:rubric/blank") view=|| desk_page(|table| table.blank) />
                    <Route path=path!("/rubrics/:rubric/plan") view=|| desk_page(|table| table.plan) />
                    <Route path=path!("/rubrics/:rubric/plan/card") view=|| desk_page(|table| table.bench_card) />
                    <Route path=path!("/rubrics/:rubric/plan/lay-on") view=|| desk_page(|table| table.lay_on) />
                    <Route path=path!("/rubrics/:rubric/edit") view=|| desk_page(|table| table.work) />
                    <Route path=path!("/rubrics/:rubric/compare/:other") view=|| desk_page(|table| table.compare) />
                    <Route path=path!("/rubrics/:rubric/try/:piece") view=|| desk_page(|table| table.try_out) />
                    <Route path=path!("/ledger") view=|| desk_page(|table| table.ledger) />
                    <Route path=path!("/verify") view=|| desk_page(|table| table.verify) />
                    <Route path=path!("/ledger/instruments") view=|| desk_page(|table| table.instruments) />
                    <Route path=path!("/ledger/studies/:study") view=|| desk_page(|table| table.study) />
                    <Route path=path!("/help/photo-gauge") view=|| desk_page(|table| table.photo_help) />
                    <Route path=path!("/help") view=|| view! { <HelpPage /> }.into_any() />
                </FlatRoutes>
            </Frame>
        </Router>
    }
}
