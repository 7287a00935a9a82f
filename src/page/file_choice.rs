//! A field to choose a file, or to drop one on.

use leptos::ev;
use leptos::prelude::*;
use web_sys::{File, HtmlInputElement};

/// A field for one file. Of several that are dropped the first counts.
#[component]
pub(crate) fn FileChoice(
    /// The control's id.
    id: &'static str,
    /// What it is called.
    label: &'static str,
    /// What belongs there.
    hint: &'static str,
    /// Endings and kinds that the browser offers.
    accept: &'static str,
    /// Which camera to take it with, where it is taken and not chosen.
    #[prop(optional)]
    capture: Option<&'static str>,
    /// Whether a file is being looked at.
    busy: Signal<bool>,
    /// Whether the last one was refused.
    refused: Signal<bool>,
    /// Hears each file.
    chosen: UnsyncCallback<File>,
) -> impl IntoView {
    let is_over = RwSignal::new(false);
    let hint_id = format!("{id}-hint");
    let described = hint_id.clone();
    let hear = move |event: ev::Event| {
        let input: HtmlInputElement = event_target(&event);
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            chosen.run(file);
        }
        // The same file may be chosen again.
        input.set_value("");
    };
    let over = move |event: ev::DragEvent| {
        event.prevent_default();
        is_over.set(true);
    };
    let drop_it = move |event: ev::DragEvent| {
        event.prevent_default();
        is_over.set(false);
        let files = event.data_transfer().and_then(|data| data.files());
        let file = files.and_then(|files| files.get(0));
        if let Some(file) = file.filter(|_| !busy.get_untracked()) {
            chosen.run(file);
        }
    };
    view! {
        <div
            class="field drop"
            data-over=move || is_over.get().then_some("")
            on:dragover=over
            on:dragleave=move |_| is_over.set(false)
            on:drop=drop_it
        >
            <label for=id>{label}</label>
            <p class="hint" id=hint_id>{hint}</p>
            <input
                class="input"
                id=id
                type="file"
                accept=accept
                capture=capture
                aria-describedby=described
                aria-invalid=move || refused.get().then_some("true")
                disabled=move || busy.get()
                on:change=hear
            />
        </div>
    }
}
