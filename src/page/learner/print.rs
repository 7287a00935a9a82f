use leptos::prelude::*;

use super::figures::Figures;
use super::span::asked_in_address;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{clock, paths};
use crate::present::learner_print;
use crate::records::{LearnerId, Whom};

/// A learner's record on one page of paper.
#[component]
pub(crate) fn LearnerPrintPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let asked = asked_in_address();
    let figures = Figures::begin(id, asked, Signal::derive(|| Whom::Learner));
    let page = Memo::new(move |_| {
        let id = id.get()?;
        let asked = asked.get();
        let known = figures.known(asked.clone());
        let document =
            keeper.look(|ledger, rubrics| learner_print(ledger, rubrics, id, &known, clock::now()));
        Some((id, asked, document?))
    });
    move || match page.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, asked, document)) => {
            // A browser that prints to a file names it so.
            let title = format!("{}, learner’s record", document.title);
            leptos::prelude::document().set_title(&title);
            let back = paths::learner_by(id, &asked);
            view! {
                <div class="actions screen-only">
                    <PrintButton />
                    <SaveDocument document=document.clone() what="learner-record" />
                    <a class="button" data-kind="quiet" href=back><bdi>{document.title.clone()}</bdi></a>
                </div>
                {move || figures.meanwhile()}
                <div class="one-page"><Paper document /></div>
            }
            .into_any()
        }
    }
}
