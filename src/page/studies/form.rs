//! What is asked of a study beside its readings. Each field is kept as it is left.

use leptos::prelude::*;

use super::Here;
use crate::page::widgets::PushButton;
use crate::present::{StudyEdit, StudyShape, StudyText, examiner_names, study_shape};

pub(super) fn form(here: Here) -> AnyView {
    let Here { keeper, id, .. } = here;
    let shape = Memo::new(move |_| {
        let shape = keeper.with_ledger(|ledger| study_shape(ledger, id));
        shape.unwrap_or_default()
    });
    let add_part = PushButton {
        enabled: Signal::derive(move || shape.with(|shape| shape.takes_part)),
        ..PushButton::plain("Add a part", move || here.act(StudyEdit::AddPart))
    };
    let add_person = PushButton {
        enabled: Signal::derive(move || shape.with(|shape| shape.takes_person)),
        ..PushButton::plain("Add a person", move || here.act(StudyEdit::AddPerson))
    };
    view! {
        <section class="part screen-only" aria-labelledby="study-form">
            <h2 id="study-form">"What is measured, and by whom"</h2>
            <div class="study-fields">
                {field(here, "study-name", "Name", StudyText::Name, "text")}
                {field(here, "study-day", "Day", StudyText::Day, "date")}
                {field(here, "study-trials", "Trials of each part", StudyText::Trials, "number")}
                {units(here, shape)}
                {field(here, "study-note", "Note", StudyText::Note, "text")}
            </div>
            <details open>
                <summary>"People"</summary>
                {move || shape.with(|shape| people(here, shape))}
                <div class="actions">{add_person.view()}</div>
            </details>
            <details open>
                <summary>"Parts"</summary>
                <p class="hint">
                    "A known size, such as that of a gauge block, shows how far off readings are. Write its standard uncertainty too, if its certificate states one."
                </p>
                {move || shape.with(|shape| parts(here, shape))}
                <div class="actions">{add_part.view()}</div>
            </details>
        </section>
    }
    .into_any()
}

/// A field of one line.
fn field(
    here: Here,
    id: impl Into<String>,
    label: impl Into<String>,
    text: StudyText,
    kind: &'static str,
) -> AnyView {
    let (id, label) = (id.into(), label.into());
    let value = here.text(text);
    let left = move |event: leptos::ev::Event| {
        here.act(StudyEdit::Type(text, event_target_value(&event)));
    };
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <input
                class="input"
                id=id
                type=kind
                autocomplete="off"
                dir="auto"
                list=matches!(text, StudyText::Person(_)).then_some(KNOWN)
                prop:value=move || value.get()
                on:change=left
            />
        </div>
    }
    .into_any()
}

fn units(here: Here, shape: Memo<StudyShape>) -> AnyView {
    let value = here.text(StudyText::Unit);
    let options = shape.with_untracked(|shape| shape.units.clone());
    let options = options.into_iter().map(|(word, name)| {
        let own = word.clone();
        let selected = move || value.with(|value| *value == own);
        view! { <option value=word prop:selected=selected>{name}</option> }.into_any()
    });
    let options: Vec<AnyView> = options.collect();
    let heard = move |event: leptos::ev::Event| {
        here.act(StudyEdit::Type(StudyText::Unit, event_target_value(&event)));
    };
    view! {
        <div class="field">
            <label for="study-unit">"A bare number is in"</label>
            <select class="input" id="study-unit" on:change=heard>{options}</select>
        </div>
    }
    .into_any()
}

/// Id of the list of people who are known.
const KNOWN: &str = "study-known";

fn people(here: Here, shape: &StudyShape) -> AnyView {
    let known = examiner_names(&here.keeper.ledger_now()).into_iter();
    let known = known.map(|name| view! { <option value=name></option> }.into_any());
    let known: Vec<AnyView> = known.collect();
    let only = shape.people.len() < 2;
    let rows = shape.people.iter().map(|(id, number)| {
        let id = *id;
        let name = field(
            here,
            format!("study-person-{id}"),
            number.clone(),
            StudyText::Person(id),
            "text",
        );
        let out = PushButton {
            kind: Some("quiet"),
            label: Some(format!("Take out: {number}, with all readings")),
            enabled: Signal::stored(!only),
            ..PushButton::plain("Take out", move || here.act(StudyEdit::RemovePerson(id)))
        };
        view! { <li class="study-row">{name} {out.view()}</li> }.into_any()
    });
    let rows: Vec<AnyView> = rows.collect();
    view! {
        <datalist id=KNOWN>{known}</datalist>
        <ul class="study-rows">{rows}</ul>
    }
    .into_any()
}

fn parts(here: Here, shape: &StudyShape) -> AnyView {
    let only = shape.parts.len() < 2;
    let rows = shape.parts.iter().map(|(id, number)| {
        let id = *id;
        let own = |what: &str| format!("study-{what}-{id}");
        let fields = [
            field(
                here,
                own("part"),
                number.clone(),
                StudyText::Part(id),
                "text",
            ),
            field(
                here,
                own("size"),
                format!("{number}, known size"),
                StudyText::Size(id),
                "text",
            ),
            field(
                here,
                own("uncertainty"),
                format!("{number}, uncertainty of that"),
                StudyText::Uncertainty(id),
                "text",
            ),
        ];
        let out = PushButton {
            kind: Some("quiet"),
            label: Some(format!("Take out: {number}, with all readings")),
            enabled: Signal::stored(!only),
            ..PushButton::plain("Take out", move || here.act(StudyEdit::RemovePart(id)))
        };
        view! { <li class="study-row">{Vec::from(fields)} {out.view()}</li> }.into_any()
    });
    view! { <ul class="study-rows">{rows.collect::<Vec<AnyView>>()}</ul> }.into_any()
}
