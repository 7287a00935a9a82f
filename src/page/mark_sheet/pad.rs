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
        Some(input) => sheet.set_reading(&target.row, input, text),
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
    untrack(|| match &target.input {
        Some(input) => sheet.unit_in(input),
        None => sheet.unit(),
    })
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
fn keep_focus(event: &ev::Event) {
    event.prevent_default();
}

/// One key of the pad.
struct PadKey {
    data: &'static str,
    shown: &'static str,
    label: Option<&'static str>,
    pressed: Option<Signal<bool>>,
    expanded: Option<Signal<bool>>,
    act: Callback<()>,
}

impl PadKey {
    fn new(
        data: &'static str,
        shown: &'static str,
        label: Option<&'static str>,
        act: impl Fn() + Send + Sync + 'static,
    ) -> Self {
        let act = Callback::new(move |()| act());
        Self {
            data,
            shown,
            label,
            pressed: None,
            expanded: None,
            act,
        }
    }

    fn view(self) -> AnyView {
        let Self {
            data,
            shown,
            label,
            pressed,
            expanded,
            act,
        } = self;
        let word = |signal: Option<Signal<bool>>| move || signal.map(|on| on.get().to_string());
        view! {
            <button
                type="button"
                class="key"
                data-key=data
                aria-label=label
                aria-pressed=word(pressed)
                aria-expanded=word(expanded)
                aria-controls=expanded.map(|_| "pad-fractions")
                on:pointerdown=|event: ev::PointerEvent| keep_focus(&event)
                on:mousedown=|event: ev::MouseEvent| keep_focus(&event)
                on:click=move |_| act.run(())
            >
                {shown}
            </button>
        }
        .into_any()
    }
}

/// A key that changes the text.
fn text_key(
    data: &'static str,
    shown: &'static str,
    label: Option<&'static str>,
    key: Key<'static>,
) -> AnyView {
    let sheet = SheetState::here();
    PadKey::new(data, shown, label, move || {
        on_target(sheet, |_, text| press(text, key))
    })
    .view()
}

fn unit_key(unit: Unit, name: &'static str) -> AnyView {
    let sheet = SheetState::here();
    let pressed = Some(Signal::derive(move || sheet.unit() == unit));
    PadKey {
        pressed,
        ..PadKey::new(name, name, None, move || set_unit(sheet, unit))
    }
    .view()
}

/// The number pad for gloved hands.
pub(super) fn pad() -> AnyView {
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
    let digits: Vec<AnyView> = DIGITS
        .map(|(text, label)| text_key(text, text, label, Key::Put(text)))
        .into();
    let fractions: Vec<AnyView> = FRACTIONS
        .map(|text| {
            text_key(
                text,
                if text == " " { "space" } else { text },
                None,
                Key::Put(text),
            )
        })
        .into();
    let step_key = |data, shown, label, up: bool| {
        PadKey::new(data, shown, Some(label), move || step_target(sheet, up)).view()
    };
    let tray = PadKey {
        expanded: Some(tray_open.into()),
        ..PadKey::new("fractions", "½", Some("fractions"), move || {
            tray_open.update(|open| *open = !*open);
        })
    };
    let edits: Vec<AnyView> = vec![
        text_key("back", "⌫", Some("back one"), Key::Back),
        text_key("clear", "clear", None, Key::Clear),
        step_key("minus", "−", "one step less", false),
        step_key("plus", "+", "one step more", true),
        unit_key(Unit::Millimetre, "mm"),
        unit_key(sheet.inch, "in"),
        tray.view(),
        PadKey::new("next", "next", None, || focus::move_on(true)).view(),
    ];
    view! {
        <section class="pad" aria-label="Number pad" hidden=move || !sheet.pad_open.get()>
            <p class="pad-for"><span>{name}</span> <output>{shown}</output></p>
            <div class="keys">
                <div class="digits">{digits}</div>
                <div class="edits">{edits}</div>
                <div class="fractions" id="pad-fractions" hidden=move || !tray_open.get()>
                    {fractions}
                </div>
            </div>
        </section>
    }
    .into_any()
}
