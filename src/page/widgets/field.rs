use leptos::ev;
use leptos::prelude::*;

/// The `aria-describedby` of the control `id`: its hint and, while there is one,
/// its error, as [`Field`] names them.
pub(crate) fn described_by(id: &str, has_hint: bool, has_error: bool) -> Option<String> {
    let hint = has_hint.then(|| format!("{id}-hint"));
    let error = has_error.then(|| format!("{id}-error"));
    let ids: Vec<_> = hint.into_iter().chain(error).collect();
    (!ids.is_empty()).then(|| ids.join(" "))
}

/// A label, a hint, a control with this `id` as child, and what is wrong with it.
/// The control itself carries [`described_by`] and `aria-invalid`.
#[component]
fn Field(
    /// The control's id.
    id: &'static str,
    /// What it is called.
    #[prop(into)]
    label: String,
    /// How to fill it in.
    #[prop(optional_no_strip)]
    hint: Option<String>,
    /// What is wrong with it.
    #[prop(into)]
    error: Signal<Option<String>>,
    children: Children,
) -> impl IntoView {
    view! {
        <div class="field">
            <label for=id>{label}</label>
            {hint.map(|hint| view! { <p class="hint" id=format!("{id}-hint")>{hint}</p> })}
            {children()}
            <ErrorText id error />
        </div>
    }
}

/// What is wrong with the control `id`, while something is.
#[component]
pub(super) fn ErrorText(id: &'static str, error: Signal<Option<String>>) -> impl IntoView {
    move || {
        error
            .get()
            .map(|error| view! { <p class="error" id=format!("{id}-error")>{error}</p> })
    }
}

/// A field for one line of text, or for a date with `kind="date"`.
#[component]
pub(crate) fn TextField(
    /// The control's id.
    id: &'static str,
    /// What it is called.
    #[prop(into)]
    label: String,
    /// How to fill it in.
    #[prop(optional, into)]
    hint: Option<String>,
    /// What is wrong with it.
    #[prop(optional, into)]
    error: Signal<Option<String>>,
    /// What it holds.
    value: RwSignal<String>,
    /// The kind of input.
    #[prop(default = "text")]
    kind: &'static str,
    /// What the browser may fill in.
    #[prop(default = "off")]
    autocomplete: &'static str,
    /// Earlier answers to offer.
    #[prop(optional)]
    suggestions: Vec<String>,
) -> impl IntoView {
    let has_hint = hint.is_some();
    let list_id = (!suggestions.is_empty()).then(|| format!("{id}-list"));
    let list = list_id.clone().map(|list_id| {
        let options = suggestions
            .into_iter()
            .map(|name| view! { <option value=name></option> })
            .collect_view();
        view! { <datalist id=list_id>{options}</datalist> }
    });
    let described = move || error.with(|error| described_by(id, has_hint, error.is_some()));
    let invalid = move || error.with(Option::is_some).then_some("true");
    let typed = move |event: ev::Event| value.set(event_target_value(&event));
    view! {
        <Field id label hint=hint error>
            <input
                class="input"
                id=id
                type=kind
                autocomplete=autocomplete
                list=list_id
                aria-describedby=described
                aria-invalid=invalid
                prop:value=move || value.get()
                on:input=typed
            />
            {list}
        </Field>
    }
}

/// A field with a list to choose from.
#[component]
pub(crate) fn SelectField(
    /// The control's id.
    id: &'static str,
    /// What it is called.
    #[prop(into)]
    label: String,
    /// How to fill it in.
    #[prop(optional, into)]
    hint: Option<String>,
    /// What is wrong with it.
    #[prop(optional, into)]
    error: Signal<Option<String>>,
    /// Value and name of each choice; the first is the one before any choice.
    options: Vec<(String, String)>,
    /// The value chosen.
    value: RwSignal<String>,
) -> impl IntoView {
    let has_hint = hint.is_some();
    let described = move || error.with(|error| described_by(id, has_hint, error.is_some()));
    let invalid = move || error.with(Option::is_some).then_some("true");
    let options = options
        .into_iter()
        .map(|(key, name)| {
            let own = key.clone();
            let selected = move || value.with(|value| *value == own);
            view! { <option value=key prop:selected=selected>{name}</option> }
        })
        .collect_view();
    let chosen = move |event: ev::Event| value.set(event_target_value(&event));
    view! {
        <Field id label hint=hint error>
            <select
                class="input"
                id=id
                aria-describedby=described
                aria-invalid=invalid
                on:change=chosen
            >
                {options}
            </select>
        </Field>
    }
}
