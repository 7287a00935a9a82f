use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::Element;

use super::focus;
use super::state::SheetState;
use crate::chart::Side;
use crate::page::widgets::{Drawn, PushButton, SaveDrawing};
use crate::present::mark_sheet::{DrawnShoe, drawn_shoes};

/// Each shoe of the piece as the way into its rows; nothing where none can be drawn.
pub(super) fn shoes() -> Option<AnyView> {
    let sheet = SheetState::here();
    let shoes = sheet.rubric(drawn_shoes);
    if shoes.is_empty() {
        return None;
    }
    let side = sheet.side;
    let turn = PushButton {
        words: Signal::derive(move || side.get().turn_words().to_owned()),
        ..PushButton::plain("", move || side.update(|side| *side = side.turned()))
    };
    let drawings: Vec<AnyView> = shoes.into_iter().map(|shoe| one(shoe, side)).collect();
    Some(view! { <div class="shoes">{drawings} {turn.view()}</div> }.into_any())
}

fn one(shoe: DrawnShoe, side: RwSignal<Side>) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(shoe);
    let drawing = Memo::new(move |_| {
        sheet.rubric(|rubric| {
            sheet.see_parts(|parts| {
                sheet.see_result(|result| {
                    kept.with_value(|shoe| shoe.drawing(rubric, parts, result, side.get()))
                })
            })
        })
    });
    view! {
        <div class="shoe">
            <div on:click=go>
                {move || view! { <Drawn drawing=drawing.get() /> }.into_any()}
            </div>
            <SaveDrawing drawing />
        </div>
    }
    .into_any()
}

/// Leads to the row of the part that was tapped.
fn go(event: ev::MouseEvent) {
    let target = event.target();
    let element = target.and_then(|target| target.dyn_into::<Element>().ok());
    let link = element.and_then(|element| element.closest("a").ok().flatten());
    if let Some(href) = link.and_then(|link| link.get_attribute("href")) {
        event.prevent_default();
        focus::show(href.trim_start_matches('#'));
    }
}
