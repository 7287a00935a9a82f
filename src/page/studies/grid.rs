//! The grid that readings are typed into. Each is kept as its cell is left.

use std::collections::BTreeMap;

use leptos::ev;
use leptos::prelude::*;

use super::Here;
use crate::page::dom;
use crate::present::{StudyCell, StudyEdit, StudyGrid, StudyText, moved, study_cell, study_grid};
use crate::records::Place;

/// What is said of cells, by place.
type Says = Memo<BTreeMap<Place, StudyCell>>;

pub(super) fn grid(here: Here) -> AnyView {
    let Here { keeper, id, .. } = here;
    let shown = Memo::new(move |_| {
        let grid = keeper.with_ledger(|ledger| study_grid(ledger, id));
        grid.unwrap_or_default()
    });
    let says: Says = Memo::new(move |_| keeper.with_ledger(|ledger| study_cell(ledger, id)));
    view! {
        <section class="part screen-only" aria-labelledby="study-readings">
            <h2 id="study-readings">"Readings"</h2>
            <p class="hint" id="study-keys">
                "Enter and the arrow down go to the next row, with Shift or the arrow up back. What cannot be read stays as typed."
            </p>
            {move || shown.with(|grid| table(here, shown, says, grid))}
        </section>
    }
    .into_any()
}

fn table(here: Here, shown: Memo<StudyGrid>, says: Says, grid: &StudyGrid) -> AnyView {
    let heads = grid.columns.iter();
    let heads = heads.map(|head| view! { <th scope="col">{head.clone()}</th> }.into_any());
    let heads: Vec<AnyView> = heads.collect();
    let across = (grid.columns.len() + 1).to_string();
    let parts = grid.parts.iter().map(|(name, lines)| {
        let lines = lines.iter().map(|line| {
            let cells = line.cells.iter();
            let cells = cells.map(|(place, name)| cell(here, shown, says, *place, name.clone()));
            let cells: Vec<AnyView> = cells.collect();
            view! { <tr><th scope="row" dir="auto">{line.person.clone()}</th>{cells}</tr> }
                .into_any()
        });
        view! {
            <tbody>
                <tr>
                    <th scope="rowgroup" colspan=across.clone() dir="auto"><span>{name.clone()}</span></th>
                </tr>
                {lines.collect::<Vec<AnyView>>()}
            </tbody>
        }
        .into_any()
    });
    let parts: Vec<AnyView> = parts.collect();
    view! {
        <div class="study-frame" role="group" aria-label="Readings" tabindex="0">
            <table class="study-grid">
                <caption class="unseen">"Readings by part and person"</caption>
                <thead><tr><th scope="col">"Person"</th>{heads}</tr></thead>
                {parts}
            </table>
        </div>
    }
    .into_any()
}

fn input_id(place: Place) -> String {
    let Place {
        part,
        person,
        trial,
    } = place;
    format!("reading-{part}-{person}-{trial}")
}

fn cell(here: Here, shown: Memo<StudyGrid>, says: Says, place: Place, name: String) -> AnyView {
    let id = input_id(place);
    let says_id = format!("{id}-says");
    let value = here.text(StudyText::Reading(place));
    // The pad of figures has no fractions.
    let unit = here.text(StudyText::Unit);
    let said = Memo::new(move |_| says.with(|says| says.get(&place).cloned()));
    let invalid = move || {
        said.with(|said| said.as_ref().is_some_and(|said| said.is_wrong))
            .then_some("true")
    };
    let described = {
        let id = says_id.clone();
        move || said.with(|said| said.as_ref().map(|_| id.clone()))
    };
    let left = move |event: ev::Event| {
        let text = StudyText::Reading(place);
        here.act(StudyEdit::Type(text, event_target_value(&event)));
    };
    let pressed = move |event: ev::KeyboardEvent| {
        let next = shown.with_untracked(|grid| moved(grid, place, &event.key(), event.shift_key()));
        if let Some(next) = next {
            event.prevent_default();
            dom::select(&input_id(next));
        }
    };
    let says = move || {
        let (id, said) = (says_id.clone(), said.get()?);
        let class = if said.is_wrong { "error" } else { "hint" };
        Some(view! { <p class=class id=id>{said.says}</p> })
    };
    view! {
        <td>
            <input
                class="input"
                id=id
                aria-label=name
                autocomplete="off"
                inputmode=move || if unit.with(|unit| unit == "in") { "text" } else { "decimal" }
                enterkeyhint="next"
                aria-invalid=invalid
                aria-describedby=described
                prop:value=move || value.get()
                on:change=left
                on:keydown=pressed
            />
            {says}
        </td>
    }
    .into_any()
}
