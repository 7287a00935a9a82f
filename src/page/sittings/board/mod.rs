//! The sitting board: a tile for each piece that one examiner watches.

mod panel;
mod tile;

use leptos::prelude::*;

use crate::command::{Command, Edit};
use crate::marking::heat_log::What;
use crate::page::awake::keep_awake;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::tapping::{tap, ticking};
use crate::page::{dom, paths};
use crate::present::board::{Board, board};
use crate::present::heat_log::ANVIL_CAUTION;
use crate::records::{MarkingId, SittingId};
use tile::tile;

/// Key of the notice that a tap was refused.
const NOT_TAPPED: &str = "not-tapped";

/// Watches a sitting.
#[component]
pub(crate) fn BoardPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<SittingId>("sitting");
    let now = ticking();
    let shown = Memo::new(move |_| {
        let (id, now) = (id.get()?, now.get());
        keeper.look(|ledger, rubrics| board(ledger, rubrics, id, now))
    });
    let is_here = Memo::new(move |_| shown.with(Option::is_some));
    move || match (is_here.get(), id.get()) {
        (true, Some(id)) => view! { <Known id shown /> }.into_any(),
        _ => view! { <LostPage /> }.into_any(),
    }
}

#[component]
fn Known(id: SittingId, shown: Memo<Option<Board>>) -> impl IntoView {
    let keeper = Keeper::here();
    let awake = keep_awake();
    let title = Memo::new(move |_| {
        shown.with(|board| {
            board
                .as_ref()
                .map(|board| board.title.clone())
                .unwrap_or_default()
        })
    });
    Effect::new(move |_| title.with(|title| dom::set_title(&format!("Board: {title}"))));
    let ids = Memo::new(move |_| {
        shown.with(|board| {
            let tiles = board.iter().flat_map(|board| &board.tiles);
            tiles.map(|tile| tile.marking).collect::<Vec<_>>()
        })
    });
    let waiting =
        Memo::new(move |_| shown.with(|board| board.iter().flat_map(Board::not_started).count()));
    let started = RwSignal::new(Vec::<(MarkingId, usize)>::new());
    let start = move |_| started.set(start_all(keeper, shown));
    let undo = move |_| {
        for (marking, index) in started.get_untracked() {
            take_back(keeper, marking, index);
        }
        started.set(Vec::new());
    };
    view! {
        <div class="page-head">
            <div>
                <h1>"Board"</h1>
                <p>{move || title.get()}</p>
            </div>
            <div class="actions board-actions">
                <button type="button" class="button" data-kind="primary" id="start-all" disabled=move || waiting.get() == 0 on:click=start>
                    {move || format!("Start all ({})", waiting.get())}
                </button>
                <Show when=move || started.with(|started| !started.is_empty())>
                    <button type="button" class="button" id="undo-start" on:click=undo>"Undo the start"</button>
                </Show>
                <a class="button" href=paths::sitting(id)>"The sitting"</a>
            </div>
        </div>
        <div class="notice" data-kind="warn"><p>{ANVIL_CAUTION}</p></div>
        {move || (awake.get() == Some(false)).then(|| view! {
            <p class="quiet" role="status">"This browser does not keep the screen awake. Set the device so that its screen stays on."</p>
        })}
        {move || ids.with(Vec::is_empty).then(|| view! {
            <p>"No piece of this sitting has an open marking by an examiner. " <a href=paths::issue_for(id)>"Issue tickets"</a></p>
        })}
        <ul class="board">
            <For each=move || ids.get() key=|id| *id let(id)>
                {tile(id, shown)}
            </For>
        </ul>
    }
}

/// Starts every clock that has not started, at one moment; gives what can be taken back.
fn start_all(keeper: Keeper, shown: Memo<Option<Board>>) -> Vec<(MarkingId, usize)> {
    let start = tap(What::Start);
    let waiting = shown.with_untracked(|board| {
        let tiles = board.iter().flat_map(|board| &board.tiles);
        let waiting = tiles.filter(|tile| tile.may_start);
        let places = waiting.map(|tile| (tile.marking, tile.last_tap.map_or(0, |last| last + 1)));
        places.collect::<Vec<_>>()
    });
    let mut started = waiting;
    started.retain(|(marking, _)| {
        let tap = start.clone();
        keeper.perform_or_say(NOT_TAPPED, Command::edit(*marking, Edit::Tap { tap }))
    });
    started
}

/// Taps on one tile.
fn tap_on(keeper: Keeper, marking: MarkingId, what: What) {
    let tap = tap(what);
    keeper.perform_or_say(NOT_TAPPED, Command::edit(marking, Edit::Tap { tap }));
}

/// Takes the last tap of a tile back.
fn take_back(keeper: Keeper, marking: MarkingId, index: usize) {
    keeper.perform_or_say(
        NOT_TAPPED,
        Command::edit(marking, Edit::TakeBackTap { index }),
    );
}
