//! The rubric as text, with what is wrong beside the lines.

use leptos::html;
use leptos::prelude::*;

use super::state::WorkState;
use crate::page::widgets::PushButton;
use crate::present::rubrics::{Beside, Trouble, beside};

/// Text and troubles.
pub(super) fn text(state: WorkState) -> AnyView {
    let area = NodeRef::<html::Textarea>::new();
    let typed = move |event: leptos::ev::Event| state.write("text", event_target_value(&event));
    // Beside the text as it was read: while more is typed the words may stand a line off.
    let said = move || {
        state.work.with(|work| {
            state.text.with(|text| {
                let pieces = beside(text, &work.troubles);
                pieces.into_iter().map(piece).collect::<Vec<AnyView>>()
            })
        })
    };
    let numbers = Memo::new(move |_| state.text.with(|text| text.split('\n').count()));
    let numbers = move || {
        (1..=numbers.get())
            .map(|line| format!("{line}\n"))
            .collect::<String>()
    };
    let list = move || {
        let work = state.work.get();
        let items = work.troubles.iter().map(|one| trouble(one, area));
        items.collect::<Vec<AnyView>>()
    };
    view! {
        <div class="code">
            <pre class="code-numbers" aria-hidden="true">{numbers}</pre>
            <div class="code-text">
                <pre class="code-said" aria-hidden="true">{said}</pre>
                <textarea
                    id="rubric-text"
                    aria-label="The rubric as text"
                    aria-describedby="rubric-state"
                    spellcheck="false"
                    autocapitalize="off"
                    autocomplete="off"
                    wrap="off"
                    node_ref=area
                    prop:value=move || state.text.get()
                    on:input=typed
                ></textarea>
            </div>
        </div>
        <ul class="troubles">{list}</ul>
    }
    .into_any()
}

fn piece(piece: Beside) -> AnyView {
    let said = (!piece.said.is_empty()).then(|| {
        let kind = if piece.is_error { "error" } else { "warn" };
        view! { <span data-kind=kind>{format!("  {}", piece.said)}</span> }
    });
    view! { <span class="ghost">{piece.before}</span> {said} }.into_any()
}

/// One trouble; pressing it leads to its place.
fn trouble(trouble: &Trouble, area: NodeRef<html::Textarea>) -> AnyView {
    let span = trouble.span.clone();
    let word = if trouble.is_error { "Mend" } else { "Look at" };
    let lead = PushButton {
        kind: Some("quiet"),
        ..PushButton::plain(format!("{word} line {}", trouble.line), move || {
            let Some(area) = area.get_untracked() else {
                return;
            };
            // The browser counts in UTF-16.
            let text = area.value();
            let units = |at: usize| {
                let before = text.get(..at).unwrap_or(&text);
                u32::try_from(before.encode_utf16().count()).unwrap_or(u32::MAX)
            };
            // An element that refuses leaves the caret where it is.
            let _ = area.focus();
            let _ = area.set_selection_range(units(span.start), units(span.end));
        })
    };
    view! {
        <li data-kind=if trouble.is_error { "error" } else { "warn" }>
            {lead.view()} <span>{trouble.text.clone()}</span>
        </li>
    }
    .into_any()
}
