use leptos::prelude::*;

use super::state::Heats;
use crate::marking::heat_log::What;
use crate::page::widgets::when;
use crate::present::heat_log::{BigTap, FaultTile, StepTile};

/// The very large button, and what may be tapped in its place. Each stays the same button
/// whatever it says, so that the focus stays on it.
pub(super) fn big(heats: Heats) -> AnyView {
    let all = Memo::new(move |_| heats.buttons().big);
    let button = move |place: usize, class: &'static str| {
        let of = move || all.with(|all| all.get(place).cloned());
        let is_there = Signal::derive(move || of().is_some());
        let label = move || of().map_or("", |big: BigTap| big.label);
        let kind = move || of().map_or("", |big: BigTap| big.kind);
        when(is_there, move || {
            let tapped = move |_| {
                let big = all.with_untracked(|all| all.get(place).cloned());
                if let Some(big) = big {
                    heats.tap(big.what);
                }
            };
            view! {
                <button type="button" class=class data-tap=kind on:click=tapped>{label}</button>
            }
            .into_any()
        })
    };
    view! { <div class="heat-big">{button(0, "heat-next")} {button(1, "heat-other")}</div> }
        .into_any()
}

/// The last tap, and the way to take it back.
pub(super) fn undo(heats: Heats) -> AnyView {
    let last = Memo::new(move |_| heats.buttons().last.unwrap_or_default());
    let has = Memo::new(move |_| heats.buttons().count > 0);
    view! {
        <div class="heat-last">
            <p>{move || if has.get() { last.get() } else { "Nothing tapped yet.".to_owned() }}</p>
            <button type="button" class="button" disabled=move || !has.get() on:click=move |_| heats.undo()>
                "Take back the last tap"
            </button>
        </div>
    }
    .into_any()
}

/// The making steps: the one at hand is pressed.
pub(super) fn steps(heats: Heats) -> AnyView {
    let tiles = Memo::new(move |_| heats.buttons().steps);
    let ids: Vec<String> =
        tiles.with_untracked(|tiles| tiles.iter().map(|tile| tile.step.clone()).collect());
    let has_any = !ids.is_empty();
    let tile = move |place: usize, id: String| {
        let of = move || tiles.with(|tiles| tiles.get(place).cloned());
        let part = move |see: fn(StepTile) -> String| of().map(see).unwrap_or_default();
        let is_now = move || of().is_some_and(|tile| tile.is_now).to_string();
        let tapped = move |_| {
            heats.tap(What::Step { step: id.clone() });
        };
        view! {
            <button type="button" class="heat-tile" aria-pressed=is_now on:click=tapped>
                <b>{move || part(|tile| tile.name)}</b> <span>{move || part(|tile| tile.heats)}</span>
            </button>
        }
    };
    let is_running = Memo::new(move |_| heats.buttons().is_running);
    let shown = Signal::derive(move || has_any && is_running.get());
    let ids = StoredValue::new(ids);
    when(shown, move || {
        let tiles = ids.get_value().into_iter().enumerate();
        view! {
            <section class="part stack" aria-labelledby="heat-steps">
                <h2 id="heat-steps">"Step at hand"</h2>
                <div class="heat-tiles">
                    {tiles.map(|(place, id)| tile(place, id)).collect_view()}
                </div>
            </section>
        }
        .into_any()
    })
}

/// Faults to note in one tap.
pub(super) fn faults(heats: Heats) -> AnyView {
    let tiles = Memo::new(move |_| heats.buttons().faults);
    let is_running = Memo::new(move |_| heats.buttons().is_running);
    let count = tiles.with_untracked(Vec::len);
    let tile = move |place: usize| {
        let of = move || tiles.with(|tiles| tiles.get(place).cloned());
        let part = move |see: fn(FaultTile) -> String| of().map(see).unwrap_or_default();
        let tapped = move |_| {
            let tile = tiles.with_untracked(|tiles| tiles.get(place).cloned());
            if let Some(FaultTile { entry, fault, .. }) = tile {
                heats.tap(What::Fault { entry, fault });
            }
        };
        view! {
            <button type="button" class="heat-tile" on:click=tapped>
                <b>{move || part(|tile| tile.name)}</b> <span>{move || part(|tile| tile.says)}</span>
            </button>
        }
    };
    let shown = Signal::derive(move || count > 0 && is_running.get());
    when(shown, move || {
        view! {
            <section class="part stack" aria-labelledby="heat-faults">
                <h2 id="heat-faults">"Fault seen"</h2>
                <div class="heat-tiles">{(0..count).map(tile).collect_view()}</div>
            </section>
        }
        .into_any()
    })
}
