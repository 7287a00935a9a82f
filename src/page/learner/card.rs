use leptos::prelude::*;

use super::practice::practice_in_path;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{CARDS, SaveDocument};
use crate::page::{dom, paths};

/// What a learner has to practise, as a card for the pocket.
#[component]
pub(crate) fn CardPage() -> impl IntoView {
    let page = practice_in_path();
    move || match page.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, shown)) => {
            dom::set_title(&format!("{}, practice card", shown.name));
            view! {
                <div class="actions screen-only">
                    <PrintButton />
                    <SaveDocument document=shown.card.clone() what="practice-card" sizes=CARDS />
                    <a class="button" data-kind="quiet" href=paths::learner(id)><bdi>{shown.name}</bdi></a>
                </div>
                <div class="card-sized"><Paper document=shown.card /></div>
            }
            .into_any()
        }
    }
}
