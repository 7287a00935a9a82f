use std::time::Duration;

use leptos::prelude::*;
use leptos_router::hooks::use_location;

use super::dom;
use super::invented::Sign;
use super::keeper::Keeper;
use super::notices::NoticeList;
use super::paths;
use crate::present::Saving;

/// A write that takes less is not worth a word.
const NOTEWORTHY: Duration = Duration::from_millis(400);

/// What is around every page: skip link, head, notices, and the place of the page.
#[component]
pub(super) fn Frame(children: Children) -> impl IntoView {
    let path = use_location().pathname;
    Effect::new(move |before: Option<String>| {
        let now = path.get();
        if before.is_some_and(|before| before != now) {
            request_animation_frame(dom::focus_heading);
        }
        now
    });
    // The base address would lead a bare `#main` to the bench.
    let skip_to = move || format!("{}#main", path.get());
    let skip = |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        dom::focus_main();
    };
    view! {
        <a class="skip" href=skip_to on:click=skip>"Skip to the page"</a>
        <header class="top">
            <a class="name" href=paths::BENCH>"Evenshod"</a>
            <nav aria-label="Pages">
                <ul class="nav">
                    {nav_link(paths::BENCH, "Bench", path)}
                    {nav_link(paths::LEARNERS, "Learners", path)}
                    {nav_link(paths::SITTINGS, "Sittings", path)}
                    {nav_link(paths::RUBRICS, "Rubrics", path)}
                    {nav_link(paths::LEDGER, "Ledger", path)}
                    {nav_link(paths::HELP, "Help", path)}
                </ul>
            </nav>
            <SavedStatus />
        </header>
        <main id="main" tabindex="-1">
            <NoticeList />
            <Sign />
            {children()}
        </main>
    }
}

fn nav_link(href: &'static str, name: &'static str, path: Memo<String>) -> impl IntoView {
    let is_here = move || {
        path.with(|path| match href {
            paths::BENCH => path == href || path.starts_with("/pieces"),
            _ => path.starts_with(href),
        })
    };
    view! {
        <li>
            <a href=href aria-current=move || is_here().then_some("page")>{name}</a>
        </li>
    }
}

/// How far what is typed is stored. The words wait until a write takes long, so
/// that they stand still while somebody types.
#[component]
fn SavedStatus() -> impl IntoView {
    let keeper = Keeper::here();
    let words = RwSignal::new(keeper.saving_now().words());
    Effect::new(move |_| {
        let saving = keeper.saving();
        if saving != Saving::Saving {
            words.set(saving.words());
            return;
        }
        set_timeout(
            move || {
                if keeper.saving_now() == Saving::Saving {
                    words.set(Saving::Saving.words());
                }
            },
            NOTEWORTHY,
        );
    });
    view! {
        <p class="saved" role="status" data-state=move || keeper.saving().word()>
            {move || words.get()}
        </p>
    }
}
