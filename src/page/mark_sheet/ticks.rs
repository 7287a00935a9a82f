use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;
use crate::page::widgets::{PushButton, Tile, TileKind, tile_words, when};
use crate::present::mark_sheet::{Face, FaultTile, Row, seen_words, times_seen, with_fault};

/// Faults to tick. `has_none` offers "None seen", for rows that are a list of
/// faults and nothing else.
pub(super) fn fault_ticks(
    row: &Row,
    tiles: Vec<FaultTile>,
    face: Memo<Face>,
    has_none: bool,
) -> AnyView {
    let sheet = SheetState::here();
    let (id, place) = (row.id.clone(), format!("f-{}", row.dom));
    let set = Callback::new(move |faults: Option<Vec<String>>| {
        sheet.edit(
            &place,
            Edit::SetFaults {
                entry: id.clone(),
                faults,
            },
        );
    });
    let none = has_none.then(|| {
        Tile {
            kind: TileKind::Check,
            class: "tile",
            checked: Signal::derive(move || {
                face.with(|face| face.faults.as_ref().is_some_and(Vec::is_empty))
            }),
            chosen: Callback::new(move |is_on: bool| set.run(is_on.then(Vec::new))),
            inside: tile_words("None seen", "fills this list"),
        }
        .view()
    });
    let boxes: Vec<AnyView> = tiles
        .into_iter()
        .map(|tile| one_fault(tile, face, !has_none, set))
        .collect();
    view! {
        <fieldset>
            <legend class="unseen">{format!("Faults, {}", row.name)}</legend>
            <div class="tiles">{none} {boxes}</div>
        </fieldset>
    }
    .into_any()
}

/// One fault; seen again, it counts again. `empties` says whether the last tick
/// taken away leaves the list untouched.
fn one_fault(
    tile: FaultTile,
    face: Memo<Face>,
    empties: bool,
    set: Callback<Option<Vec<String>>>,
) -> AnyView {
    let id = StoredValue::new(tile.id);
    let name = StoredValue::new(tile.name.clone());
    let times = Memo::new(move |_| {
        id.with_value(|id| face.with(|face| times_seen(face.faults.as_deref(), id)))
    });
    let write = move |count: usize| {
        let before = face.with_untracked(|face| face.faults.clone());
        let after = id.with_value(|id| with_fault(before.as_deref(), id, count));
        set.run(Some(after).filter(|after| !(empties && after.is_empty())));
    };
    let tick = Tile {
        kind: TileKind::Check,
        class: "tile",
        checked: Signal::derive(move || times.get() > 0),
        chosen: Callback::new(move |is_on: bool| write(usize::from(is_on))),
        inside: tile_words(tile.name, tile.effect),
    };
    let again = move || {
        let words = Signal::derive(move || seen_words(times.get()));
        let label = name.with_value(|name| format!("{name} seen again"));
        let push = move || write(times.get_untracked() + 1);
        PushButton {
            words,
            label: Some(label),
            ..PushButton::plain("", push)
        }
        .view()
    };
    view! {
        <div class="fault">{tick.view()} {when(Signal::derive(move || times.get() > 0), again)}</div>
    }
    .into_any()
}
