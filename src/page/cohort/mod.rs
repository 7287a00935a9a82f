//! Many learners by one rubric: the matrix at once, the figures once the worker has them.

mod figures;
mod form;
mod gather;
mod grid;
mod medians;
mod print;

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use super::keeper::Keeper;
use super::widgets::{HeldNotice, SaveCohort, held_shown, whom};
use super::{dom, paths};
use crate::present::cohort::{CohortQuery, cohort_asked, cohort_page, cohort_query, standings};
use crate::present::sentence;
use figures::Figures;
use form::Form;
use gather::Gathered;
use grid::Grid;
use medians::Medians;
pub(super) use print::CohortPrintPage;

/// What the address asks about a cohort.
fn asked_in_address() -> CohortQuery {
    use_query_map().with_untracked(|query| {
        let part = |name: &str| query.get(name).unwrap_or_default();
        CohortQuery {
            rubric: part("rubric"),
            group: part("group"),
            latest: part("latest"),
            from: part("from"),
            to: part("to"),
            other: part("other"),
        }
    })
}

/// Learners by criterion, and what the group shows.
#[component]
pub(super) fn CohortPage() -> impl IntoView {
    dom::set_title("Cohort");
    let keeper = Keeper::here();
    let start = asked_in_address();
    // What the form shows before any choice is what is usual.
    let usual = keeper.look_now(|ledger, _| {
        cohort_asked(ledger, &start, crate::records::Whom::Learner)
            .map(|asked| cohort_query(&asked))
    });
    let start = usual.unwrap_or(start);
    let form = Form::of(start);
    let (shows, turn) = held_shown(Memo::new(|_| Some(())));
    let asked = Memo::new(move |_| {
        let whom = whom(shows);
        keeper.with_ledger(|ledger| cohort_asked(ledger, &form.query(), whom))
    });
    form.stands_in_address(asked);
    let shown = Memo::new(move |_| {
        asked.with(|asked| {
            keeper.look(|ledger, rubrics| cohort_page(ledger, rubrics, asked.as_ref()))
        })
    });
    let medians = Medians::begin(keeper, asked, shown);
    let gathered = Gathered::begin(keeper, asked, medians.is_done());
    let state = gathered.state();
    let standings = Memo::new(move |_| state.with(standings));
    let held = Memo::new(move |_| {
        shown.with(|page| match page.held.as_str() {
            "" => String::new(),
            held => sentence(held),
        })
    });
    let empty = Memo::new(move |_| shown.with(|page| page.empty.clone()));
    let print = move || {
        let query = asked.with(|asked| asked.as_ref().map(cohort_query));
        paths::cohort_print(&query.unwrap_or_default())
    };
    let wanted = Callback::new(move |()| gathered.cohort());
    view! {
        <div class="page-head">
            <div>
                <h1>"Cohort"</h1>
                <p>{move || shown.with(|page| page.about.clone())}</p>
            </div>
            <Show when=move || empty.with(String::is_empty)>
                <div class="actions">
                    <a class="button" href=print>"Page to print"</a>
                    <SaveCohort wanted />
                </div>
            </Show>
        </div>
        {form.view(keeper)}
        <Show when=move || held.with(|held| !held.is_empty())>
            <HeldNotice words=held shown=shows turn />
        </Show>
        <div class:screen-only=shows>
            <Show
                when=move || empty.with(String::is_empty)
                fallback=move || view! { <p class="part">{empty.get()}</p> }
            >
                <Grid shown medians standings />
                <Figures gathered />
            </Show>
        </div>
    }
}
