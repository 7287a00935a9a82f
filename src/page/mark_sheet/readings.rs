use leptos::ev;
use leptos::prelude::*;

use super::focus;
use super::state::{SheetState, Target};
use crate::present::mark_sheet::{Face, Input, Row, unit_sign, verdict_of};
use crate::quantity::Verdict;

/// The inputs of a measured row.
#[component]
pub(super) fn ReadingEntry(
    row: Row,
    inputs: Vec<Input>,
    verdicts: bool,
    face: Memo<Face>,
) -> impl IntoView {
    let first = inputs.first().cloned();
    let is_one = inputs.len() == 1;
    let fields = inputs
        .into_iter()
        .map(|input| view! { <OneReading row=row.clone() input=input face=face alone=is_one /> })
        .collect_view();
    let gauge = first
        .filter(|_| verdicts)
        .map(|input| view! { <Verdicts row=row.clone() input=input /> });
    if is_one {
        view! { {fields} {gauge} }.into_any()
    } else {
        view! { <div class="entries">{fields}</div> {gauge} }.into_any()
    }
}

#[component]
fn OneReading(row: Row, input: Input, face: Memo<Face>, alone: bool) -> impl IntoView {
    let sheet = SheetState::here();
    let error_id = format!("e-{}", row.dom);
    let name_id = format!("n-{}", row.dom);
    let stored = StoredValue::new(input.clone());
    let text = Memo::new(move |_| stored.with_value(|input| sheet.text_of(input)));
    let sign = Memo::new(move |_| {
        stored.with_value(|input| {
            sheet
                .see_facts(|facts| {
                    let first = facts.readings.get(&input.slot).and_then(|readings| {
                        readings
                            .get(input.member.unwrap_or(0))
                            .and_then(|reading| reading.unit)
                    });
                    first.map(|unit| unit_sign(input, unit).to_owned())
                })
                .unwrap_or_else(|| unit_sign(input, sheet.unit()).to_owned())
        })
    });
    let has_error =
        Memo::new(move |_| face.with(|face| stored.with_value(|input| face.is_wrong(&input.slot))));
    let target = Target {
        row: row.clone(),
        input: Some(input.clone()),
    };
    let label = (!alone).then(|| {
        view! { <label for=input.dom.clone()>{input.label.clone()}</label> }
    });
    let (labelled_by, described_by) = if alone {
        (Some(name_id), None)
    } else {
        (None, Some(name_id))
    };
    view! {
        <div class="entry">
            {label}
            <input
                class="reading"
                id=input.dom.clone()
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                enterkeyhint="next"
                aria-labelledby=labelled_by
                aria-describedby=move || {
                    if has_error.get() { Some(error_id.clone()) } else { described_by.clone() }
                }
                aria-invalid=move || has_error.get().then_some("true")
                inputmode=move || if sheet.pad_open.get() { "none" } else { "text" }
                prop:value=text
                on:input:target=move |event| {
                    stored.with_value(|input| sheet.set_reading(input, &event.target().value()));
                }
                on:focus=move |_| sheet.target.set(Some(target.clone()))
                on:keydown=on_enter
            />
            <span class="unit">{sign}</span>
        </div>
    }
}

/// Enter goes to the next field, with shift to the one before.
pub(super) fn on_enter(event: ev::KeyboardEvent) {
    if event.key() == "Enter" && !event.is_composing() {
        event.prevent_default();
        focus::move_on(!event.shift_key());
    }
}

#[component]
fn Verdicts(row: Row, input: Input) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(input);
    let given = Memo::new(move |_| verdict_of(&stored.with_value(|input| sheet.text_of(input))));
    let tap = move |verdict: Verdict| {
        let text = if given.get_untracked() == Some(verdict) {
            ""
        } else {
            verdict.word()
        };
        stored.with_value(|input| sheet.set_reading(input, text));
    };
    let buttons = [Verdict::Under, Verdict::Within, Verdict::Over].map(|verdict| {
        view! {
            <button
                type="button"
                class="verdict"
                aria-pressed=move || (given.get() == Some(verdict)).to_string()
                on:click=move |_| tap(verdict)
            >
                {verdict.word()}
            </button>
        }
    });
    view! {
        <div class="verdicts" role="group" aria-label=format!("{}, by gauge", row.name)>
            {buttons.into_iter().collect_view()}
        </div>
    }
}

/// A count or a duration with its two steps.
#[component]
pub(super) fn TallyEntry(row: Row, unit: &'static str, face: Memo<Face>) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let text = Memo::new(move |_| stored.with_value(|row| sheet.tally_of(&row.id)));
    let has_error = Memo::new(move |_| face.with(|face| !face.errors.is_empty()));
    let target = Target {
        row: row.clone(),
        input: None,
    };
    let error_id = format!("e-{}", row.dom);
    let go = move |up: bool| {
        stored.with_value(|row| {
            let next = super::pad::stepped_tally(sheet, row, &text.get_untracked(), up);
            sheet.set_tally(row, &next);
        });
    };
    view! {
        <div class="tally">
            <button type="button" class="step" aria-label="one less" on:click=move |_| go(false)>
                "−"
            </button>
            <input
                class="reading"
                id=format!("r-{}", row.dom)
                autocomplete="off"
                enterkeyhint="next"
                aria-labelledby=format!("n-{}", row.dom)
                aria-describedby=move || has_error.get().then(|| error_id.clone())
                aria-invalid=move || has_error.get().then_some("true")
                inputmode=move || if sheet.pad_open.get() { "none" } else { "text" }
                prop:value=text
                on:input:target=move |event| {
                    stored.with_value(|row| sheet.set_tally(row, &event.target().value()));
                }
                on:focus=move |_| sheet.target.set(Some(target.clone()))
                on:keydown=on_enter
            />
            <button type="button" class="step" aria-label="one more" on:click=move |_| go(true)>
                "+"
            </button>
            <span class="unit">{unit}</span>
        </div>
    }
}
