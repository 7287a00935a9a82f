use leptos::prelude::*;

use super::calls::Calls;
use super::entry::row_entry;
use super::panel::panel;
use super::state::SheetState;
use crate::page::widgets::{Drawn, when};
use crate::present::mark_sheet::{
    Face, Part, Row, RowForm, more_words, part_state, takes_instrument,
};

/// The rows under one heading.
pub(super) fn part_rows(part: Part) -> AnyView {
    let sheet = SheetState::here();
    let (id, name) = (part.id.clone(), part.name.clone());
    let rows: Vec<AnyView> = part.rows.iter().map(sheet_row).collect();
    let kept = StoredValue::new(part);
    let marks = Memo::new(move |_| {
        sheet.see_result(|result| kept.with_value(|part| part_state(part, result).marks))
    });
    view! {
        <section class="part" aria-labelledby=id.clone()>
            <h2 id=id.clone()>{name} " " <small>{marks}</small></h2>
            {rows}
        </section>
    }
    .into_any()
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

fn sheet_row(row: &Row) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    let face = Memo::new(move |_| kept.with_value(|row| sheet.face(row)));
    let name_id = format!("n-{}", row.dom);
    let is_current = Signal::derive(move || {
        let is_it = sheet.target.with(|target| {
            kept.with_value(|row| {
                target
                    .as_ref()
                    .is_some_and(|target| target.row.dom == row.dom)
            })
        });
        is_it.then_some("true")
    });
    let marks = (!row.unmarked).then(|| {
        view! {
            <p class="marks">
                <b>{move || face.with(|face| face.marks.clone())}</b> " of "
                {move || face.with(|face| face.out_of.clone())}
            </p>
        }
        .into_any()
    });
    let is_open_for_entry = Signal::derive(move || !face.with(|face| face.closed));
    let entry = when(is_open_for_entry, move || {
        kept.with_value(|row| row_entry(row, face))
    });
    let scale = Memo::new(move |_| face.with(|face| face.scale.clone().filter(|_| !face.closed)));
    let scale = move || {
        scale
            .get()
            .map(|drawing| view! { <Drawn drawing=drawing class="scale" /> }.into_any())
    };
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
                <p>{move || face.with(|face| face.asked.clone())} " " {row.about.clone()}</p>
                {takes_instrument(row).then(|| view! { <p class="with">{move || face.with(|face| face.with.clone())}</p> })}
            </header>
            {marks}
            {entry}
            {scale}
            {why(row, face)}
            {(!row.unmarked || takes_instrument(row)).then(|| more(row, face))}
        </article>
    }
    .into_any()
}

/// What is wrong, or why the marks are what they are, and the comment.
fn why(row: &Row, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    let error_id = format!("e-{}", row.dom);
    let entry = row.id.clone();
    let error = move || {
        let (errors, id) = (face.with(Face::error_words), error_id.clone());
        (!errors.is_empty()).then(|| view! { <p class="error" id=id>{errors}</p> }.into_any())
    };
    let reason = move || {
        face.with(|face| {
            if face.errors.is_empty() {
                face.why.clone()
            } else {
                String::new()
            }
        })
    };
    let doubts = move || {
        let text = face.with(|face| face.doubts.clone());
        (!text.is_empty()).then(|| view! { <p class="doubt">{text}</p> }.into_any())
    };
    let first = move || {
        let text = face.with(|face| face.first.clone());
        (!text.is_empty()).then(|| view! { <p class="quiet">{text}</p> }.into_any())
    };
    let comment = move || {
        let text = sheet.comment(Some(&entry));
        (!text.is_empty()).then(|| view! { <p class="note" dir="auto">{text}</p> }.into_any())
    };
    let call = Calls::sign(row.dom.clone());
    view! { <div class="row-why">{error} <p>{reason}</p> {first} {doubts} {call} {comment}</div> }
        .into_any()
}

/// What is rare in a row, behind a button.
fn more(row: &Row, face: Memo<Face>) -> AnyView {
    let kept = StoredValue::new(row.clone());
    let is_open = RwSignal::new(false);
    let panel_id = format!("m-{}", row.dom);
    let words = more_words(row);
    let inside = when(is_open.into(), move || {
        kept.with_value(|row| panel(row, face))
    });
    view! {
        <button
            type="button"
            class="button more"
            data-kind="quiet"
            aria-expanded=move || is_open.get().to_string()
            aria-controls=panel_id.clone()
            on:click=move |_| is_open.update(|open| *open = !*open)
        >
            {words} <span class="unseen">{format!(" for {}", row.name)}</span>
        </button>
        <div class="row-panel" id=panel_id hidden=move || !is_open.get()>{inside}</div>
    }
    .into_any()
}
