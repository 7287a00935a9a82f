use leptos::prelude::*;

use super::panel::{Open, panel};
use super::{take_back, tap_on};
use crate::marking::heat_log::What;
use crate::page::keeper::Keeper;
use crate::page::paths;
use crate::page::widgets::PushButton;
use crate::present::board::{Board, BoardTile};
use crate::records::MarkingId;

/// One piece: figures, buttons, and the way to its mark sheet.
pub(super) fn tile(id: MarkingId, shown: Memo<Option<Board>>) -> AnyView {
    let keeper = Keeper::here();
    let own = Memo::new(move |_| {
        shown.with(|board| {
            let mut tiles = board.iter().flat_map(|board| &board.tiles);
            tiles.find(|tile| tile.marking == id).cloned()
        })
    });
    let text = move |see: fn(&BoardTile) -> String| {
        Memo::new(move |_| own.with(|tile| tile.as_ref().map(see).unwrap_or_default()))
    };
    let is = move |see: fn(&BoardTile) -> bool| {
        let memo = Memo::new(move |_| own.with(|tile| tile.as_ref().is_some_and(see)));
        Signal::<bool>::from(memo)
    };
    let name = text(|tile| tile.name.clone());
    let (state, clock) = (
        text(|tile| tile.state.to_owned()),
        text(|tile| tile.clock.clone()),
    );
    let (of, heats) = (
        text(|tile| tile.clock_of.clone()),
        text(|tile| tile.heats.clone()),
    );
    let last = text(|tile| tile.last.clone());
    let open = RwSignal::new(Open::Nothing);
    let button = move |words: &'static str, may: Signal<bool>, what: fn() -> What| {
        PushButton {
            label: Some(format!("{words}: {}", name.get_untracked())),
            enabled: may,
            ..PushButton::plain(words, move || {
                open.set(Open::Nothing);
                tap_on(keeper, id, what());
            })
        }
        .view()
    };
    let opens = move |words: &'static str, may: Signal<bool>, what: Open| {
        let label = format!("{words}: {}", name.get_untracked());
        let turn = move |_| {
            open.update(|open| *open = if *open == what { Open::Nothing } else { what });
        };
        view! {
            <button
                type="button"
                class="button"
                aria-label=label
                aria-expanded=move || (open.get() == what).to_string()
                disabled=move || !may.get()
                on:click=turn
            >
                {words}
            </button>
        }
    };
    let may_heat = is(|tile| tile.may_heat);
    let may_note = is(|tile| tile.may_note);
    let has_welds = is(|tile| tile.has_welds);
    let is_paused = is(|tile| tile.is_paused);
    let always = Signal::stored(true);
    let weld = move || {
        has_welds
            .get()
            .then(|| button("Weld heat", may_heat, || What::Heat { weld: true }))
    };
    let pause = move || {
        if is_paused.get() {
            button("Go on", always, || What::Resume)
        } else {
            opens("Pause", is(|tile| tile.may_pause), Open::Pause).into_any()
        }
    };
    let undo = PushButton {
        label: Some(format!("Undo: {}", name.get_untracked())),
        enabled: is(|tile| tile.last_tap.is_some()),
        ..PushButton::plain("Undo", move || {
            let last = own.with_untracked(|tile| tile.as_ref()?.last_tap);
            if let Some(index) = last {
                take_back(keeper, id, index);
            }
        })
    };
    let sheet = move || own.with(|tile| tile.as_ref().map(|tile| paths::marking(tile.piece, id)));
    view! {
        <li
            class="board-tile"
            data-state=move || state.get()
            data-over=move || own.with(|tile| tile.as_ref().is_some_and(|tile| tile.is_over)).then_some("")
            data-marking=id.to_string()
        >
            <h2 dir="auto">{move || name.get()}</h2>
            <p class="board-state">{move || state.get()}</p>
            <p class="board-clock"><b>{move || clock.get()}</b> " " <span>{move || of.get()}</span></p>
            <p class="board-heats">"Heats " <b>{move || heats.get()}</b></p>
            <p class="board-last" role="status">{move || last.get()}</p>
            <div class="board-buttons">
                {button("Heat", may_heat, || What::Heat { weld: false })}
                {weld}
                {opens("Fault", may_note, Open::Faults)}
                {button("Called", may_note, || What::Called)}
                {button("Finished", may_note, || What::Finished)}
                {opens("Stop", may_note, Open::Stop)}
                {undo.view()}
                {button("Not watched", may_note, || What::NotWatched)}
                {pause}
                {opens("Extra time", always, Open::Extra)}
                <a class="button" href=sheet aria-label=move || format!("Mark sheet: {}", name.get())>"Mark sheet"</a>
            </div>
            {move || panel(keeper, id, own, open)}
        </li>
    }
    .into_any()
}
