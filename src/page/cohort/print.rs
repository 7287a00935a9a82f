use leptos::prelude::*;

use super::asked_in_address;
use super::figures::waiting;
use super::gather::Gathered;
use crate::page::keeper::Keeper;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{dom, paths};
use crate::present::cohort::cohort_asked;
use crate::records::Whom;

/// A cohort on paper: figures and matrix, from released marks only.
#[component]
pub(crate) fn CohortPrintPage() -> impl IntoView {
    dom::set_title("Cohort");
    let keeper = Keeper::here();
    let query = asked_in_address();
    let back = paths::cohort_by(&query);
    let asked = Memo::new(move |_| {
        keeper.with_ledger(|ledger| cohort_asked(ledger, &query, Whom::Learner))
    });
    let gathered = Gathered::begin(keeper, asked, Signal::stored(true));
    let state = gathered.state();
    move || {
        let back = view! { <a class="button" data-kind="quiet" href=back.clone()>"Cohort"</a> };
        let state = state.get();
        match state.sheet() {
            Some(sheet) => {
                let mut document = sheet.document.clone();
                document.blocks.extend(sheet.matrix.iter().cloned());
                if dom::is_heading_focused() {
                    // The one that stood for it goes.
                    request_animation_frame(dom::focus_heading);
                }
                view! {
                    <div class="actions screen-only">
                        <PrintButton />
                        <SaveDocument document=document.clone() what="cohort" />
                        {back}
                    </div>
                    <Paper document />
                }
                .into_any()
            }
            None => view! {
                <div class="page-head"><div><h1>"Cohort"</h1></div></div>
                <div class="actions screen-only">{back}</div>
                {waiting(gathered, state)}
            }
            .into_any(),
        }
    }
}
