//! The heat log of one marking, tapped while its piece is made.

mod after;
mod buttons;
mod cut;
mod others;
mod result;
mod state;
mod take_over;

use leptos::prelude::*;

use super::awake::keep_awake;
use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::tapping::ticking;
use super::{dom, paths};
use crate::present::heat_log::{ANVIL_CAUTION, heat_clock};
use crate::present::{PieceWay, maker_name, piece_way, piece_words};
use crate::records::{MarkingId, PieceId};
use state::Heats;

/// The heat log of the marking in the address.
#[component]
pub(super) fn HeatsPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let wanted = paths::marking_in_path();
    let open = Memo::new(move |_| {
        let (piece, wanted) = (piece.get()?, wanted.get().ok()?);
        match keeper.with_ledger(|ledger| piece_way(ledger, piece, wanted, None)) {
            PieceWay::Open {
                marking, sealed, ..
            } => Some((piece, marking, sealed)),
            _ => None,
        }
    });
    move || match open.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((piece, marking, sealed)) => opened(keeper, piece, marking, sealed),
    }
}

fn opened(keeper: Keeper, piece: PieceId, marking: MarkingId, is_sealed: bool) -> AnyView {
    let (title, about) = keeper.look_now(|ledger, _| {
        let piece = ledger.piece(piece);
        piece.map_or_else(Default::default, |piece| {
            (maker_name(ledger, piece), piece_words(ledger, piece))
        })
    });
    dom::set_title(&format!("Heat log: {title}"));
    let Some(heats) = Heats::open(keeper, marking) else {
        return unreadable_rubric().into_any();
    };
    let back = paths::marking(piece, marking);
    let tapped = (!is_sealed).then(|| tapped(heats));
    view! {
        <div class="page-head">
            <div>
                <h1>"Heat log: " {title}</h1>
                <p>{about}</p>
            </div>
            <div class="actions">
                <a class="button" href=back>"The mark sheet"</a>
            </div>
        </div>
        {take_over::take_over(heats)}
        {tapped}
        {result::result(heats)}
        {(!is_sealed).then(|| after::after(heats))}
    }
    .into_any()
}

/// All that is tapped.
fn tapped(heats: Heats) -> AnyView {
    let now = ticking();
    let clock = Memo::new(move |_| heats.see(|rubric, facts| heat_clock(rubric, facts, now.get())));
    let is_running = Memo::new(move |_| heats.buttons().is_running);
    let is_awake = keep_awake();
    let part = move |see: fn(&crate::present::heat_log::HeatClock) -> String| {
        Memo::new(move |_| clock.with(see))
    };
    let (time, left) = (
        part(|clock| clock.time.clone()),
        part(|clock| clock.left.clone()),
    );
    let (state, since) = (
        part(|clock| clock.state.clone()),
        part(|clock| clock.since.clone()),
    );
    let kind = Memo::new(move |_| clock.with(|clock| clock.kind));
    let is_over = Memo::new(move |_| clock.with(|clock| clock.is_over));
    view! {
        <div class="notice" data-kind="warn"><p>{ANVIL_CAUTION}</p></div>
        <section class="heat-log" aria-label="Heat log">
            <div class="heat-clock" data-state=kind data-over=move || is_over.get().then_some("")>
                <p class="heat-time" role="timer" aria-label="Time that counts">{time}</p>
                <p class="heat-left">{left}</p>
                <p class="heat-state">
                    <b role="status">{state}</b> " " <span>{since}</span>
                </p>
            </div>
            {buttons::big(heats)}
            {buttons::undo(heats)}
            <Show when=move || is_running.get() && is_awake.get() == Some(false)>
                <p class="hint">"This browser lets the screen go dark by itself; set it to stay on. No tap is lost."</p>
            </Show>
        </section>
        {buttons::steps(heats)}
        {buttons::faults(heats)}
        {cut::cut(heats)}
        {others::others(heats)}
    }
    .into_any()
}
