use leptos::prelude::*;

use super::advice::good_photo;
use super::state::PhotoState;
use crate::page::file_choice::FileChoice;
use crate::page::widgets::{TextBox, Tile, TileKind, tile_words};
use crate::present::photo::{FACES, SHEETS};

/// What is asked about a photo, and the photo itself.
pub(super) fn form(state: PhotoState) -> AnyView {
    let sheets = SHEETS.map(|(sheet, name, size)| {
        let tile = Tile {
            kind: TileKind::Radio("sheet".to_owned()),
            class: "tile",
            checked: Signal::derive(move || state.sheet.get() == sheet),
            chosen: Callback::new(move |_| {
                state.sheet.set(sheet);
                state.measure_if_changed();
            }),
            inside: tile_words(name, size),
        };
        tile.view()
    });
    let faces = FACES.map(|(face, name, seen)| {
        let tile = Tile {
            kind: TileKind::Radio("face".to_owned()),
            class: "tile",
            checked: Signal::derive(move || state.face.get() == face),
            chosen: Callback::new(move |_| {
                state.face.set(face);
                state.measure_if_changed();
            }),
            inside: tile_words(name, seen),
        };
        tile.view()
    });
    let thickness = TextBox {
        id: "thickness".to_owned(),
        label: state.head.with_value(|head| {
            format!(
                "Thickness of the shoe (asked for: {})",
                head.thickness_words
            )
        }),
        hint: "Between the jaws of a caliper. Left empty, what is asked for counts, and the measures are less sure.",
        lines: 1,
        value: state.thickness.into(),
        wrong: state.thickness_wrong.into(),
        typed: Callback::new(move |text| state.thickness.set(text)),
    };
    let opened = UnsyncCallback::new(move |file| state.open(file));
    let refused = Signal::derive(move || state.wrong.with(|wrong| !wrong.is_empty()));
    view! {
        <section class="part stack" aria-labelledby="photo-take">
            <h2 id="photo-take">"Take the photo"</h2>
            {good_photo()}
            {shoes(state)}
            <fieldset class="field">
                <legend>"The sheet under the shoe"</legend>
                <div class="tiles">{sheets.into_iter().collect::<Vec<AnyView>>()}</div>
            </fieldset>
            <fieldset class="field">
                <legend>"The face that lies up"</legend>
                <div class="tiles">{faces.into_iter().collect::<Vec<AnyView>>()}</div>
            </fieldset>
            <div on:change=move |_| state.measure_if_changed()>{thickness.view()}</div>
            <FileChoice
                id="photo-camera"
                label="Take it with the camera"
                hint="The photo stays on this device."
                accept="image/jpeg,image/png,image/webp"
                capture="environment"
                busy=state.opening.into()
                refused=refused
                chosen=opened
            />
            <FileChoice
                id="photo-file"
                label="Or choose a photo, or drop one here"
                hint="JPEG, PNG or WebP, as the camera made it."
                accept="image/jpeg,image/png,image/webp"
                busy=state.opening.into()
                refused=refused
                chosen=opened
            />
            <div role="status">
                {move || state.opening.get().then(|| view! { <p>"Opening the file…"</p> })}
            </div>
            <div role="alert">
                {move || {
                    let wrong = state.wrong.get();
                    (!wrong.is_empty()).then(|| view! { <p class="error">{wrong}</p> })
                }}
            </div>
        </section>
    }
    .into_any()
}

/// Which shoe it is, where there are several.
fn shoes(state: PhotoState) -> AnyView {
    let shoes = state.head.with_value(|head| head.shoes.clone());
    if shoes.is_empty() {
        return ().into_any();
    }
    let tiles = shoes.into_iter().map(|(id, name)| {
        let (own, chosen) = (id.clone(), id);
        let tile = Tile {
            kind: TileKind::Radio("photo-shoe".to_owned()),
            class: "tile",
            checked: Signal::derive(move || state.shoe.with(|shoe| shoe.as_ref() == Some(&own))),
            chosen: Callback::new(move |_| state.shoe.set(Some(chosen.clone()))),
            inside: name.into_any(),
        };
        tile.view()
    });
    view! {
        <fieldset class="field">
            <legend>"Which shoe it shows"</legend>
            <div class="tiles">{tiles.collect::<Vec<AnyView>>()}</div>
        </fieldset>
    }
    .into_any()
}
