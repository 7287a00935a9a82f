use leptos::prelude::*;

use super::rubric_in_path;
use crate::job::PaperSize;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{BENCH_CARDS, PAGES, SaveDocument, SelectField, TextBox};
use crate::page::{dom, paths, preferences};
use crate::present::plan::{
    PLAN_GAUGE, PlanTyped, gauge_side, gauge_sides, gauge_usual, own_record, plan_card, plan_gauge,
};
use crate::rubric::Rubric;
use crate::sheet::Document;

/// What goes to the anvil.
#[component]
pub(crate) fn BenchCardPage() -> impl IntoView {
    dom::set_title("Bench card");
    let key = paths::text_in_path("rubric");
    let rubric = rubric_in_path(key);
    move || match rubric.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(rubric) => {
            let key = key.get_untracked();
            let typed = preferences::plan(&key).unwrap_or_default();
            let own = Keeper::here()
                .look_now(|ledger, rubrics| own_record(ledger, rubrics, &rubric, &typed));
            let print = view! { <PrintButton /> }.into_any();
            handed(
                plan_card(&rubric, &typed, &own),
                "bench-card",
                BENCH_CARDS,
                &key,
                print,
            )
        }
    }
}

/// The gauge to lay the made shoe on.
#[component]
pub(crate) fn LayOnPage() -> impl IntoView {
    dom::set_title("Lay-on gauge");
    let key = paths::text_in_path("rubric");
    let rubric = rubric_in_path(key);
    move || match rubric.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(rubric) => gauge(rubric, key.get_untracked()),
    }
}

fn gauge(rubric: Rubric, key: String) -> AnyView {
    let side = RwSignal::new(String::new());
    let typed = RwSignal::new(preferences::plan(&key).unwrap_or_default());
    let kept = key.clone();
    Effect::new(move |_| typed.with(|typed: &PlanTyped| preferences::set_plan(&kept, typed)));
    let usual = gauge_usual(&rubric);
    let shown = Memo::new(move |_| {
        let side = side.with(|word| gauge_side(word));
        typed.with(|typed| plan_gauge(&rubric, typed, side))
    });
    let tolerance = TextBox {
        id: PLAN_GAUGE.to_owned(),
        label: "Tolerance, to either side".to_owned(),
        hint: "Of width and length: between the broken lines. Left empty, what the rubric gives \
               most marks for.",
        lines: 1,
        value: Signal::derive(move || {
            let own = typed.with(|typed| typed.0.get(PLAN_GAUGE).cloned());
            own.unwrap_or_else(|| usual.clone())
        }),
        wrong: Signal::derive(move || shown.with(|shown| shown.wrong.clone())),
        typed: Callback::new(move |text| {
            typed.update(|typed| {
                typed.0.insert(PLAN_GAUGE.to_owned(), text);
            });
        }),
    };
    let document = Memo::new(move |_| shown.with(|shown| shown.document.clone()));
    let shown = move || match document.get() {
        Err(why) => view! { <div class="notice" data-kind="warn"><p>{why}</p></div> }.into_any(),
        // A browser that prints may scale, and takes one sheet: the gauge leaves as a file alone.
        Ok(document) => handed(document, "lay-on-gauge", PAGES, &key, ().into_any()),
    };
    view! {
        <div class="part screen-only stack">
            <SelectField id="gauge-side" label="Which side lies up" options=gauge_sides() value=side />
            {tolerance.view()}
        </div>
        {shown}
    }
    .into_any()
}

fn handed(
    document: Document,
    what: &'static str,
    sizes: &'static [PaperSize],
    key: &str,
    print: AnyView,
) -> AnyView {
    view! {
        <div class="actions screen-only">
            {print}
            <SaveDocument document=document.clone() what=what sizes=sizes />
            <a class="button" data-kind="quiet" href=paths::rubric_plan(key)>"The plan"</a>
        </div>
        <Paper document />
    }
    .into_any()
}
