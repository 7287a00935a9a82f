use leptos::prelude::*;

use super::chosen_rubric;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
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
            let title = format!("{}, learner’s record", document.title);
            leptos::prelude::document().set_title(&title);
            let back = match chosen {
                Some(rubric) => paths::learner_by(id, &rubric),
                None => paths::learner(id),
            };
            view! {
                <div class="actions screen-only">
                    <PrintButton />
                    <SaveDocument document=document.clone() what="learner-record" />
                    <a class="button" data-kind="quiet" href=back><bdi>{document.title.clone()}</bdi></a>
                </div>
                <div class="one-page"><Paper document /></div>
            }
            .into_any()
        }
    }
}
