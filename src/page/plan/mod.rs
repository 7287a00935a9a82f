//! The plan of a piece: what is asked on one side, what it comes to on the other.

mod form;
mod handed;

use leptos::prelude::*;

use form::{Asked, form};
pub(super) use handed::{BenchCardPage, LayOnPage};

use super::keeper::Keeper;
use super::lost::LostPage;
use super::paper::{Folds, Paper, PrintButton};
use super::widgets::SaveDocument;
use super::{dom, paths, preferences};
use crate::present::plan::{OwnRecord, PlanTyped, own_record, plan_shown, planned_rubric};
use crate::rubric::Rubric;
use crate::sheet::PLAN_BEHIND;

/// The plan of a rubric's piece.
#[component]
pub(super) fn PlanPage() -> impl IntoView {
    let key = paths::text_in_path("rubric");
    let rubric = rubric_in_path(key);
    move || match rubric.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(rubric) => planned(rubric, key.get_untracked()),
    }
}

/// The rubric of this key.
fn rubric_in_path(key: Memo<String>) -> Memo<Option<Rubric>> {
    let keeper = Keeper::here();
    let shipped = StoredValue::new(keeper.offers());
    Memo::new(move |_| {
        let key = key.get();
        keeper.with_ledger(|ledger| {
            shipped.with_value(|shipped| planned_rubric(ledger, shipped, &key))
        })
    })
}

/// What the ledger has of the chosen learner.
fn own_of(rubric: Rubric, typed: RwSignal<PlanTyped>) -> Memo<OwnRecord> {
    let keeper = Keeper::here();
    Memo::new(move |_| {
        keeper
            .look(|ledger, rubrics| typed.with(|typed| own_record(ledger, rubrics, &rubric, typed)))
    })
}

fn planned(rubric: Rubric, key: String) -> AnyView {
    dom::set_title(&format!("Plan: {}", rubric.title));
    let typed = RwSignal::new(preferences::plan(&key).unwrap_or_default());
    let kept = key.clone();
    Effect::new(move |_| typed.with(|typed: &PlanTyped| preferences::set_plan(&kept, typed)));
    let of = rubric.clone();
    let own = own_of(of.clone(), typed);
    let shown = Memo::new(move |_| typed.with(|typed| own.with(|own| plan_shown(&of, typed, own))));
    let asked = form(&rubric, Asked::of(&rubric, typed, own, shown));
    let document = move || shown.with(|shown| shown.document.clone());
    let folds = Folds::of(PLAN_BEHIND);
    view! {
        <div class="actions screen-only">
            <PrintButton />
            {move || view! { <SaveDocument document=document() what="plan" /> }}
            <a class="button" href=paths::bench_card(&key)>"Bench card"</a>
            <a class="button" href=paths::lay_on(&key)>"Lay-on gauge"</a>
            <a class="button" data-kind="quiet" href=paths::rubric(&key)>"The rubric"</a>
        </div>
        <div class="plan-page">
            <div class="screen-only">{asked}</div>
            <div>{move || view! { <Paper document=document() folds /> }}</div>
        </div>
    }
    .into_any()
}
