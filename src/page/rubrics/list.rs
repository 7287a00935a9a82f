use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

use super::begin;
use crate::page::keeper::Keeper;
use crate::page::widgets::PushButton;
use crate::page::{clock, dom, open_file, paths};
use crate::present::rubrics::{BLANK, DraftRow, RubricRow, rubric_list, too_long};

/// Every rubric, and the ways to a new one.
#[component]
pub(crate) fn RubricsPage() -> impl IntoView {
    dom::set_title("Rubrics");
    let keeper = Keeper::here();
    let shipped = StoredValue::new(keeper.offers());
    let list = Memo::new(move |_| {
        keeper.look(|ledger, rubrics| {
            shipped.with_value(|shipped| rubric_list(ledger, rubrics, shipped, clock::now()))
        })
    });
    let wrong = RwSignal::new(String::new());
    let navigate = StoredValue::new_local(use_navigate());
    let start = move |text: String| {
        let begun = navigate.with_value(|navigate| begin(keeper, navigate, text));
        wrong.set(begun.err().unwrap_or_default());
    };
    let blank = PushButton::plain("Begin with a small one", move || start(BLANK.to_owned()));
    let chosen = move |event: ev::Event| {
        let input = event
            .target()
            .and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        let file = input.as_ref().and_then(|input| input.files()?.get(0));
        if let (Some(input), Some(file)) = (input, file) {
            spawn_local(async move {
                match text_of(&file).await {
                    Ok(text) => start(text),
                    Err(why) => wrong.set(why),
                }
                // The same file can be chosen again once it is mended.
                input.set_value("");
            });
        }
    };
    let drafts = move || list.with(|list| list.drafts.clone());
    let own = move || list.with(|list| list.own.clone());
    view! {
        <div class="page-head">
            <div>
                <h1>"Rubrics"</h1>
                <p>"What is to be made, and how it is marked. Copy one and make it your own."</p>
            </div>
            <div class="actions">
                <a class="button" href=paths::AGREEMENT>"Agreement between examiners"</a>
                {blank.view()}
                <label class="button file">
                    "Open a rubric file"
                    <input type="file" accept=".toml,text/plain" on:change=chosen />
                </label>
            </div>
        </div>
        {move || wrong.with(|wrong| (!wrong.is_empty()).then(|| view! {
            <p class="error" role="alert">{wrong.clone()}</p>
        }))}
        {move || some(drafts()).map(|rows| part("in-work", "In work", rows.into_iter().map(draft).collect()))}
        {move || some(own()).map(|rows| part("own", "Our own", rows.into_iter().map(row).collect()))}
        {move || {
            let rows = list.with(|list| list.shipped.clone());
            part("shipped", "That come with Evenshod", rows.into_iter().map(row).collect())
        }}
    }
}

fn some<T>(rows: Vec<T>) -> Option<Vec<T>> {
    (!rows.is_empty()).then_some(rows)
}

fn part(id: &'static str, title: &'static str, rows: Vec<AnyView>) -> AnyView {
    view! {
        <section class="part" aria-labelledby=id>
            <h2 id=id>{title}</h2>
            <ul class="pieces">{rows}</ul>
        </section>
    }
    .into_any()
}

fn row(row: RubricRow) -> AnyView {
    view! {
        <li class="piece">
            <a href=paths::rubric(&row.digest)>{row.title}</a>
            <p>{row.about}</p>
            <p class="now">{row.now}</p>
        </li>
    }
    .into_any()
}

fn draft(row: DraftRow) -> AnyView {
    view! {
        <li class="piece">
            <a href=paths::rubric_work(row.id)>{row.title}</a>
            <p>{row.about}</p>
            <p class="now">"not kept yet"</p>
        </li>
    }
    .into_any()
}

async fn text_of(file: &File) -> Result<String, String> {
    if let Some(text) = too_long(&file.name(), open_file::size_of(file)) {
        return Err(text);
    }
    let bytes = open_file::bytes_of(file).await?;
    // Whatever it is, it can be looked at as text and mended.
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
