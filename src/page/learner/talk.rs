use leptos::prelude::*;

use super::practice::{practice_in_path, told, where_on_it};
use crate::page::lost::LostPage;
use crate::page::{dom, paths};
use crate::present::PracticePage;
use crate::records::LearnerId;
use crate::sheet::PracticeShown;

/// What a learner has to practise, large enough for two who look at one tablet. Marks are
/// shown only when somebody asks for them, and only those that are released.
#[component]
pub(crate) fn TalkPage() -> impl IntoView {
    let page = practice_in_path();
    move || match page.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, shown)) => talk(id, shown),
    }
}

fn talk(id: LearnerId, shown: PracticePage) -> AnyView {
    dom::set_title(&format!("{}, to practise next", shown.name));
    let none = shown.practice.is_empty().then(|| {
        view! { <p class="notice">"Nothing cost marks in the latest pieces, or none is marked yet."</p> }
    });
    let points = shown.practice.into_iter().map(point).collect_view();
    // The marks wait until somebody asks: what to practise comes first.
    let latest = (!shown.latest.is_empty()).then(|| {
        view! {
            <details class="numbers-behind">
                <summary>"Marks of the latest piece"</summary>
                <p><bdi>{shown.latest}</bdi></p>
            </details>
        }
    });
    view! {
        <div class="page-head">
            <div>
                <h1>"To practise next"</h1>
                <p><bdi>{shown.name.clone()}</bdi></p>
            </div>
            <div class="actions">
                <a class="button" href=paths::learner_card(id)>"Practice card"</a>
                <a class="button" data-kind="quiet" href=paths::learner(id)><bdi>{shown.name}</bdi></a>
            </div>
        </div>
        {none}
        <ol class="talk">{points}</ol>
        {latest}
    }
    .into_any()
}

fn point(shown: PracticeShown) -> AnyView {
    let lines = told([
        ("Practise", shown.remedy),
        ("Cause", shown.cause),
        ("Reach", shown.aim),
    ]);
    view! {
        <li>
            <h2 dir="auto">{shown.name}</h2>
            {shown.place.map(where_on_it)}
            {lines}
        </li>
    }
    .into_any()
}
