use leptos::prelude::*;

use super::rare::{clock_fields, hot_tick, lift_fields};
use super::state::SheetState;
use super::ticks::fault_ticks;
use crate::command::Edit;
use crate::marking::{State, StateFact};
use crate::page::widgets::{TextBox, Tile, TileKind, never_wrong, tile_words, when};
use crate::present::mark_sheet::{Face, Row, RowForm, takes_instrument};

/// Instrument, faults, state, comment and what else is rare in a row.
pub(super) fn panel(row: &Row, face: Memo<Face>) -> AnyView {
    let faults = (!row.faults.is_empty()).then(|| {
        let ticks = fault_ticks(row, row.faults.clone(), face, false);
        view! { <div class="field"><p class="label">"Faults seen here"</p> {ticks}</div> }
    });
    let instruments = takes_instrument(row).then(|| instrument_fields(row, face));
    if row.unmarked {
        return view! { {instruments} }.into_any();
    }
    let is_time = matches!(row.form, RowForm::Tally { is_time: true, .. });
    view! {
        {instruments}
        {faults}
        {state_fields(row, face)}
        {hot_tick(row)}
        {is_time.then(|| clock_fields(row))}
        {lift_fields(row, face)}
        {comment_field(row)}
    }
    .into_any()
}

/// What the row's readings are taken with.
fn instrument_fields(row: &Row, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    let tiles = untrack(|| sheet.instruments_now(row)).into_iter();
    let tiles: Vec<AnyView> = tiles
        .map(|offer| {
            let (sets, inside) = (
                offer.sets.clone(),
                tile_words(offer.name.clone(), offer.about.clone()),
            );
            let tile = Tile {
                kind: TileKind::Radio(format!("i-{}", row.dom)),
                class: "tile",
                checked: Signal::derive(move || face.with(|face| face.instrument == sets)),
                chosen: Callback::new(move |_| kept.with_value(|row| sheet.take_with(row, &offer))),
                inside,
            };
            tile.view()
        })
        .collect();
    view! {
        <fieldset class="field">
            <legend>"Measured with"</legend>
            <div class="tiles">{tiles}</div>
        </fieldset>
    }
    .into_any()
}

fn state_fields(row: &Row, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    let offers = [
        (None, "Marked", Some("from what is entered")),
        (
            Some(State::NotMade),
            "Not made",
            Some("marks zero, and says so"),
        ),
        (
            Some(State::CannotMeasure),
            "Can’t be measured",
            Some("give the reason; you decide the marks"),
        ),
        (
            Some(State::NotApplicable),
            "Not applicable",
            row.not_applicable,
        ),
    ];
    let tiles: Vec<AnyView> = offers
        .into_iter()
        .filter_map(|(state, name, does)| {
            let fresh = move || {
                state.map(|state| StateFact {
                    state,
                    reason: None,
                    marks: None,
                })
            };
            let tile = Tile {
                kind: TileKind::Radio(format!("s-{}", row.dom)),
                class: "tile",
                checked: Signal::derive(move || face.with(|face| face.chosen == state)),
                chosen: Callback::new(move |_| set_state(sheet, kept, "s", fresh())),
                inside: tile_words(name, does?),
            };
            Some(tile.view())
        })
        .collect();
    let has_state = Signal::derive(move || face.with(|face| face.chosen.is_some()));
    let is_decided =
        Signal::derive(move || face.with(|face| face.chosen == Some(State::CannotMeasure)));
    view! {
        <fieldset class="field" disabled=move || face.with(|face| face.locked)>
            <legend>"State"</legend>
            <div class="tiles">{tiles}</div>
        </fieldset>
        {when(has_state, move || reason_field(kept, face))}
        {when(is_decided, move || decided_field(kept, face))}
    }
    .into_any()
}

/// Writes the state; `part` tells the steps of its three controls apart.
fn set_state(
    sheet: SheetState,
    row: StoredValue<Row>,
    part: &'static str,
    state: Option<StateFact>,
) {
    row.with_value(|row| {
        sheet.edit(
            &format!("{part}-{}", row.dom),
            Edit::SetState {
                entry: row.id.clone(),
                state,
            },
        );
    });
}

/// Changes one thing in the state of a row.
fn change_state(
    sheet: SheetState,
    row: StoredValue<Row>,
    part: &'static str,
    change: impl FnOnce(&mut StateFact),
) {
    let facts = sheet.facts_now();
    if let Some(mut fact) = row.with_value(|row| facts.states.get(&row.id).cloned()) {
        change(&mut fact);
        set_state(sheet, row, part, Some(fact));
    }
}

fn reason_field(row: StoredValue<Row>, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    TextBox {
        id: row.with_value(|row| format!("w-{}", row.dom)),
        label: "Reason".to_owned(),
        hint: "",
        lines: 1,
        value: Signal::derive(move || face.with(|face| face.reason.clone())),
        wrong: never_wrong(),
        typed: Callback::new(move |text: String| {
            change_state(sheet, row, "w", |fact| {
                fact.reason = (!text.is_empty()).then_some(text);
            });
        }),
    }
    .view()
}

fn decided_field(row: StoredValue<Row>, face: Memo<Face>) -> AnyView {
    let sheet = SheetState::here();
    TextBox {
        id: row.with_value(|row| format!("d-{}", row.dom)),
        label: row.with_value(|row| format!("Marks you decide on, from 0 to {}", row.most)),
        hint: "",
        lines: 1,
        value: Signal::derive(move || face.with(|face| face.decided.clone())),
        wrong: Signal::derive(move || face.with(|face| face.decided_wrong.clone())),
        typed: Callback::new(move |text: String| {
            change_state(sheet, row, "d", |fact| {
                fact.marks = (!text.is_empty()).then_some(text);
            });
        }),
    }
    .view()
}

fn comment_field(row: &Row) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    TextBox {
        id: format!("c-{}", row.dom),
        label: "Comment".to_owned(),
        hint: "",
        lines: 3,
        value: Memo::new(move |_| kept.with_value(|row| sheet.comment(Some(&row.id)))).into(),
        wrong: never_wrong(),
        typed: Callback::new(move |text: String| {
            kept.with_value(|row| {
                let place = format!("c-{}", row.dom);
                let entry = Some(row.id.clone());
                sheet.edit(
                    &place,
                    Edit::SetComment {
                        entry,
                        comment: Some(text),
                    },
                );
            });
        }),
    }
    .view()
}
