use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{dom, paths};
use crate::present::mark_sheet::blank_of_rubric;

/// The sheet to fill in by hand of one rubric.
#[component]
pub(crate) fn BlankPage() -> impl IntoView {
    dom::set_title("Sheet to fill in by hand");
    let keeper = Keeper::here();
    let key = paths::text_in_path("rubric");
    let shipped = StoredValue::new(keeper.offers());
    let document = Memo::new(move |_| {
        let key = key.get();
        keeper.with_ledger(|ledger| {
            shipped.with_value(|shipped| blank_of_rubric(ledger, shipped, &key))
        })
    });
    move || match document.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(document) => view! {
            <div class="actions screen-only">
                <PrintButton />
                <SaveDocument document=document.clone() what="blank-sheet" />
                <a class="button" data-kind="quiet" href=paths::rubric(&key.get_untracked())>
                    {document.title.clone()}
                </a>
            </div>
            <Paper document />
        }
        .into_any(),
    }
}
