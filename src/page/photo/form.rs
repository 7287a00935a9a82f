use leptos::prelude::*;

use super::advice::good_photo;
use super::scale::scale;
use super::state::PhotoState;
use crate::page::file_choice::FileChoice;
use crate::page::widgets::{Tile, TileKind};

/// What is asked about a photo, and the photo itself.
pub(super) fn form(state: PhotoState) -> AnyView {
    let opened = UnsyncCallback::new(move |file| state.open(file));
    let refused = Signal::derive(move || state.wrong.with(|wrong| !wrong.is_empty()));
    view! {
        <section class="part stack" aria-labelledby="photo-take">
            <h2 id="photo-take">"Take the photo"</h2>
            {good_photo()}
            {shoes(state)}
            {scale(state)}
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
            chosen: Callback::new(move |_| {
                state.shoe.set(Some(chosen.clone()));
                state.measure_if_changed();
            }),
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
