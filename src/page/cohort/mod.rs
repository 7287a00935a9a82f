//! Many learners by one rubric: the matrix at once, the figures once the worker has them.

mod figures;
mod gather;
mod grid;
mod print;

use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use super::keeper::Keeper;
use super::widgets::{HeldNotice, SaveCohort, SelectField, held_shown, whom};
use super::{dom, paths};
use crate::present::cohort::{
    CohortQuery, cohort_asked, cohort_choices, cohort_page, cohort_query, standings,
};
use crate::present::sentence;
use figures::Figures;
use gather::Gathered;
use grid::Grid;
pub(super) use print::CohortPrintPage;

/// What the address asks about a cohort.
fn asked_in_address() -> CohortQuery {
    use_query_map().with_untracked(|query| {
        let part = |name: &str| query.get(name).unwrap_or_default();
        CohortQuery {
            rubric: part("rubric"),
            group: part("group"),
            latest: part("latest"),
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
    let rubric = RwSignal::new(start.rubric);
    let group = RwSignal::new(start.group);
    let latest = RwSignal::new(start.latest);
    let (shows, turn) = held_shown(Memo::new(|_| Some(())));
    let asked = Memo::new(move |_| {
        let query = CohortQuery {
            rubric: rubric.get(),
            group: group.get(),
            latest: latest.get(),
        };
        let whom = whom(shows);
        keeper.with_ledger(|ledger| cohort_asked(ledger, &query, whom))
    });
    let shown = Memo::new(move |_| {
        asked.with(|asked| {
            keeper.look(|ledger, rubrics| cohort_page(ledger, rubrics, asked.as_ref()))
        })
    });
    let gathered = Gathered::begin(keeper, asked);
    let state = gathered.state();
    let standings = Memo::new(move |_| state.with(standings));
    let held = Memo::new(move |_| {
        shown.with(|page| match page.held.as_str() {
            "" => String::new(),
            held => sentence(held),
        })
    });
    let empty = Memo::new(move |_| shown.with(|page| page.empty.clone()));
    let [rubrics, groups, counts] = keeper.look_now(|ledger, _| cohort_choices(ledger));
    let form = (!rubrics.is_empty()).then(|| {
        view! {
            <div class="part cohort-choices screen-only">
                <SelectField id="cohort-rubric" label="Rubric" options=rubrics value=rubric />
                <SelectField id="cohort-group" label="Who" options=groups value=group />
                <SelectField id="cohort-latest" label="What stands for a learner" options=counts value=latest />
            </div>
        }
    });
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
        {form}
        <Show when=move || held.with(|held| !held.is_empty())>
            <HeldNotice words=held shown=shows turn />
        </Show>
        <div class:screen-only=shows>
            <Show
                when=move || empty.with(String::is_empty)
                fallback=move || view! { <p class="part">{empty.get()}</p> }
            >
                <Grid shown standings />
                <Figures gathered />
            </Show>
        </div>
    }
}
