use leptos::prelude::*;

use super::entry::RowEntry;
use super::panel::Panel;
use super::state::SheetState;
use crate::page::widgets::Drawn;
use crate::present::mark_sheet::{Face, Part, Row, RowForm, part_state};

/// The rows under one heading.
#[component]
pub(super) fn PartRows(part: Part) -> impl IntoView {
    let sheet = SheetState::here();
    let heading = part.id.clone();
    let stored = StoredValue::new(part.clone());
    let marks = Memo::new(move |_| {
        sheet.see_result(|result| stored.with_value(|part| part_state(part, result).marks))
    });
    view! {
        <section class="part" aria-labelledby=part.id.clone()>
            <h2 id=heading>{part.name} " " <small>{marks}</small></h2>
            {part.rows.into_iter().map(|row| view! { <SheetRow row=row /> }).collect_view()}
        </section>
    }
}

/// What the style sheet calls the form.
fn kind(form: &RowForm) -> &'static str {
    match form {
        RowForm::Readings { inputs, .. } if inputs.len() > 1 => "spread",
        RowForm::Readings { .. } => "reading",
        RowForm::Tally { .. } => "tally",
        RowForm::Levels(_) => "levels",
        RowForm::Numbers { .. } => "number",
        RowForm::Faults(_) => "faults",
    }
}

#[component]
fn SheetRow(row: Row) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let face = Memo::new(move |_| stored.with_value(|row| sheet.face(row)));
    let is_open = RwSignal::new(false);
    let (name_id, panel_id, error_id) = (
        format!("n-{}", row.dom),
        format!("m-{}", row.dom),
        format!("e-{}", row.dom),
    );
    let is_current = {
        let dom = row.dom.clone();
        Memo::new(move |_| {
            let is_it = sheet
                .target
                .with(|target| target.as_ref().is_some_and(|target| target.row.dom == dom));
            is_it.then_some("true")
        })
    };
    let marks = (!row.unmarked).then(|| {
        view! {
            <p class="marks">
                <b>{move || face.with(|face| face.marks.clone())}</b> " of "
                {move || face.with(|face| face.out_of.clone())}
            </p>
        }
    });
    let comment = {
        let id = row.id.clone();
        move || {
            let text = sheet.comment(Some(&id));
            (!text.is_empty()).then(|| view! { <p class="note" dir="auto">{text}</p> })
        }
    };
    let scale = Memo::new(move |_| face.with(|face| face.scale.clone().filter(|_| !face.closed)));
    view! {
        <article
            class="row"
            id=row.dom.clone()
            data-kind=kind(&row.form)
            data-state=move || face.with(|face| face.state)
            aria-labelledby=name_id.clone()
            aria-current=is_current
        >
            <header class="row-head">
                <h3 id=name_id.clone()>{row.name.clone()}</h3>
                <p>{row.about.clone()}</p>
            </header>
            {marks}
            <Show when=move || !face.with(|face| face.closed)>
                <RowEntry row=stored.get_value() face=face />
            </Show>
            {move || {
                scale.get().map(|drawing| view! { <Drawn drawing=drawing class="scale" /> })
            }}
            <div class="row-why">
                {move || {
                    let errors = face.with(Face::error_words);
                    let id = error_id.clone();
                    (!errors.is_empty()).then(|| view! { <p class="error" id=id>{errors}</p> })
                }}
                <p>
                    {move || face.with(|face| {
                        if face.errors.is_empty() { face.why.clone() } else { String::new() }
                    })}
                </p>
                {comment}
            </div>
            <Show when=move || !stored.with_value(|row| row.unmarked)>
                <button
                    type="button"
                    class="button more"
                    data-kind="quiet"
                    aria-expanded=move || is_open.get().to_string()
                    aria-controls=stored.with_value(|row| format!("m-{}", row.dom))
                    on:click=move |_| is_open.update(|open| *open = !*open)
                >
                    {more_words(&stored.get_value())}
                    <span class="unseen">{stored.with_value(|row| format!(" for {}", row.name))}</span>
                </button>
            </Show>
            <div class="row-panel" id=panel_id hidden=move || !is_open.get()>
                <Show when=move || is_open.get()>
                    <Panel row=stored.get_value() face=face />
                </Show>
            </div>
        </article>
    }
    .into_any()
}

fn more_words(row: &Row) -> &'static str {
    if row.faults.is_empty() {
        "State, comment"
    } else {
        "Faults, state, comment"
    }
}
