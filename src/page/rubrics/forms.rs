//! The common things of a rubric as plain forms. They write the text and nothing else, so
//! what they have no field for stays as it is.

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::HtmlElement;

use super::fields::{add, field};
use super::state::WorkState;
use crate::page::widgets::when;
use crate::present::rubrics::{FormPart, FormTable};

/// All forms.
pub(super) fn forms(state: WorkState) -> AnyView {
    let unreadable = Signal::derive(move || state.work.with(|work| work.outline.is_none()));
    view! {
        {move || unreadable.get().then(|| view! {
            <div class="notice" data-kind="warn">
                <p>"The text cannot be read as it stands, so these forms rest. Mend it as text, or undo."</p>
            </div>
        })}
        <fieldset class="forms" disabled=unreadable>
            <legend class="unseen">"The rubric as forms"</legend>
            {move || {
                let plan = state.plan.get();
                let parts = plan.parts.iter().map(|one| part(state, one));
                let adds = plan.adds.iter().map(|one| add(state, one, None));
                parts.chain(adds).collect::<Vec<AnyView>>()
            }}
        </fieldset>
    }
    .into_any()
}

/// One part, closed until it is asked for: its fields are made when it opens.
fn part(state: WorkState, shown: &FormPart) -> AnyView {
    let title = title(state, shown);
    let dom = shown.dom.clone();
    let is_open = {
        let dom = dom.clone();
        Signal::derive(move || state.open.with(|open| open.contains(&dom)))
    };
    let toggled = move |event: ev::Event| {
        let details = event
            .target()
            .and_then(|target| target.dyn_into::<HtmlElement>().ok());
        let is_open = details.is_some_and(|details| details.has_attribute("open"));
        let is_known = state.open.with_untracked(|open| open.contains(&dom));
        if is_open != is_known {
            state.open.update(|open| {
                if is_open {
                    open.insert(dom.clone());
                } else {
                    open.remove(&dom);
                }
            });
        }
    };
    let kept = StoredValue::new(shown.clone());
    let inside = when(is_open, move || {
        kept.with_value(|part| inside(state, part, title))
    });
    view! {
        <details class="form-part" id=shown.dom.clone() prop:open=is_open on:toggle=toggled>
            <summary>{move || title.get()}</summary>
            {inside}
        </details>
    }
    .into_any()
}

fn title(state: WorkState, part: &FormPart) -> Memo<String> {
    let (name, fallback) = (part.name.clone(), part.title.clone());
    Memo::new(move |_| {
        let Some(name) = &name else {
            return fallback.clone();
        };
        state.work.with(|work| {
            let outline = work.outline.as_ref();
            let said = outline.and_then(|outline| outline.text(name));
            said.filter(|said| !said.trim().is_empty())
                .unwrap_or_else(|| fallback.clone())
        })
    })
}

fn inside(state: WorkState, part_of: &FormPart, title: Memo<String>) -> AnyView {
    let fields: Vec<AnyView> = part_of.fields.iter().map(|one| field(state, one)).collect();
    let tables: Vec<AnyView> = part_of.tables.iter().map(|one| table(state, one)).collect();
    let parts: Vec<AnyView> = part_of.parts.iter().map(|one| part(state, one)).collect();
    let of = title.get_untracked();
    let buttons = part_of.adds.iter().chain(&part_of.changes);
    let buttons: Vec<AnyView> = buttons
        .map(|one| add(state, one, Some(of.clone())))
        .collect();
    let buttons = (!buttons.is_empty()).then(|| view! { <div class="actions">{buttons}</div> });
    view! {
        <div class="form-inside">
            <div class="form-fields">{fields}</div>
            {tables}
            {parts}
            {buttons}
        </div>
    }
    .into_any()
}

fn table(state: WorkState, table: &FormTable) -> AnyView {
    let rows: Vec<AnyView> = table
        .rows
        .iter()
        .enumerate()
        .map(|(index, row)| {
            let fields: Vec<AnyView> = row.fields.iter().map(|one| field(state, one)).collect();
            view! {
                <div class="form-row" role="group" aria-label=format!("{} {}", table.title, index + 1)>
                    {fields}
                    {add(state, &row.remove, None)}
                </div>
            }
            .into_any()
        })
        .collect();
    let path = table.path.clone();
    let wrong = Memo::new(move |_| state.work.with(|work| work.troubles_on(&path)));
    let wrong = move || {
        let wrong = wrong.get();
        (!wrong.is_empty()).then(|| view! { <p class="error">{wrong}</p> })
    };
    view! {
        <section class="form-table">
            <p class="form-heading">{table.title}</p>
            {wrong}
            {rows}
            {add(state, &table.add, None)}
        </section>
    }
    .into_any()
}
