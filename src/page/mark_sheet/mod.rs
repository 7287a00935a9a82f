//! The mark sheet: rows to fill, a number pad, and what it comes to at its foot.

mod dock;
mod entry;
mod focus;
mod overall;
mod pad;
mod panel;
mod rare;
mod readings;
mod row;
mod shoe;
mod state;
mod ticks;
mod tools;

use leptos::ev;
use leptos::prelude::*;

use std::sync::Arc;

use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::seal::SealDialog;
use super::widgets::{Caution, when};
use super::{dom, paths};
use crate::present::{maker_name, piece_words, set_apart};
use crate::records::{Ledger, Marking, MarkingId, PieceId};
use crate::rubric::Rubric;
use dock::{dock, sum_words};
use overall::overall;
use row::part_rows;
use state::SheetState;
use tools::plan;

/// Which marking is open. While it is the same one the sheet stays as it is, with its
/// steps, open panels and focus, whatever else changes in the ledger.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Open {
    marking: MarkingId,
    piece: PieceId,
    sealed: bool,
}

/// What the page says over the rows.
#[derive(Debug, Clone, Default, PartialEq)]
struct Head {
    title: String,
    about: String,
}

/// The mark sheet of the piece in the address.
#[component]
pub(super) fn MarkSheetPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let open = Memo::new(move |_| {
        let wanted = piece.get()?;
        keeper.with_ledger(|ledger| {
            let piece = ledger.piece(wanted)?;
            let marking = ledger.markings_of(piece.id).next()?;
            Some(Open {
                marking: marking.id,
                piece: piece.id,
                sealed: marking.seal.is_some(),
            })
        })
    });
    move || match open.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(open) => view! { <Opened open /> }.into_any(),
    }
}

fn head_of(ledger: &Ledger, open: Open) -> Option<Head> {
    let piece = ledger.piece(open.piece)?;
    let marking = ledger.marking(open.marking)?;
    let examiner = ledger.examiner(marking.examiner);
    let examiner = examiner.map(|examiner| format!(" Examiner {}.", set_apart(&examiner.name)));
    Some(Head {
        title: maker_name(ledger, piece),
        about: format!(
            "{}.{}",
            piece_words(ledger, piece),
            examiner.unwrap_or_default()
        ),
    })
}

#[component]
fn Opened(open: Open) -> impl IntoView {
    let keeper = Keeper::here();
    let head = Memo::new(move |_| {
        let head = keeper.with_ledger(|ledger| head_of(ledger, open));
        head.unwrap_or_default()
    });
    Effect::new(move |_| head.with(|head| dom::set_title(&head.title)));
    let title = view! {
        <div class="page-head">
            <div>
                <h1>{move || head.with(|head| head.title.clone())}</h1>
                <p>{move || head.with(|head| head.about.clone())}</p>
            </div>
        </div>
    };
    if open.sealed {
        let href = paths::sheet(open.piece);
        return view! {
            {title}
            <div class="notice">
                <p><b>"This marking is sealed."</b> " It cannot be changed any more."</p>
                <div class="actions">
                    <a class="button" data-kind="primary" href=href>"See the scored sheet"</a>
                </div>
            </div>
        }
        .into_any();
    }
    let Some(sheet) = SheetState::open(keeper, open.marking) else {
        return view! {
            {title}
            {unreadable_rubric()}
        }
        .into_any();
    };
    keeper.remember_open(open.marking);
    provide_context(sheet);
    let sealing = RwSignal::new(false);
    view! {
        {title}
        {when(Signal::derive(move || sheet.is_fresh()), || view! { <Caution /> }.into_any())}
        <div class="sheet">
            {plan()}
            <div class="rows" on:focusin=move |event: ev::FocusEvent| sheet.focus_went(&event)>
                {move || sheet.parts().into_iter().map(part_rows).collect::<Vec<AnyView>>()}
                {overall()}
            </div>
            {dock(sealing)}
        </div>
        <SealDialog marking=open.marking open=sealing />
    }
    .into_any()
}

/// The sheet of a rubric in work, to try it out on: no ledger keeps what is entered.
#[component]
pub(super) fn TriedSheet(rubric: Arc<Rubric>, scratch: RwSignal<Marking>) -> impl IntoView {
    let sheet = SheetState::tried(Keeper::here(), rubric, scratch);
    sheet.pad_open.set(false);
    provide_context(sheet);
    view! {
        <div class="sheet" data-kind="tried">
            {plan()}
            <div class="rows" on:focusin=move |event: ev::FocusEvent| sheet.focus_went(&event)>
                {move || sheet.parts().into_iter().map(part_rows).collect::<Vec<AnyView>>()}
            </div>
            {sum_words()}
        </div>
    }
}
