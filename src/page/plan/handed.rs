use leptos::prelude::*;

use super::rubric_in_path;
use crate::job::PaperSize;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{BENCH_CARDS, PAGES, SaveDocument, SelectField};
use crate::page::{dom, paths, preferences};
use crate::present::plan::{gauge_side, gauge_sides, own_record, plan_card, plan_gauge};
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
    let side = RwSignal::new(String::new());
    let gauge = move || {
        let typed = preferences::plan(&key.get()).unwrap_or_default();
        let side = side.with(|word| gauge_side(word));
        Some(plan_gauge(&rubric.get()?, &typed, side))
    };
    let shown = move || match gauge() {
        None => view! { <LostPage /> }.into_any(),
        Some(Err(why)) => {
            view! { <div class="notice" data-kind="warn"><p>{why}</p></div> }.into_any()
        }
        // A browser that prints may scale, and takes one sheet: the gauge leaves as a file alone.
        Some(Ok(document)) => {
            let key = key.get_untracked();
            handed(document, "lay-on-gauge", PAGES, &key, ().into_any())
        }
    };
    view! {
        <div class="part screen-only stack">
            <SelectField id="gauge-side" label="Which side lies up" options=gauge_sides() value=side />
        </div>
        {shown}
    }
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
