use leptos::prelude::*;

use super::focus;
use super::pad::Pad;
use super::state::SheetState;
use crate::page::widgets::Drawn;
use crate::present::mark_sheet::summary;

/// The number pad over what the sheet comes to.
#[component]
pub(super) fn Dock(sealing: RwSignal<bool>) -> impl IntoView {
    let sheet = SheetState::here();
    let sum = Memo::new(move |_| {
        sheet.see_parts(|parts| sheet.see_result(|result| summary(parts, result)))
    });
    let ruler = Memo::new(move |_| sum.with(|sum| sum.ruler.clone()));
    let next = move |_| sum.with_untracked(|sum| focus::next_missing(&sum.missing));
    view! {
        <div class="dock">
            <Pad />
            <section class="sum" aria-label="Summary">
                <p class="sum-words" aria-live="polite">
                    <span class="marks" data-size="total">
                        <b>{move || sum.with(|sum| sum.marks.clone())}</b> " "
                        {move || sum.with(|sum| sum.of.clone())}
                    </span>
                    " "
                    <span>{move || sum.with(|sum| sum.rest.clone())}</span>
                </p>
                {move || view! { <Drawn drawing=ruler.get() class="rule" /> }}
                <div class="actions">
                    <button
                        type="button"
                        class="button"
                        disabled=move || sum.with(|sum| sum.missing.is_empty())
                        on:click=next
                    >
                        "Next missing"
                    </button>
                    <button
                        type="button"
                        class="button"
                        data-kind="primary"
                        on:click=move |_| sealing.set(true)
                    >
                        "Seal"
                    </button>
                </div>
                {move || {
                    let stop = sum.with(|sum| sum.stop.clone());
                    (!stop.is_empty()).then(|| view! { <p class="sum-stop">{stop}</p> })
                }}
            </section>
        </div>
    }
}
