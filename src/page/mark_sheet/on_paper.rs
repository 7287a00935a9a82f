//! A sheet that was filled in by hand: it is printed here, and typed in by its numbers.

use std::collections::BTreeMap;

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::HtmlElement;

use super::state::SheetState;
use crate::command::Edit;
use crate::page::keeper::Keeper;
use crate::page::lost::{LostPage, unreadable_rubric};
use crate::page::widgets::{Caution, PushButton, SaveDocument, TextBox, never_wrong};
use crate::page::{dom, paths};
use crate::present::mark_sheet::{
    Face, PaperField, PaperPart, PaperStep, Takes, blank_of_marking, notes_typed, paper_notes,
    paper_parts,
};
use crate::present::{maker_name, piece_words};
use crate::records::{MarkingId, PieceId};

/// Typing in what was written by hand on the sheet of one marking.
#[component]
pub(crate) fn OnPaperPage() -> impl IntoView {
    let keeper = Keeper::here();
    let open = paths::draft_in_path(keeper);
    move || match open.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((piece, id)) => opened(keeper, piece, id),
    }
}

fn opened(keeper: Keeper, piece: PieceId, id: MarkingId) -> AnyView {
    let (name, about) = keeper
        .look_now(|ledger, _| {
            let piece = ledger.piece(piece)?;
            Some((maker_name(ledger, piece), piece_words(ledger, piece)))
        })
        .unwrap_or_default();
    dom::set_title(&format!("{name}, from paper"));
    let Some(sheet) = SheetState::open(keeper, id) else {
        return unreadable_rubric().into_any();
    };
    provide_context(sheet);
    let blank = keeper.look_now(|ledger, rubrics| blank_of_marking(ledger, rubrics, id));
    let parts = sheet.rubric(paper_parts);
    let last = parts.iter().flat_map(|part| &part.fields).last();
    let last = last.map_or(0, |field| field.number);
    let last_of_all = last + 2;
    let fields = parts
        .into_iter()
        .map(|one| part(one, last_of_all))
        .collect_view();
    view! {
        <div class="page-head">
            <div>
                <h1>{name}</h1>
                <p>{about} ". From paper."</p>
            </div>
            <div class="actions">
                {blank.map(|document| view! { <SaveDocument document what="blank-sheet" /> })}
                <a class="button" href=paths::marking(piece, id)>"Mark sheet"</a>
            </div>
        </div>
        <Caution />
        <div class="part stack from-paper">
            <p>
                "Save the sheet as a file, print it, and fill it in by hand. Then type it in here: the numbers are those on the paper, and Enter goes on to the next one. Write nm for a part that was not made, and cm with marks and reason for what cannot be measured. Which instrument was used is entered on the mark sheet."
            </p>
            {typist()}
            {go_to(last_of_all)}
            <div class="actions">{undo()}</div>
            {fields}
            {overall(last + 1)}
            {notes(last + 2)}
        </div>
    }
    .into_any()
}

/// Who types, which the scored sheet says.
fn typist() -> AnyView {
    let sheet = SheetState::here();
    TextBox {
        id: "typist".to_owned(),
        label: "Typed in by".to_owned(),
        hint: "Your name, where you are not the examiner who marked. It stands on the scored sheet.",
        lines: 1,
        value: Signal::derive(move || {
            sheet.of_record(|record| record.typist.clone().unwrap_or_default())
        }),
        wrong: never_wrong(),
        typed: Callback::new(move |name: String| {
            let name = (!name.trim().is_empty()).then_some(name);
            sheet.edit("typist", Edit::SetTypist { name });
        }),
    }
    .view()
}

fn undo() -> AnyView {
    let sheet = SheetState::here();
    PushButton {
        enabled: Signal::derive(move || sheet.can_undo()),
        ..PushButton::plain("Undo", move || sheet.undo())
    }
    .view()
}

/// The way to a number.
fn go_to(last: u32) -> AnyView {
    let number = RwSignal::new(String::new());
    let wrong = RwSignal::new(String::new());
    let go = move || {
        let wanted: Option<u32> = number.get_untracked().trim().parse().ok();
        match wanted.filter(|wanted| (1..=last).contains(wanted)) {
            Some(wanted) => {
                wrong.set(String::new());
                number.set(String::new());
                focus(wanted);
            }
            None => wrong.set(format!("The sheet has the numbers 1 to {last}.")),
        }
    };
    view! {
        <form class="from-paper-go" novalidate on:submit=move |event: ev::SubmitEvent| {
            event.prevent_default();
            go();
        }>
            {TextBox {
                id: "go-to".to_owned(),
                label: "Go to number".to_owned(),
                hint: "",
                lines: 1,
                value: number.into(),
                wrong: wrong.into(),
                typed: Callback::new(move |text| number.set(text)),
            }.view()}
            <button type="submit" class="button">"Go"</button>
        </form>
    }
    .into_any()
}

fn part(part: PaperPart, last: u32) -> AnyView {
    let fields = part
        .fields
        .into_iter()
        .map(move |one| field(one, last))
        .collect_view();
    view! {
        <fieldset class="stack">
            <legend><h2>{part.name}</h2></legend>
            {fields}
        </fieldset>
    }
    .into_any()
}

/// One field. What cannot be used stays in it with what would do.
fn field(field: PaperField, last: u32) -> AnyView {
    let sheet = SheetState::here();
    let number = field.number;
    let id = field.dom.clone();
    let error_id = format!("{id}-error");
    let hint_id = format!("{id}-hint");
    let options = field.options().join("; ");
    let has_hint = !options.is_empty();
    let unit = field.unit(sheet.unit_now());
    let label = field.name.clone();
    let kept = StoredValue::new(field);
    let text = RwSignal::new(kept.with_value(|field| field.stands(&sheet.facts_now())));
    let refused = RwSignal::new(String::new());
    // What another tab writes, and what undo takes back, comes in unless this one is wrong.
    Effect::new(move |_| {
        let stands = kept.with_value(|field| sheet.see_facts(|facts| field.stands(facts)));
        if refused.with_untracked(String::is_empty) && is_other(&text.get_untracked(), &stands) {
            text.set(stands);
        }
    });
    let face = Memo::new(move |_| kept.with_value(|field| sheet.face(&field.row)));
    let wrong = Memo::new(move |_| {
        let refused = refused.get();
        if refused.is_empty() {
            face.with(|face| kept.with_value(|field| wrong_in(field, face)))
        } else {
            refused
        }
    });
    let type_in = move |event: ev::Event| {
        let typed = event_target_value(&event);
        text.set(typed.clone());
        let steps = kept.with_value(|field| field.typed(&typed, &sheet.facts_now()));
        match steps {
            Ok(steps) => {
                refused.set(String::new());
                for step in steps {
                    kept.with_value(|field| take(sheet, field, step));
                }
            }
            Err(why) => refused.set(why),
        }
    };
    let described = [(has_hint, hint_id.clone()), (true, error_id.clone())];
    let described = described
        .into_iter()
        .filter(|(is, _)| *is)
        .map(|(_, id)| id);
    let described = described.collect::<Vec<_>>().join(" ");
    view! {
        <div class="field numbered">
            <label for=id.clone()><b>{number}</b> " " {label}</label>
            {has_hint.then(|| view! { <p class="hint" id=hint_id>{options}</p> })}
            <span class="with-unit">
                <input
                    class="input"
                    id=id
                    type="text"
                    autocomplete="off"
                    spellcheck="false"
                    prop:value=text
                    aria-describedby=described
                    aria-invalid=move || wrong.with(|wrong| (!wrong.is_empty()).then_some("true"))
                    on:input=type_in
                    on:keydown=move |event| on_enter(&event, number, last)
                />
                <span>{unit}</span>
            </span>
            <p class="error" id=error_id aria-live="polite">{move || wrong.get()}</p>
        </div>
    }
    .into_any()
}

/// Whether a text that stands in the ledger is another than what is typed: spaces and
/// capitals are no difference.
fn is_other(typed: &str, stands: &str) -> bool {
    !typed.trim().eq_ignore_ascii_case(stands.trim())
}

fn wrong_in(field: &PaperField, face: &Face) -> String {
    let slots: Vec<&str> = match &field.takes {
        Takes::Reading(input) => vec![&input.slot],
        _ => vec![&field.row.id],
    };
    let own = face
        .errors
        .iter()
        .filter(|(id, _)| slots.contains(&id.as_str()));
    own.map(|(_, words)| words.as_str())
        .collect::<Vec<_>>()
        .join(" ")
}

fn take(sheet: SheetState, field: &PaperField, step: PaperStep) {
    match step {
        PaperStep::Reading(input, text) => sheet.set_reading(&field.row, &input, &text),
        PaperStep::Tally(text) => sheet.set_tally(&field.row, &text),
        PaperStep::Edit(edit) => sheet.edit(&field.dom, edit),
    }
}

/// Enter goes on, Shift and Enter go back.
fn on_enter(event: &ev::KeyboardEvent, number: u32, last: u32) {
    if event.key() != "Enter" || event.is_composing() {
        return;
    }
    event.prevent_default();
    let to = if event.shift_key() {
        number.saturating_sub(1).max(1)
    } else {
        (number + 1).min(last)
    };
    focus(to);
}

/// Puts the focus on the field of this number, ready to be typed over.
fn focus(number: u32) {
    let found = document().get_element_by_id(&format!("n-{number}"));
    let Some(field) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) else {
        return;
    };
    let _ = field.focus();
    if let Some(input) = field.dyn_ref::<web_sys::HtmlInputElement>() {
        input.select();
    }
}

/// The comment on the whole, as the last number.
fn overall(number: u32) -> AnyView {
    let sheet = SheetState::here();
    TextBox {
        id: format!("n-{number}"),
        label: format!("{number} Comment on the whole"),
        hint: "",
        lines: 3,
        value: Signal::derive(move || sheet.comment(None)),
        wrong: never_wrong(),
        typed: Callback::new(move |text: String| {
            sheet.edit(
                "overall",
                Edit::SetComment {
                    entry: None,
                    comment: Some(text),
                },
            );
        }),
    }
    .view()
}

/// Comments on single criteria, each with a number of the sheet.
fn notes(number: u32) -> AnyView {
    let sheet = SheetState::here();
    let parts = StoredValue::new(sheet.rubric(paper_parts));
    let comments = move || sheet.of_record(|record| record.comments.clone());
    let edits = move |typed: &str, comments: &BTreeMap<String, String>| {
        parts.with_value(|parts| notes_typed(parts, comments, typed))
    };
    let text = RwSignal::new(String::new());
    let wrong = RwSignal::new(String::new());
    // What another tab writes, and what undo takes back, comes in unless this one is wrong.
    Effect::new(move |_| {
        let comments = comments();
        let is_right = wrong.with_untracked(String::is_empty);
        let is_other = text.with_untracked(|typed| edits(typed, &comments) != Ok(Vec::new()));
        if is_right && is_other {
            text.set(parts.with_value(|parts| paper_notes(parts, &comments)));
        }
    });
    let typed = move |typed: String| {
        let edits = edits(&typed, &untrack(comments));
        text.set(typed);
        wrong.set(edits.as_ref().err().cloned().unwrap_or_default());
        for edit in edits.unwrap_or_default() {
            sheet.edit("notes", edit);
        }
    };
    TextBox {
        id: format!("n-{number}"),
        label: format!("{number} Comments by number"),
        hint: "A line for each: the number, then the comment.",
        lines: 4,
        value: text.into(),
        wrong: wrong.into(),
        typed: Callback::new(typed),
    }
    .view()
}
