//! Controls bound to signals. None is generic: each is compiled once, however
//! many pages use it, which keeps the page small.

use std::sync::Arc;

use leptos::prelude::*;

use super::field::described_by;

/// A line or a box of text, with what it says kept elsewhere.
pub(crate) struct TextBox {
    /// Id of the control.
    pub(crate) id: String,
    /// What it is called.
    pub(crate) label: String,
    /// How to fill it in; may be empty.
    pub(crate) hint: &'static str,
    /// More than one makes it a box.
    pub(crate) lines: u8,
    /// What it says.
    pub(crate) value: Signal<String>,
    /// What is wrong with it; empty while nothing is.
    pub(crate) wrong: Signal<String>,
    /// Hears every key.
    pub(crate) typed: Callback<String>,
}

impl TextBox {
    /// Label, control and what is wrong with it.
    pub(crate) fn view(self) -> AnyView {
        let Self {
            id,
            label,
            hint,
            lines,
            value,
            wrong,
            typed,
        } = self;
        let (hint_id, error_id) = (format!("{id}-hint"), format!("{id}-error"));
        let own = id.clone();
        let described = Signal::derive(move || {
            described_by(
                &own,
                !hint.is_empty(),
                wrong.with(|wrong| !wrong.is_empty()),
            )
        });
        let invalid =
            Signal::derive(move || wrong.with(|wrong| !wrong.is_empty()).then_some("true"));
        let heard = move |event: leptos::ev::Event| typed.run(event_target_value(&event));
        let control = if lines > 1 {
            view! {
                <textarea
                    class="input"
                    id=id.clone()
                    rows=lines.to_string()
                    dir="auto"
                    aria-describedby=described
                    aria-invalid=invalid
                    prop:value=value
                    on:input=heard
                ></textarea>
            }
            .into_any()
        } else {
            view! {
                <input
                    class="input"
                    id=id.clone()
                    autocomplete="off"
                    dir="auto"
                    aria-describedby=described
                    aria-invalid=invalid
                    prop:value=value
                    on:input=heard
                />
            }
            .into_any()
        };
        let hint = (!hint.is_empty()).then(|| view! { <p class="hint" id=hint_id>{hint}</p> });
        view! {
            <div class="field">
                <label for=id>{label}</label>
                {hint}
                {control}
                {move || {
                    let (text, id) = (wrong.get(), error_id.clone());
                    (!text.is_empty()).then(|| view! { <p class="error" id=id>{text}</p> })
                }}
            </div>
        }
        .into_any()
    }
}

/// Nothing is ever wrong with it.
pub(crate) fn never_wrong() -> Signal<String> {
    Signal::stored(String::new())
}

/// Whether a tile is one of several or stands for itself.
pub(crate) enum TileKind {
    /// One of the group of this name.
    Radio(String),
    /// On or off by itself.
    Check,
}

/// A large target around a radio button or a box to tick.
pub(crate) struct Tile {
    /// Radio or check.
    pub(crate) kind: TileKind,
    /// What the style sheet calls it.
    pub(crate) class: &'static str,
    /// Whether it is chosen.
    pub(crate) checked: Signal<bool>,
    /// Hears the choice.
    pub(crate) chosen: Callback<bool>,
    /// What stands in it.
    pub(crate) inside: AnyView,
}

impl Tile {
    /// The tile.
    pub(crate) fn view(self) -> AnyView {
        let Self {
            kind,
            class,
            checked,
            chosen,
            inside,
        } = self;
        let heard = move |event: leptos::ev::Event| chosen.run(event_target_checked(&event));
        let (input, data_kind, group) = match kind {
            TileKind::Radio(group) => ("radio", None, Some(group)),
            TileKind::Check => ("checkbox", Some("check"), None),
        };
        view! {
            <label class=class data-kind=data_kind>
                <input type=input name=group prop:checked=checked on:change=heard />
                {inside}
            </label>
        }
        .into_any()
    }
}

/// Name and what to know, as most tiles show.
pub(crate) fn tile_words(name: impl Into<String>, note: impl Into<String>) -> AnyView {
    view! { <b>{name.into()}</b> <span>{note.into()}</span> }.into_any()
}

/// A button.
pub(crate) struct PushButton {
    /// What the style sheet calls it.
    pub(crate) class: &'static str,
    /// Its kind there.
    pub(crate) kind: Option<&'static str>,
    /// What it says.
    pub(crate) words: Signal<String>,
    /// What it says to those who do not see it, if something else.
    pub(crate) label: Option<String>,
    /// Pressed or not, for one that stays pressed.
    pub(crate) pressed: Option<Signal<bool>>,
    /// Whether it can be pushed.
    pub(crate) enabled: Signal<bool>,
    /// Hears it.
    pub(crate) pushed: Callback<()>,
}

impl PushButton {
    /// A plain button that can always be pushed.
    pub(crate) fn plain(
        words: impl Into<String>,
        pushed: impl Fn() + Send + Sync + 'static,
    ) -> Self {
        Self {
            class: "button",
            kind: None,
            words: Signal::stored(words.into()),
            label: None,
            pressed: None,
            enabled: Signal::stored(true),
            pushed: Callback::new(move |()| pushed()),
        }
    }

    /// The button.
    pub(crate) fn view(self) -> AnyView {
        let Self {
            class,
            kind,
            words,
            label,
            pressed,
            enabled,
            pushed,
        } = self;
        let pressed = pressed.map(|pressed| Signal::derive(move || pressed.get().to_string()));
        view! {
            <button
                type="button"
                class=class
                data-kind=kind
                aria-label=label
                aria-pressed=move || pressed.map(|pressed| pressed.get())
                disabled=move || !enabled.get()
                on:click=move |_| pushed.run(())
            >
                {move || words.get()}
            </button>
        }
        .into_any()
    }
}

/// A part of the page that is there while `is_there`.
pub(crate) fn when(
    is_there: Signal<bool>,
    part: impl Fn() -> AnyView + Send + Sync + 'static,
) -> AnyView {
    let part: Arc<dyn Fn() -> AnyView + Send + Sync> = Arc::new(part);
    let is_there = Memo::new(move |_| is_there.get());
    (move || is_there.get().then(|| part())).into_any()
}
