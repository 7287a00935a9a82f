use leptos::prelude::*;

use super::focus;
use super::state::SheetState;
use crate::command::Edit;
use crate::page::preferences;
use crate::present::mark_sheet::{Order, Part, part_state, untouched_fault_lists};

/// Parts to jump to, and what works on the whole sheet.
#[component]
pub(super) fn Plan() -> impl IntoView {
    let sheet = SheetState::here();
    view! {
        <div class="plan">
            <nav class="jump" aria-label="Parts of the sheet">
                <ol>
                    <For
                        each=move || sheet.parts()
                        key=|part| part.id.clone()
                        children=move |part| view! { <Jump part=part /> }
                    />
                </ol>
            </nav>
            <Tools />
        </div>
    }
}

#[component]
fn Jump(part: Part) -> impl IntoView {
    let sheet = SheetState::here();
    let (id, name) = (part.id.clone(), part.name.clone());
    let stored = StoredValue::new(part);
    let words = Memo::new(move |_| {
        sheet.see_result(|result| stored.with_value(|part| part_state(part, result).words))
    });
    let is_current = Memo::new(move |_| {
        let row = sheet
            .target
            .with(|target| target.as_ref().map(|target| target.row.id.clone()));
        let is_it = row
            .is_some_and(|id| stored.with_value(|part| part.rows.iter().any(|row| row.id == id)));
        is_it.then_some("true")
    });
    let go = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        stored.with_value(|part| focus::show(&part.id));
    };
    view! {
        <li>
            <a href=format!("#{id}") aria-current=is_current on:click=go>
                {name} <span>{words}</span>
            </a>
        </li>
    }
}

#[component]
fn Tools() -> impl IntoView {
    let sheet = SheetState::here();
    let untouched = Memo::new(move |_| {
        sheet.rubric(|rubric| sheet.see_facts(|facts| untouched_fault_lists(rubric, facts)))
    });
    let orders = [
        (Order::Rubric, "as in the rubric"),
        (Order::Turned, "as the shoe is turned"),
    ];
    let tiles = orders.map(|(order, words)| {
        view! {
            <label class="tile">
                <input
                    type="radio"
                    name="order"
                    prop:checked=move || sheet.order.get() == order
                    on:change=move |_| sheet.order.set(order)
                />
                {words}
            </label>
        }
    });
    let toggle_pad = move |_| {
        let wants = !sheet.pad_open.get_untracked();
        sheet.pad_open.set(wants);
        preferences::set_wants_pad(wants);
    };
    view! {
        <div class="tools">
            <fieldset>
                <legend class="unseen">"Order of the rows"</legend>
                <div class="tiles">{tiles.into_iter().collect_view()}</div>
            </fieldset>
            <button
                type="button"
                class="button"
                disabled=move || untouched.with(std::collections::BTreeMap::is_empty)
                on:click=move |_| {
                    let faults = untouched.get_untracked();
                    sheet.edit("no faults", Edit::SetFaultsOnMany { faults });
                }
            >
                "No faults in the rest"
            </button>
            <button
                type="button"
                class="button"
                disabled=move || !sheet.can_undo()
                on:click=move |_| sheet.undo()
            >
                "Undo"
            </button>
            <button
                type="button"
                class="button"
                aria-pressed=move || sheet.pad_open.get().to_string()
                on:click=toggle_pad
            >
                "Number pad"
            </button>
        </div>
    }
}
