//! Fields of the forms, each bound to a place in the text.

use leptos::prelude::*;

use super::state::WorkState;
use crate::page::widgets::{PictureField, PushButton, TextBox, described_by, picture};
use crate::present::pictures::EXAMPLE_PIXELS;
use crate::present::rubrics::{Add, FieldKind, FormField, field_edit};

pub(super) fn field(state: WorkState, field: &FormField) -> AnyView {
    let (at, dom) = (field.path.clone(), field.dom());
    let value = {
        let at = at.clone();
        Memo::new(move |_| {
            state.work.with(|work| {
                let outline = work.outline.as_ref();
                outline
                    .and_then(|outline| outline.text(&at))
                    .unwrap_or_default()
            })
        })
    };
    let wrong = Memo::new(move |_| state.work.with(|work| work.troubles_at(&at)));
    let kept = StoredValue::new(field.clone());
    let typed = Callback::new(move |text: String| {
        kept.with_value(|field| {
            let place = match field.kind {
                // Each picture is a step of its own; typing is one until the hand rests.
                FieldKind::Picture => format!("{}-{text}", field.dom()),
                _ => field.dom(),
            };
            state.change(&place, &field_edit(field, &text));
        });
    });
    if field.kind == FieldKind::Picture {
        return example(field, value, wrong, typed);
    }
    match field.kind.choices() {
        Some(words) => choice(field, words, value, wrong, typed),
        None => TextBox {
            id: dom,
            label: field.label.to_owned(),
            hint: field.hint,
            lines: if field.kind == FieldKind::Lines { 2 } else { 1 },
            value: value.into(),
            wrong: wrong.into(),
            typed,
        }
        .view(),
    }
}

/// A picture that is shown, chosen, and taken off.
fn example(
    field: &FormField,
    value: Memo<String>,
    wrong: Memo<String>,
    typed: Callback<String>,
) -> AnyView {
    let choose = PictureField {
        id: field.dom(),
        label: field.label,
        hint: field.hint,
        longest: EXAMPLE_PIXELS,
        kept: typed,
    };
    let shown = move || {
        let digest = value.get();
        (!digest.is_empty()).then(|| {
            view! {
                {picture(digest, "The example as it is now".to_owned())}
                {PushButton {
                    kind: Some("quiet"),
                    ..PushButton::plain("Take the photo off", move || typed.run(String::new()))
                }.view()}
            }
        })
    };
    view! {
        <div class="stack example">
            {choose.view()}
            {shown}
            {move || {
                let text = wrong.get();
                (!text.is_empty()).then(|| view! { <p class="error">{text}</p> })
            }}
        </div>
    }
    .into_any()
}

fn choice(
    field: &FormField,
    words: &'static [(&'static str, &'static str)],
    value: Memo<String>,
    wrong: Memo<String>,
    typed: Callback<String>,
) -> AnyView {
    let id = field.dom();
    let hint = field.hint;
    let unchosen = ("", field.kind.unchosen());
    let options = std::iter::once(unchosen).chain(words.iter().copied());
    let options: Vec<AnyView> = options
        .map(|(word, name)| {
            let selected = move || value.with(|value| value == word);
            view! { <option value=word prop:selected=selected>{name}</option> }.into_any()
        })
        .collect();
    // What is written and none of these stays in sight until another is chosen.
    let other = move || {
        let written = value.get();
        let is_known = written.is_empty() || words.iter().any(|(word, _)| *word == written);
        (!is_known).then(|| view! { <option value=written.clone() prop:selected=true>{written.clone()}</option> })
    };
    let heard = move |event: leptos::ev::Event| typed.run(event_target_value(&event));
    let (hint_id, error_id) = (format!("{id}-hint"), format!("{id}-error"));
    let own = id.clone();
    let described = move || {
        described_by(
            &own,
            !hint.is_empty(),
            wrong.with(|wrong| !wrong.is_empty()),
        )
    };
    let hint = (!hint.is_empty()).then(|| view! { <p class="hint" id=hint_id>{hint}</p> });
    view! {
        <div class="field">
            <label for=id.clone()>{field.label}</label>
            {hint}
            <select
                class="input"
                id=id
                aria-invalid=move || wrong.with(|wrong| (!wrong.is_empty()).then_some("true"))
                aria-describedby=described
                on:change=heard
            >
                {options}
                {other}
            </select>
            {move || {
                let (text, id) = (wrong.get(), error_id.clone());
                (!text.is_empty()).then(|| view! { <p class="error" id=id>{text}</p> })
            }}
        </div>
    }
    .into_any()
}

/// A button that changes which fields there are.
pub(super) fn add(state: WorkState, add: &Add, of: Option<String>) -> AnyView {
    let kept = StoredValue::new(add.edit.clone());
    PushButton {
        kind: Some("quiet"),
        label: of.map(|of| format!("{}: {of}", add.words)),
        ..PushButton::plain(add.words.clone(), move || {
            kept.with_value(|edit| state.rebuild(edit));
        })
    }
    .view()
}
