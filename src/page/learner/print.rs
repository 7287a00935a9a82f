use leptos::prelude::*;

use super::chosen_rubric;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::Paper;
use crate::page::{clock, paths};
use crate::present::learner_print;
use crate::records::LearnerId;

/// A learner's record on one page of paper.
#[component]
pub(crate) fn LearnerPrintPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let chosen = chosen_rubric();
    let page = Memo::new(move |_| {
        let id = id.get()?;
        let chosen = chosen.get();
        let document = keeper.look(|ledger, rubrics| {
            learner_print(ledger, rubrics, id, chosen.as_deref(), clock::now())
        });
        Some((id, chosen, document?))
    });
    move || match page.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, chosen, document)) => {
            // A browser that prints to a file names it so.
            document_title(&document.title);
            let back = match chosen {
                Some(rubric) => paths::learner_by(id, &rubric),
                None => paths::learner(id),
            };
            view! {
                <div class="actions screen-only">
                    <button
                        type="button"
                        class="button"
                        data-kind="primary"
                        on:click=move |_| drop(window().print())
                    >
                        "Print"
                    </button>
                    <a class="button" data-kind="quiet" href=back><bdi>{document.title.clone()}</bdi></a>
                </div>
                <div class="one-page"><Paper document /></div>
            }
            .into_any()
        }
    }
}

fn document_title(name: &str) {
    leptos::prelude::document().set_title(&format!("{name}, learner’s record"));
}
