use leptos::prelude::*;

use super::scale::wrong;
use super::state::PhotoState;
use crate::present::photo::{PhotoField, Shows, Way};

/// What is asked about clips and calks, on which a shoe does not lie flat.
pub(super) fn flat(state: PhotoState) -> AnyView {
    let over_edge = move || {
        let shows = state.shows.get();
        let is_asked = state.head.with_value(|head| head.asks_for_edge(shows));
        (is_asked && state.way.get() != Way::Scan).then(|| {
            tick(
                "photo-over-edge",
                "It lies flat: the clip at its toe hangs over the edge of a board",
                state.is_over_edge,
                wrong(state, PhotoField::OverEdge),
            )
        })
    };
    let calks = move || {
        let is_shoe = state.way.get() != Way::Scan && state.shows.get() != Shows::Drawing;
        is_shoe.then(|| {
            tick(
                "photo-calks",
                "It has calks or studs at the heels",
                state.has_calks,
                wrong(state, PhotoField::Calks),
            )
        })
    };
    view! {
        {over_edge}
        {calks}
    }
    .into_any()
}

/// A box to tick, with what is wrong about it.
fn tick(
    id: &'static str,
    words: &'static str,
    is_on: RwSignal<bool>,
    wrong: Signal<String>,
) -> AnyView {
    let error = format!("{id}-error");
    let described = error.clone();
    let is_wrong = move || wrong.with(|wrong| !wrong.is_empty());
    view! {
        <div class="field">
            <label class="photo-tick">
                <input
                    type="checkbox"
                    id=id
                    prop:checked=is_on
                    aria-invalid=move || is_wrong().then_some("true")
                    aria-describedby=described
                    on:change=move |event| is_on.set(event_target_checked(&event))
                />
                <span>{words}</span>
            </label>
            <div id=error role="alert">
                {move || is_wrong().then(|| view! { <p class="error">{wrong.get()}</p> })}
            </div>
        </div>
    }
    .into_any()
}
