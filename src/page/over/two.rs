use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use super::laid_over;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::widgets::SelectField;
use crate::page::{dom, paths};
use crate::present::over::{TwoPieces, two_pieces};
use crate::records::LearnerId;

/// Two pieces of a learner, one laid over the other.
#[component]
pub(crate) fn OverPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let asked = use_query_map().with_untracked(|query| query.get("one"));
    let one = RwSignal::new(asked.unwrap_or_default());
    let other = RwSignal::new(String::new());
    let shown = Memo::new(move |_| {
        let id = id.get()?;
        one.with(|one| {
            other.with(|other| {
                keeper.look(|ledger, rubrics| two_pieces(ledger, rubrics, id, one, other))
            })
        })
    });
    let who = Memo::new(move |_| {
        let name = shown.with(|shown| Some(shown.as_ref()?.name.clone()))?;
        Some((id.get()?, name))
    });
    move || match who.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, name)) => page(id, name, shown, one, other),
    }
}

fn page(
    id: LearnerId,
    name: String,
    shown: Memo<Option<TwoPieces>>,
    one: RwSignal<String>,
    other: RwSignal<String>,
) -> AnyView {
    dom::set_title(&format!("{name}, two pieces over each other"));
    let ones = Memo::new(move |_| {
        shown.with(|shown| {
            shown
                .as_ref()
                .map(|shown| shown.ones.clone())
                .unwrap_or_default()
        })
    });
    let choice = Memo::new(move |_| {
        shown.with(|shown| {
            let choice = shown.as_ref().map(|shown| shown.choice.clone());
            choice.unwrap_or_default()
        })
    });
    let choose = move || {
        let options = ones.get();
        view! { <SelectField id="over-one" label="The shoe" options value=one /> }
    };
    let inside = move || {
        if ones.with(Vec::is_empty) {
            view! {
                <p class="part">
                    "No sealed marking of theirs that may be seen keeps an outline yet. One is kept when readings are taken from a photo."
                </p>
            }
            .into_any()
        } else {
            view! { <section class="part stack" aria-label="Laid over">{choose} {laid_over(choice, other)}</section> }
                .into_any()
        }
    };
    view! {
        <div class="page-head">
            <div>
                <h1>"Two pieces laid over each other"</h1>
                <p><bdi>{name.clone()}</bdi></p>
            </div>
            <div class="actions">
                <a class="button" data-kind="quiet" href=paths::learner(id)><bdi>{name}</bdi></a>
            </div>
        </div>
        {inside}
    }
    .into_any()
}
