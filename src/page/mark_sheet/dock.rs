use leptos::prelude::*;

use super::focus;
use super::pad::pad;
use super::state::SheetState;
use crate::page::widgets::{Drawn, PushButton};
use crate::present::mark_sheet::{Summary, summary};

/// What the sheet comes to.
fn sum_of(sheet: SheetState) -> Memo<Summary> {
    Memo::new(move |_| sheet.see_parts(|parts| sheet.see_result(|result| summary(parts, result))))
}

fn words(sum: Memo<Summary>) -> AnyView {
    view! {
        <p class="sum-words" aria-live="polite">
            <span class="marks" data-size="total">
                <b>{move || sum.with(|sum| sum.marks.clone())}</b> " "
                {move || sum.with(|sum| sum.of.clone())}
            </span>
            " "
            <span>{move || sum.with(|sum| sum.rest.clone())}</span>
        </p>
    }
    .into_any()
}

/// What a sheet comes to that is only tried out.
pub(super) fn sum_words() -> AnyView {
    words(sum_of(SheetState::here()))
}

/// The number pad over what the sheet comes to.
pub(super) fn dock(sealing: RwSignal<bool>) -> AnyView {
    let sheet = SheetState::here();
    let sum = sum_of(sheet);
    let ruler = Memo::new(move |_| sum.with(|sum| sum.ruler.clone()));
    let next = PushButton {
        enabled: Signal::derive(move || sum.with(|sum| !sum.missing.is_empty())),
        ..PushButton::plain("Next missing", move || {
            sum.with_untracked(|sum| focus::next_missing(&sum.missing));
        })
    };
    let seal = PushButton {
        kind: Some("primary"),
        ..PushButton::plain("Seal", move || sealing.set(true))
    };
    let ruler = move || view! { <Drawn drawing=ruler.get() class="rule" /> }.into_any();
    let stop = move || {
        let stop = sum.with(|sum| sum.stop.clone());
        (!stop.is_empty()).then(|| view! { <p class="sum-stop">{stop}</p> }.into_any())
    };
    view! {
        <div class="dock">
            {pad()}
            <section class="sum" aria-label="Summary">
                {words(sum)}
                {ruler}
                <div class="actions">{next.view()} {seal.view()}</div>
                {stop}
            </section>
        </div>
    }
    .into_any()
}
