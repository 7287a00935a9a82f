//! What few rows need: steel measured hot, the clock, a stop lifted.

use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;
use crate::marking::Lift;
use crate::page::widgets::{TextBox, Tile, TileKind, never_wrong, tile_words, when};
use crate::present::mark_sheet::{Face, Row, pause_texts, pause_typed, with_first_pause};

/// A reading taken hot is kept and never used. There is nothing to say so of before
/// there is a reading.
pub(super) fn hot_tick(row: &Row) -> AnyView {
    let sheet = SheetState::here();
    let kept = StoredValue::new(row.clone());
    let has_reading =
        Signal::derive(move || kept.with_value(|row| row.slots().any(|slot| sheet.has(slot))));
    when(has_reading, move || {
        Tile {
            kind: TileKind::Check,
            class: "tile",
            checked: Signal::derive(move || kept.with_value(|row| sheet.is_hot(row))),
            chosen: Callback::new(move |hot: bool| kept.with_value(|row| set_hot(sheet, row, hot))),
            inside: tile_words("Taken hot", "kept, never used for marks"),
        }
        .view()
    })
}

fn set_hot(sheet: SheetState, row: &Row, hot: bool) {
    for slot in row.slots() {
        let mut readings = untrack(|| sheet.readings(slot));
        for reading in &mut readings {
            reading.hot = hot;
        }
        sheet.edit(
            &format!("h-{}", row.dom),
            Edit::SetReadings {
                entry: slot.to_owned(),
                readings,
            },
        );
    }
}

/// Two texts that belong together and are dropped when both are empty.
struct Pair {
    id: String,
    labels: [&'static str; 2],
    hint: &'static str,
    now: Signal<[String; 2]>,
    set: Callback<[String; 2]>,
}

impl Pair {
    fn view(self) -> AnyView {
        let Self {
            id,
            labels,
            hint,
            now,
            set,
        } = self;
        let fields = [0_usize, 1].map(|index| {
            let of = move |pair: &[String; 2]| pair.get(index).cloned().unwrap_or_default();
            TextBox {
                id: if index == 0 {
                    id.clone()
                } else {
                    format!("{id}-why")
                },
                label: labels.get(index).copied().unwrap_or_default().to_owned(),
                hint: if index == 0 { hint } else { "" },
                lines: 1,
                value: Signal::derive(move || now.with(of)),
                wrong: never_wrong(),
                typed: Callback::new(move |text: String| {
                    let mut pair = now.get_untracked();
                    if let Some(part) = pair.get_mut(index) {
                        *part = text;
                    }
                    set.run(pair);
                }),
            }
            .view()
        });
        fields.into_iter().collect_view().into_any()
    }
}

/// Times when the clock stood, and time added by arrangement.
pub(super) fn clock_fields(row: &Row) -> AnyView {
    let sheet = SheetState::here();
    let pause = Pair {
        id: format!("p-{}", row.dom),
        labels: ["Clock stood for", "Why it stood"],
        hint: "in minutes, or like 1 h 10 min",
        now: Signal::derive(move || sheet.see_facts(|facts| pause_texts(facts.pauses.first()))),
        set: Callback::new(move |pair: [String; 2]| {
            let pauses = with_first_pause(sheet.facts_now().pauses, pair);
            sheet.edit("pauses", Edit::SetPauses { pauses });
        }),
    };
    let extra = Pair {
        id: format!("x-{}", row.dom),
        labels: ["Extra time by arrangement", "Why it was arranged"],
        hint: "in minutes, or like 1 h 10 min",
        now: Signal::derive(move || {
            sheet.see_facts(|facts| pause_texts(facts.extra_time.as_ref()))
        }),
        set: Callback::new(move |pair: [String; 2]| {
            sheet.edit(
                "extra",
                Edit::SetExtraTime {
                    extra_time: pause_typed(pair),
                },
            );
        }),
    };
    view! { {pause.view()} {extra.view()} }.into_any()
}

/// Who sets a stop of this row aside, and why.
pub(super) fn lift_fields(row: &Row, face: Memo<Face>) -> AnyView {
    let kept = StoredValue::new(row.clone());
    let sheet = SheetState::here();
    let has_stop = Signal::derive(move || face.with(|face| !face.stops.is_empty()));
    when(has_stop, move || {
        let entry = StoredValue::new(kept.with_value(|row| row.id.clone()));
        let lift = Pair {
            id: kept.with_value(|row| format!("b-{}", row.dom)),
            labels: ["Chief examiner", "Reason for lifting the stop"],
            hint: "",
            now: Signal::derive(move || {
                entry.with_value(|entry| {
                    sheet.see_facts(|facts| {
                        let lift = facts.lifts.iter().find(|lift| &lift.entry == entry);
                        lift.map_or_else(Default::default, |lift| {
                            [lift.by.clone(), lift.reason.clone()]
                        })
                    })
                })
            }),
            set: Callback::new(move |[by, reason]: [String; 2]| {
                let entry = entry.get_value();
                let mut lifts = sheet.facts_now().lifts;
                lifts.retain(|lift| lift.entry != entry);
                if !(by.is_empty() && reason.is_empty()) {
                    lifts.push(Lift { entry, by, reason });
                }
                let place = kept.with_value(|row| format!("b-{}", row.dom));
                sheet.edit(&place, Edit::SetLifts { lifts });
            }),
        };
        view! {
            <fieldset class="field">
                <legend>"Lift the stop"</legend>
                <p class="hint">
                    "Only the chief examiner may. Name and reason are printed on the sheet."
                </p>
                {lift.view()}
            </fieldset>
        }
        .into_any()
    })
}
