use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;
use crate::present::mark_sheet::{Face, FaultTile, Row, times_seen, with_fault};

/// Faults to tick. `has_none` offers "None seen", for rows that are a list of
/// faults and nothing else.
#[component]
pub(super) fn FaultTicks(
    row: Row,
    tiles: Vec<FaultTile>,
    face: Memo<Face>,
    has_none: bool,
) -> impl IntoView {
    let sheet = SheetState::here();
    let stored = StoredValue::new(row.clone());
    let set = move |faults: Option<Vec<String>>| {
        stored.with_value(|row| {
            sheet.edit(
                &row.dom,
                Edit::SetFaults {
                    entry: row.id.clone(),
                    faults,
                },
            );
        });
    };
    let none = has_none.then(|| {
        let is_none = move || face.with(|face| face.faults.as_ref().is_some_and(Vec::is_empty));
        view! {
            <label class="tile" data-kind="check">
                <input
                    type="checkbox"
                    prop:checked=is_none
                    on:change:target=move |event| {
                        set(event.target().checked().then(Vec::new));
                    }
                />
                <b>"None seen"</b>
                <span>"fills this list"</span>
            </label>
        }
    });
    let boxes = tiles
        .into_iter()
        .map(|tile| view! { <OneFault tile=tile face=face empties=!has_none set=set /> })
        .collect_view();
    view! {
        <fieldset>
            <legend class="unseen">{format!("Faults, {}", row.name)}</legend>
            <div class="tiles">{none} {boxes}</div>
        </fieldset>
    }
}

/// One fault; seen again, it counts again.
#[component]
fn OneFault(
    tile: FaultTile,
    face: Memo<Face>,
    /// Whether the last tick taken away leaves the list untouched.
    empties: bool,
    set: impl Fn(Option<Vec<String>>) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let id = StoredValue::new(tile.id.clone());
    let times = Memo::new(move |_| {
        id.with_value(|id| face.with(|face| times_seen(face.faults.as_deref(), id)))
    });
    let write = move |count: usize| {
        let before = face.with_untracked(|face| face.faults.clone());
        let after = id.with_value(|id| with_fault(before.as_deref(), id, count));
        set(Some(after).filter(|after| !(empties && after.is_empty())));
    };
    view! {
        <div class="fault">
            <label class="tile" data-kind="check">
                <input
                    type="checkbox"
                    prop:checked=move || { times.get() > 0 }
                    on:change:target=move |event| write(usize::from(event.target().checked()))
                />
                <b>{tile.name.clone()}</b>
                <span>{tile.effect}</span>
            </label>
            <Show when=move || { times.get() > 0 }>
                <button
                    type="button"
                    class="button"
                    on:click=move |_| write(times.get_untracked() + 1)
                >
                    "Seen again"
                    <span class="unseen">{id.with_value(|id| format!(", {id}"))}</span>
                    {move || (times.get() > 1).then(|| format!(": {} times", times.get()))}
                </button>
            </Show>
        </div>
    }
}
