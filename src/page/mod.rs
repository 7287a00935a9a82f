//! The page: routes, pages and widgets over one [`Keeper`] of the ledger.
//!
//! A page reads view-models through [`Keeper::with_ledger`] and sends commands
//! through [`Keeper::perform`]; formulas and formatting live in `present`. What
//! must outlive a page belongs to the keeper, which is made once, under the root
//! owner that is never disposed.

mod bench;
mod clock;
mod dom;
mod frame;
mod help;
mod keeper;
mod learner;
mod learners;
mod lost;
mod mark_sheet;
mod notices;
mod open_store;
mod paths;
mod preferences;
mod seal;
mod sheet;
mod start;
mod tabs;
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
use learner::LearnerPage;
use learners::LearnersPage;
use lost::LostPage;
use mark_sheet::MarkSheetPage;
use sheet::SheetPage;
use start::StartPage;

/// Opens the ledger and puts the page in place of the element `starting`.
pub fn mount() {
    console_error_panic_hook::set_once();
    preferences::theme().show();
    spawn_local(async {
        let opened = open_store::open().await;
        dom::remove("starting");
        mount_to_body(move || {
            provide_context(Keeper::new(opened));
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
                    <Route path=path!("/pieces/new") view=|| view! { <StartPage /> }.into_any() />
                    <Route path=path!("/pieces/:piece") view=|| view! { <MarkSheetPage /> }.into_any() />
                    <Route path=path!("/pieces/:piece/sheet") view=|| view! { <SheetPage /> }.into_any() />
                    <Route path=path!("/learners") view=|| view! { <LearnersPage /> }.into_any() />
                    <Route path=path!("/learners/:learner") view=|| view! { <LearnerPage /> }.into_any() />
                    <Route path=path!("/help") view=|| view! { <HelpPage /> }.into_any() />
                </FlatRoutes>
            </Frame>
        </Router>
    }
}
