use leptos::ev;
use leptos::prelude::*;

use super::focus;
use super::pad::stepped_tally;
use super::state::{SheetState, Target};
use crate::page::widgets::PushButton;
use crate::present::mark_sheet::{Face, Input, Row, unit_sign, verdict_of};
use crate::quantity::Verdict;

/// One input for a reading, a count or a duration.
struct Entry {
    id: String,
    label: Option<String>,
    /// The row's heading, which names it or says more about it.
    heading: String,
    error: String,
    text: Signal<String>,
    is_wrong: Signal<bool>,
    typed: Callback<String>,
    target: Target,
}

impl Entry {
    fn view(self) -> AnyView {
        let Self {
            id,
            label,
            heading,
            error,
            text,
            is_wrong,
            typed,
            target,
        } = self;
        let sheet = SheetState::here();
        let alone = label.is_none();
        let labelled_by = alone.then(|| heading.clone());
        let described_by = Signal::derive(move || match is_wrong.get() {
            true => Some(error.clone()),
            false => (!alone).then(|| heading.clone()),
        });
        let label = label.map(|label| view! { <label for=id.clone()>{label}</label> }.into_any());
        view! {
            {label}
            <input
                class="reading"
                id=id
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                enterkeyhint="next"
                aria-labelledby=labelled_by
                aria-describedby=described_by
                aria-invalid=move || is_wrong.get().then_some("true")
                inputmode=move || if sheet.pad_open.get() { "none" } else { "text" }
                prop:value=text
                on:input=move |event: ev::Event| typed.run(event_target_value(&event))
                on:focus=move |_: ev::FocusEvent| sheet.target.set(Some(target.clone()))
                on:keydown=on_enter
            />
        }
        .into_any()
    }
}

/// Enter goes to the next field, with shift to the one before.
fn on_enter(event: ev::KeyboardEvent) {
    if event.key() == "Enter" && !event.is_composing() {
        event.prevent_default();
        focus::move_on(!event.shift_key());
    }
}

/// The inputs of a measured row.
pub(super) fn reading_entry(
    row: &Row,
    inputs: Vec<Input>,
    verdicts: bool,
    face: Memo<Face>,
) -> AnyView {
    let first = inputs.first().cloned();
    let is_one = inputs.len() == 1;
    let fields: Vec<AnyView> = inputs
        .into_iter()
        .map(|input| one_reading(row, input, face, is_one))
        .collect();
    let gauge = first
        .filter(|_| verdicts)
        .map(|input| gauge_verdicts(row, input));
    if is_one {
        view! { {fields} {gauge} }.into_any()
    } else {
        view! { <div class="entries">{fields}</div> {gauge} }.into_any()
    }
}

fn one_reading(row: &Row, input: Input, face: Memo<Face>, alone: bool) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(input.clone());
    let own_row = StoredValue::new(row.clone());
    let sign = Memo::new(move |_| kept.with_value(|input| unit_sign(input, sheet.unit_in(input))));
    let entry = Entry {
        id: input.dom.clone(),
        label: (!alone).then(|| input.label.clone()),
        heading: format!("n-{}", row.dom),
        error: format!("e-{}", row.dom),
        text: Memo::new(move |_| kept.with_value(|input| sheet.text_of(input))).into(),
        is_wrong: Memo::new(move |_| {
            face.with(|face| kept.with_value(|input| face.is_wrong(&input.slot)))
        })
        .into(),
        typed: Callback::new(move |text: String| {
            kept.with_value(|input| own_row.with_value(|row| sheet.set_reading(row, input, &text)));
        }),
        target: Target {
            row: row.clone(),
            input: Some(input),
        },
    };
    view! { <div class="entry">{entry.view()} <span class="unit">{sign}</span></div> }.into_any()
}

fn gauge_verdicts(row: &Row, input: Input) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(input);
    let own_row = StoredValue::new(row.clone());
    let given = Memo::new(move |_| verdict_of(&kept.with_value(|input| sheet.text_of(input))));
    let buttons: Vec<AnyView> = [Verdict::Under, Verdict::Within, Verdict::Over]
        .into_iter()
        .map(|verdict| {
            let tap = move || {
                let is_given = given.get_untracked() == Some(verdict);
                let text = if is_given { "" } else { verdict.word() };
                kept.with_value(|input| {
                    own_row.with_value(|row| sheet.set_reading(row, input, text));
                });
            };
            PushButton {
                class: "verdict",
                pressed: Some(Signal::derive(move || given.get() == Some(verdict))),
                ..PushButton::plain(verdict.word(), tap)
            }
            .view()
        })
        .collect();
    view! {
        <div class="verdicts" role="group" aria-label=format!("{}, by gauge", row.name)>
            {buttons}
        </div>
    }
    .into_any()
}

/// A count or a duration with its two steps.
pub(super) fn tally_entry(row: &Row, unit: &'static str, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    let text = Memo::new(move |_| kept.with_value(|row| sheet.tally_of(&row.id)));
    let step = move |up: bool, words: &'static str, label: &str| {
        let go = move || {
            kept.with_value(|row| {
                let next = stepped_tally(sheet, row, &text.get_untracked(), up);
                sheet.set_tally(row, &next);
            });
        };
        let label = Some(label.to_owned());
        PushButton {
            class: "step",
            label,
            ..PushButton::plain(words, go)
        }
        .view()
    };
    let entry = Entry {
        id: format!("r-{}", row.dom),
        label: None,
        heading: format!("n-{}", row.dom),
        error: format!("e-{}", row.dom),
        text: text.into(),
        is_wrong: Memo::new(move |_| face.with(|face| !face.errors.is_empty())).into(),
        typed: Callback::new(move |text: String| {
            kept.with_value(|row| sheet.set_tally(row, &text));
        }),
        target: Target {
            row: row.clone(),
            input: None,
        },
    };
    view! {
        <div class="tally">
            {step(false, "−", "one less")} {entry.view()} {step(true, "+", "one more")}
            <span class="unit">{unit}</span>
        </div>
    }
    .into_any()
}
