use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::chart::Drawing;
use crate::page::pictures::png_of;
use crate::page::{clock, save_file};
use crate::present::drawing_files::{as_picture, drawing_file, true_size_file};

/// Saves a drawing as a file of its own; folded until it is wanted, and not printed.
#[component]
pub(crate) fn SaveDrawing(
    /// What is drawn; what it is when a button is pressed is saved.
    #[prop(into)]
    drawing: Signal<Drawing>,
    /// Whether a unit of it is a millimetre that a file keeps.
    #[prop(optional)]
    is_true_size: bool,
) -> impl IntoView {
    let said = RwSignal::new(String::new());
    let make = if is_true_size {
        true_size_file
    } else {
        drawing_file
    };
    let file = move || drawing.with_untracked(|drawing| make(clock::now().day(), drawing));
    let tell = move |done: Result<String, String>| {
        // The page may be another by now.
        drop(said.try_set(match done {
            Ok(name) => format!("Saved as {name}."),
            Err(why) => why,
        }));
    };
    let as_svg = move |_| {
        let file = file();
        let kind = save_file::Kind::Svg;
        tell(save_file::offer_bytes(
            &file.base,
            kind,
            file.svg.as_bytes(),
        ));
    };
    let as_png = move |_| {
        let file = file();
        spawn_local(async move {
            let png = png_of(&file.svg, file.dots).await;
            tell(png.and_then(|png| {
                let png = as_picture(&png);
                save_file::offer_bytes(&file.base, save_file::Kind::Png, &png)
            }));
        });
    };
    view! {
        <details class="save-drawing screen-only">
            <summary>"Save drawing"</summary>
            <div class="actions">
                <button type="button" class="button" on:click=as_svg>"SVG"</button>
                <button type="button" class="button" on:click=as_png>"PNG, 300 dpi"</button>
            </div>
            <p class="hint" role="status">{move || said.get()}</p>
        </details>
    }
    .into_any()
}
