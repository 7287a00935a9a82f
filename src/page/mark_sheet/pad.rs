use leptos::ev;
use leptos::prelude::*;

use super::focus;
use super::state::{SheetState, Target};
use crate::command::Edit;
use crate::present::mark_sheet::{Key, Row, RowForm, press, start_of, step};
use crate::quantity::{Dimension, Unit};

const DIGITS: [(&str, Option<&str>); 12] = [
    ("7", None),
    ("8", None),
    ("9", None),
    ("4", None),
    ("5", None),
    ("6", None),
    ("1", None),
    ("2", None),
    ("3", None),
    ("0", None),
    (",", Some("comma")),
    ("..", Some("to")),
];

const FRACTIONS: [&str; 9] = ["1/2", "1/4", "3/4", "1/8", "1/16", "/8", "/16", "/", " "];

/// The text that the pad works on.
fn text_now(sheet: SheetState, target: &Target) -> String {
    untrack(|| match &target.input {
        Some(input) => sheet.text_of(input),
        None => sheet.tally_of(&target.row.id),
    })
}

fn write(sheet: SheetState, target: &Target, text: &str) {
    match &target.input {
        Some(input) => sheet.set_reading(input, text),
        None => sheet.set_tally(&target.row, text),
    }
}

fn on_target(sheet: SheetState, change: impl FnOnce(&Target, &str) -> String) {
    if let Some(target) = sheet.target.get_untracked() {
        let text = text_now(sheet, &target);
        let after = change(&target, &text);
        write(sheet, &target, &after);
    }
}

fn unit_of(sheet: SheetState, target: &Target) -> Unit {
    let of_reading = target.input.as_ref().and_then(|input| {
        let readings = untrack(|| sheet.readings(&input.slot));
        readings
            .get(input.member.unwrap_or(0))
            .and_then(|reading| reading.unit)
    });
    of_reading.unwrap_or_else(|| sheet.unit_now())
}

fn dimension_of(target: &Target) -> Dimension {
    match (&target.input, &target.row.form) {
        (Some(input), _) => input.dimension,
        (None, RowForm::Tally { dimension, .. }) => *dimension,
        (None, _) => Dimension::Count,
    }
}

fn step_target(sheet: SheetState, up: bool) {
    on_target(sheet, |target, text| {
        let start = sheet.rubric(|rubric| start_of(rubric, &target.row));
        step(
            text,
            dimension_of(target),
            unit_of(sheet, target),
            up,
            start,
        )
    });
}

/// A tally one step up or down.
pub(super) fn stepped_tally(sheet: SheetState, row: &Row, text: &str, up: bool) -> String {
    let target = Target {
        row: row.clone(),
        input: None,
    };
    step(text, dimension_of(&target), sheet.unit_now(), up, None)
}

/// What is typed from now on, and in the reading at hand, is in `unit`.
fn set_unit(sheet: SheetState, unit: Unit) {
    sheet.edit("unit", Edit::SetUnit { unit });
    let target = sheet.target.get_untracked();
    let Some(input) = target.and_then(|target| target.input) else {
        return;
    };
    let mut readings = untrack(|| sheet.readings(&input.slot));
    if input.dimension != Dimension::Length || readings.is_empty() {
        return;
    }
    for (index, reading) in readings.iter_mut().enumerate() {
        if input.member.is_none_or(|member| member == index) {
            reading.unit = Some(unit);
        }
    }
    sheet.edit(
        "unit",
        Edit::SetReadings {
            entry: input.slot,
            readings,
        },
    );
}

/// Keeps the focus in the reading while a key is pressed.
fn keep_focus(event: ev::PointerEvent) {
    event.prevent_default();
}

fn key(
    sheet: SheetState,
    data: &'static str,
    shown: &'static str,
    label: Option<&'static str>,
    act: impl Fn(SheetState) + 'static,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="key"
            data-key=data
            aria-label=label
            on:pointerdown=keep_focus
            on:mousedown=|event: ev::MouseEvent| event.prevent_default()
            on:click=move |_| act(sheet)
        >
            {shown}
        </button>
    }
}

fn put(text: &'static str) -> impl Fn(SheetState) + 'static {
    move |sheet| on_target(sheet, |_, before| press(before, Key::Put(text)))
}

/// The number pad for gloved hands.
#[component]
pub(super) fn Pad() -> impl IntoView {
    let sheet = SheetState::here();
    let tray_open = RwSignal::new(false);
    let name = move || {
        sheet.target.with(|target| match target {
            Some(Target {
                row,
                input: Some(input),
            }) if !input.label.is_empty() => {
                format!("{}, {}", row.name, input.label)
            }
            Some(Target { row, .. }) => row.name.clone(),
            None => "Choose a reading".to_owned(),
        })
    };
    let shown = move || {
        sheet.target.with(|target| match target {
            Some(Target {
                input: Some(input), ..
            }) => sheet.text_of(input),
            Some(Target { row, input: None }) => sheet.tally_of(&row.id),
            None => String::new(),
        })
    };
    let digits = DIGITS.map(|(text, label)| key(sheet, text, text, label, put(text)));
    let fractions = FRACTIONS.map(|text| {
        let shown = if text == " " { "space" } else { text };
        key(sheet, text, shown, None, put(text))
    });
    view! {
        <section class="pad" aria-label="Number pad" hidden=move || !sheet.pad_open.get()>
            <p class="pad-for">
                <span>{name}</span>
                <output>{shown}</output>
            </p>
            <div class="keys">
                <div class="digits">{digits.into_iter().collect_view()}</div>
                <div class="edits">
                    {key(sheet, "back", "⌫", Some("back one"), |sheet| {
                        on_target(sheet, |_, text| press(text, Key::Back));
                    })}
                    {key(sheet, "clear", "clear", None, |sheet| {
                        on_target(sheet, |_, text| press(text, Key::Clear));
                    })}
                    {key(sheet, "minus", "−", Some("one step less"), |sheet| {
                        step_target(sheet, false);
                    })}
                    {key(sheet, "plus", "+", Some("one step more"), |sheet| {
                        step_target(sheet, true);
                    })}
                    <UnitKey unit=Unit::Millimetre name="mm" />
                    <UnitKey unit=Unit::Inch64 name="in" />
                    <button
                        type="button"
                        class="key"
                        data-key="fractions"
                        aria-label="fractions"
                        aria-expanded=move || tray_open.get().to_string()
                        aria-controls="pad-fractions"
                        on:pointerdown=keep_focus
                        on:click=move |_| tray_open.update(|open| *open = !*open)
                    >
                        "½"
                    </button>
                    {key(sheet, "next", "next", None, |_| focus::move_on(true))}
                </div>
                <div class="fractions" id="pad-fractions" hidden=move || !tray_open.get()>
                    {fractions.into_iter().collect_view()}
                </div>
            </div>
        </section>
    }
}

#[component]
fn UnitKey(unit: Unit, name: &'static str) -> impl IntoView {
    let sheet = SheetState::here();
    let is_it = move || {
        let here = sheet.unit();
        here == unit || name == "in" && here == Unit::Inch32
    };
    view! {
        <button
            type="button"
            class="key"
            data-key=name
            aria-pressed=move || is_it().to_string()
            on:pointerdown=keep_focus
            on:mousedown=|event: ev::MouseEvent| event.prevent_default()
            on:click=move |_| set_unit(sheet, unit)
        >
            {name}
        </button>
    }
}
