use leptos::prelude::*;

use super::flat::flat;
use super::state::PhotoState;
use crate::page::widgets::{TextBox, Tile, TileKind, tile_words};
use crate::present::photo::{PhotoField, SHOWS, Shows, WAYS, Way};

/// What gives the scale, what the photo shows, and what is to be typed for both.
pub(super) fn scale(state: PhotoState) -> AnyView {
    let ways = WAYS.map(|(way, name, size)| {
        let tile = Tile {
            kind: TileKind::Radio("scale".to_owned()),
            class: "tile",
            checked: Signal::derive(move || state.way.get() == way),
            chosen: Callback::new(move |_| state.go_by(way)),
            inside: tile_words(name, size),
        };
        tile.view()
    });
    let hint = move || {
        let hint = state.way.get().hint();
        (!hint.is_empty()).then(|| view! { <p>{hint}</p> })
    };
    view! {
        <fieldset class="field">
            <legend>"What gives the scale"</legend>
            <div class="tiles">{ways.into_iter().collect::<Vec<AnyView>>()}</div>
            {hint}
        </fieldset>
        {move || (state.way.get() != Way::Scan).then(|| shows(state))}
        <div class="stack" on:change=move |_| state.measure_if_changed()>
            {move || (state.way.get() == Way::Ruler).then(|| length(state))}
            {move || (state.way.get() == Way::Scan).then(|| dots(state))}
            {move || {
                let is_shoe = state.way.get() != Way::Scan && state.shows.get() != Shows::Drawing;
                is_shoe.then(|| thickness(state))
            }}
            {flat(state)}
        </div>
    }
    .into_any()
}

/// The shoe, or an outline of it.
fn shows(state: PhotoState) -> AnyView {
    let tiles = SHOWS.map(|(shows, name, about)| {
        let tile = Tile {
            kind: TileKind::Radio("photo-shows".to_owned()),
            class: "tile",
            checked: Signal::derive(move || state.shows.get() == shows),
            chosen: Callback::new(move |_| {
                state.shows.set(shows);
                state.measure_if_changed();
            }),
            inside: tile_words(name, about),
        };
        tile.view()
    });
    view! {
        <fieldset class="field">
            <legend>"What it shows"</legend>
            <div class="tiles">{tiles.into_iter().collect::<Vec<AnyView>>()}</div>
        </fieldset>
    }
    .into_any()
}

/// What is wrong with a field.
pub(super) fn wrong(state: PhotoState, field: PhotoField) -> Signal<String> {
    Signal::derive(move || {
        let wrong = state.field_wrong.get();
        let own = wrong.filter(|wrong| wrong.field == field);
        own.map(|wrong| wrong.text).unwrap_or_default()
    })
}

fn thickness(state: PhotoState) -> AnyView {
    let label = state.head.with_value(|head| {
        format!(
            "Thickness of the shoe (asked for: {})",
            head.thickness_words
        )
    });
    TextBox {
        id: "thickness".to_owned(),
        label,
        hint: "Between the jaws of a caliper. Left empty, what is asked for counts, and the measures are less sure.",
        lines: 1,
        value: state.thickness.into(),
        wrong: wrong(state, PhotoField::Thickness),
        typed: Callback::new(move |text| state.thickness.set(text)),
    }
    .view()
}

fn length(state: PhotoState) -> AnyView {
    TextBox {
        id: "ruler-length".to_owned(),
        label: "Length between the two marks on the ruler".to_owned(),
        hint: "As 100 mm or 4 in: the longer, the surer.",
        lines: 1,
        value: state.length.into(),
        wrong: wrong(state, PhotoField::Length),
        typed: Callback::new(move |text| state.length.set(text)),
    }
    .view()
}

fn dots(state: PhotoState) -> AnyView {
    TextBox {
        id: "scan-dots".to_owned(),
        label: "Dots per inch of the scan".to_owned(),
        hint: "As the scanner was set: 300. Left empty, what the file tells counts.",
        lines: 1,
        value: state.dots.into(),
        wrong: wrong(state, PhotoField::Dots),
        typed: Callback::new(move |text| state.dots.set(text)),
    }
    .view()
}
