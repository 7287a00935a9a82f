use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{CARDS, SaveDocument};
use crate::page::{clock, dom, paths};
use crate::present::practice_page;
use crate::records::LearnerId;

/// What a learner has to practise, as a card for the pocket.
#[component]
pub(crate) fn CardPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let page = Memo::new(move |_| {
        let id = id.get()?;
        let shown = keeper.look(|ledger, rubrics| practice_page(ledger, rubrics, id, clock::now()));
        Some((id, shown?))
    });
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
