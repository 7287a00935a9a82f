use leptos::prelude::*;

use super::field::ErrorText;

/// One of several to choose from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct TileChoice {
    /// What the form holds when it is chosen.
    pub(crate) value: String,
    /// What it is called.
    pub(crate) title: String,
    /// What to know of it; may be empty.
    pub(crate) note: String,
}

impl TileChoice {
    pub(crate) fn new(
        value: impl Into<String>,
        title: impl Into<String>,
        note: impl Into<String>,
    ) -> Self {
        Self {
            value: value.into(),
            title: title.into(),
            note: note.into(),
        }
    }
}

/// A group of radio buttons as large tiles.
#[component]
pub(crate) fn Tiles(
    /// Name of the group; the first tile has it as its id.
    name: &'static str,
    /// What is asked.
    #[prop(into)]
    legend: String,
    /// What there is to choose from.
    choices: Vec<TileChoice>,
    /// The value chosen.
    value: RwSignal<String>,
    /// What is wrong with the choice.
    #[prop(optional, into)]
    error: Signal<Option<String>>,
    /// So many side by side, where there is no more room than that.
    #[prop(optional)]
    columns: Option<u8>,
    /// The legend is read aloud and not seen, as where a heading says the same.
    #[prop(optional)]
    hides_legend: bool,
) -> impl IntoView {
    let described = move || error.with(Option::is_some).then(|| format!("{name}-error"));
    let tiles = choices
        .into_iter()
        .enumerate()
        .map(
            |(
                at,
                TileChoice {
                    value: own,
                    title,
                    note,
                },
            )| {
                let key = own.clone();
                let checked = move || value.with(|value| *value == key);
                let key = own.clone();
                let choose = move |_| value.set(key.clone());
                view! {
                    <label class="tile">
                        <input
                            type="radio"
                            name=name
                            id=(at == 0).then_some(name)
                            value=own
                            prop:checked=checked
                            on:change=choose
                        />
                        <b>{title}</b>
                        {(!note.is_empty()).then(|| view! { <span>{note}</span> })}
                    </label>
                }
            },
        )
        .collect_view();
    view! {
        <fieldset class="field" aria-describedby=described>
            <legend class=hides_legend.then_some("unseen")>{legend}</legend>
            <div class="tiles" data-columns=columns.map(|columns| columns.to_string())>{tiles}</div>
            <ErrorText id=name error />
        </fieldset>
    }
}
