use leptos::prelude::*;

use super::state::SheetState;
use super::ticks::FaultTicks;
use crate::command::Edit;
use crate::marking::{Lift, Pause, State, StateFact};
use crate::present::mark_sheet::{Face, Row, RowForm};

/// Faults, state, comment and what else is rare in a row.
#[component]
pub(super) fn Panel(row: Row, face: Memo<Face>) -> impl IntoView {
    let faults = (!row.faults.is_empty()).then(|| {
        let tiles = row.faults.clone();
        view! {
            <div class="field">
                <p class="label">"Faults seen here"</p>
                <FaultTicks row=row.clone() tiles=tiles face=face has_none=false />
            </div>
        }
    });
    let clock = matches!(row.form, RowForm::Tally { is_time: true, .. })
        .then(|| view! { <ClockFields row=row.clone() /> });
    let hot =
        matches!(row.form, RowForm::Readings { .. }).then(|| view! { <HotTick row=row.clone() /> });
    view! {
        {faults}
        <StateFields row=row.clone() face=face />
        {hot}
        {clock}
        <LiftFields row=row.clone() face=face />
        <CommentField row=row />
    }
}

#[component]
fn StateFields(row: Row, face: Memo<Face>) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let set = move |state: Option<StateFact>| {
        stored.with_value(|row| {
            let place = format!("s-{}", row.dom);
            sheet.edit(
                &place,
                Edit::SetState {
                    entry: row.id.clone(),
                    state,
                },
            );
        });
    };
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
    let group = format!("s-{}", row.dom);
    let tiles = offers.into_iter().filter_map(|(state, name, does)| {
        let does = does?;
        Some(view! {
            <label class="tile">
                <input
                    type="radio"
                    name=group.clone()
                    prop:checked=move || face.with(|face| face.chosen == state)
                    on:change=move |_| {
                        set(state.map(|state| StateFact { state, reason: None, marks: None }));
                    }
                />
                <b>{name}</b>
                <span>{does}</span>
            </label>
        })
    });
    let is_decided =
        Memo::new(move |_| face.with(|face| face.chosen == Some(State::CannotMeasure)));
    let has_state = Memo::new(move |_| face.with(|face| face.chosen.is_some()));
    view! {
        <fieldset class="field">
            <legend>"State"</legend>
            <div class="tiles">{tiles.collect_view()}</div>
        </fieldset>
        <Show when=move || has_state.get()>
            <div class="field">
                <label for=stored.with_value(|row| format!("w-{}", row.dom))>"Reason"</label>
                <input
                    class="input"
                    id=stored.with_value(|row| format!("w-{}", row.dom))
                    autocomplete="off"
                    prop:value=move || face.with(|face| face.reason.clone())
                    on:input:target=move |event| {
                        set(changed(sheet, &stored.get_value(), |fact| {
                            let text = event.target().value();
                            fact.reason = (!text.is_empty()).then_some(text);
                        }));
                    }
                />
            </div>
        </Show>
        <Show when=move || is_decided.get()>
            <DecidedMarks row=stored.get_value() face=face />
        </Show>
    }
}

/// The state of a row with one thing changed.
fn changed(sheet: SheetState, row: &Row, change: impl FnOnce(&mut StateFact)) -> Option<StateFact> {
    let mut fact = sheet.facts_now().states.get(&row.id).cloned()?;
    change(&mut fact);
    Some(fact)
}

#[component]
fn DecidedMarks(row: Row, face: Memo<Face>) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let typed = RwSignal::new(face.with_untracked(|face| face.decided.clone()));
    let is_wrong = Memo::new(move |_| {
        typed
            .with(|text| !text.trim().is_empty() && text.parse::<crate::quantity::Marks>().is_err())
    });
    let id = format!("d-{}", row.dom);
    view! {
        <div class="field">
            <label for=id.clone()>"Marks you decide on"</label>
            <p class="hint">{format!("from 0 to {}", row.most)}</p>
            <input
                class="input"
                id=id
                autocomplete="off"
                aria-invalid=move || is_wrong.get().then_some("true")
                prop:value=typed
                on:input:target=move |event| {
                    typed.set(event.target().value());
                    let marks = typed.with_untracked(|text| text.parse().ok());
                    let row = stored.get_value();
                    let state = changed(sheet, &row, |fact| fact.marks = marks);
                    let place = format!("s-{}", row.dom);
                    sheet.edit(&place, Edit::SetState { entry: row.id, state });
                }
            />
            <Show when=move || is_wrong.get()>
                <p class="error">"This is not a number. Write it like 3, 2.5 or 1/2."</p>
            </Show>
        </div>
    }
}

/// A reading taken hot is kept and never used.
#[component]
fn HotTick(row: Row) -> impl IntoView {
    let sheet = SheetState::here();
    let slots: Vec<String> = match &row.form {
        RowForm::Readings { inputs, .. } => inputs.iter().map(|input| input.slot.clone()).collect(),
        _ => Vec::new(),
    };
    let stored = StoredValue::new(slots);
    let is_hot = Memo::new(move |_| {
        stored.with_value(|slots| {
            slots
                .iter()
                .any(|slot| sheet.readings(slot).iter().any(|reading| reading.hot))
        })
    });
    view! {
        <label class="tile" data-kind="check">
            <input
                type="checkbox"
                prop:checked=is_hot
                on:change:target=move |event| {
                    let hot = event.target().checked();
                    for slot in stored.get_value() {
                        let mut readings = untrack(|| sheet.readings(&slot));
                        for reading in &mut readings {
                            reading.hot = hot;
                        }
                        sheet.edit("hot", Edit::SetReadings { entry: slot, readings });
                    }
                }
            />
            <b>"Taken hot"</b>
            <span>"kept, never used for marks"</span>
        </label>
    }
}

/// Times when the clock stood, and time added by arrangement.
#[component]
fn ClockFields(row: Row) -> impl IntoView {
    let sheet = SheetState::here();
    let pause = Memo::new(move |_| sheet.see_facts(|facts| facts.pauses.first().cloned()));
    let extra = Memo::new(move |_| sheet.see_facts(|facts| facts.extra_time.clone()));
    let set_pause = move |pause: Option<Pause>| {
        sheet.edit(
            "pauses",
            Edit::SetPauses {
                pauses: pause.into_iter().collect(),
            },
        );
    };
    let set_extra = move |extra_time: Option<Pause>| {
        sheet.edit("extra", Edit::SetExtraTime { extra_time });
    };
    view! {
        <TimeFields id=format!("p-{}", row.dom) title="Clock stood for" now=pause set=set_pause />
        <TimeFields id=format!("x-{}", row.dom) title="Extra time by arrangement" now=extra set=set_extra />
    }
}

#[component]
fn TimeFields(
    id: String,
    title: &'static str,
    now: Memo<Option<Pause>>,
    set: impl Fn(Option<Pause>) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let text = move |of: fn(&Pause) -> &String| {
        now.with(|now| {
            now.as_ref()
                .map(|pause| of(pause).clone())
                .unwrap_or_default()
        })
    };
    let change = move |change: &dyn Fn(&mut Pause)| {
        let none = Pause {
            duration: String::new(),
            reason: String::new(),
        };
        let mut pause = now.get_untracked().unwrap_or(none);
        change(&mut pause);
        set(Some(pause).filter(|pause| !(pause.duration.is_empty() && pause.reason.is_empty())));
    };
    let why_id = format!("{id}-why");
    view! {
        <div class="field">
            <label for=id.clone()>{title}</label>
            <p class="hint">"in minutes, or like 1 h 10 min"</p>
            <input class="input" id=id autocomplete="off"
                prop:value=move || text(|pause| &pause.duration)
                on:input:target=move |event| change(&|pause| pause.duration = event.target().value())
            />
            <label for=why_id.clone()>"Why"</label>
            <input class="input" id=why_id autocomplete="off"
                prop:value=move || text(|pause| &pause.reason)
                on:input:target=move |event| change(&|pause| pause.reason = event.target().value())
            />
        </div>
    }
}

/// Who sets a stop of this row aside, and why.
#[component]
fn LiftFields(row: Row, face: Memo<Face>) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row);
    let has_stop = Memo::new(move |_| face.with(|face| !face.stops.is_empty()));
    let lift = Memo::new(move |_| {
        stored.with_value(|row| {
            sheet.see_facts(|facts| {
                facts
                    .lifts
                    .iter()
                    .find(|lift| lift.entry == row.id)
                    .cloned()
            })
        })
    });
    let text = move |of: fn(&Lift) -> &String| {
        lift.with(|lift| {
            lift.as_ref()
                .map(|lift| of(lift).clone())
                .unwrap_or_default()
        })
    };
    let change = move |change: &dyn Fn(&mut Lift)| {
        let entry = stored.with_value(|row| row.id.clone());
        let none = Lift {
            entry: entry.clone(),
            by: String::new(),
            reason: String::new(),
        };
        let mut new = lift.get_untracked().unwrap_or(none);
        change(&mut new);
        let mut lifts = sheet.facts_now().lifts;
        lifts.retain(|lift| lift.entry != entry);
        if !(new.by.is_empty() && new.reason.is_empty()) {
            lifts.push(new);
        }
        sheet.edit("lifts", Edit::SetLifts { lifts });
    };
    let by_id = stored.with_value(|row| format!("b-{}", row.dom));
    let why_id = stored.with_value(|row| format!("y-{}", row.dom));
    let ids = StoredValue::new((by_id, why_id));
    view! {
        <Show when=move || has_stop.get()>
            <fieldset class="field">
                <legend>"Lift the stop"</legend>
                <p class="hint">
                    "Only the chief examiner may. Name and reason are printed on the sheet."
                </p>
                <label for=ids.with_value(|ids| ids.0.clone())>"Chief examiner"</label>
                <input class="input" id=ids.with_value(|ids| ids.0.clone()) autocomplete="off"
                    prop:value=move || text(|lift| &lift.by)
                    on:input:target=move |event| change(&|lift| lift.by = event.target().value())
                />
                <label for=ids.with_value(|ids| ids.1.clone())>"Reason"</label>
                <input class="input" id=ids.with_value(|ids| ids.1.clone()) autocomplete="off"
                    prop:value=move || text(|lift| &lift.reason)
                    on:input:target=move |event| change(&|lift| lift.reason = event.target().value())
                />
            </fieldset>
        </Show>
    }
}

#[component]
fn CommentField(row: Row) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let id = format!("c-{}", row.dom);
    let text = Memo::new(move |_| stored.with_value(|row| sheet.comment(Some(&row.id))));
    view! {
        <div class="field">
            <label for=id.clone()>"Comment"</label>
            <textarea
                class="input"
                id=id.clone()
                rows="3"
                dir="auto"
                prop:value=text
                on:input:target=move |event| {
                    let comment = Some(event.target().value());
                    stored.with_value(|row| {
                        let place = format!("c-{}", row.dom);
                        let entry = Some(row.id.clone());
                        sheet.edit(&place, Edit::SetComment { entry, comment });
                    });
                }
            ></textarea>
        </div>
    }
}
