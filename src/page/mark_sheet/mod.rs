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
mod state;
mod ticks;
mod tools;

use leptos::ev;
use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::seal::SealDialog;
use super::widgets::{Caution, when};
use super::{dom, paths};
use crate::present::{maker_name, piece_words};
use crate::records::{MarkingId, PieceId};
use dock::dock;
use overall::overall;
use row::part_rows;
use state::SheetState;
use tools::plan;

/// What the page says over the rows.
#[derive(Debug, Clone, PartialEq)]
struct Head {
    marking: MarkingId,
    piece: PieceId,
    title: String,
    about: String,
    sealed: bool,
}

/// The mark sheet of the piece in the address.
#[component]
pub(super) fn MarkSheetPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let head = Memo::new(move |_| {
        let wanted = piece.get()?;
        keeper.with_ledger(|ledger| {
            let piece = ledger.piece(wanted)?;
            let marking = ledger.markings_of(piece.id).next()?;
            let examiner = ledger
                .examiner(marking.examiner)
                .map(|examiner| &examiner.name);
            let examiner = examiner.map(|name| format!("Examiner {name}."));
            let parts = [Some(format!("{}.", piece_words(ledger, piece))), examiner];
            Some(Head {
                marking: marking.id,
                piece: piece.id,
                title: maker_name(ledger, piece),
                about: parts.into_iter().flatten().collect::<Vec<_>>().join(" "),
                sealed: marking.seal.is_some(),
            })
        })
    });
    move || match head.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(head) => {
            dom::set_title(&head.title);
            view! { <Opened head=head /> }.into_any()
        }
    }
}

#[component]
fn Opened(head: Head) -> impl IntoView {
    let keeper = Keeper::here();
    let title = view! {
        <div class="page-head">
            <div>
                <h1>{head.title.clone()}</h1>
                <p>{head.about.clone()}</p>
            </div>
        </div>
    };
    if head.sealed {
        let href = paths::sheet(head.piece);
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
    let Some(sheet) = SheetState::open(keeper, head.marking) else {
        return view! {
            {title}
            {unreadable_rubric()}
        }
        .into_any();
    };
    keeper.remember_open(head.marking);
    provide_context(sheet);
    let sealing = RwSignal::new(false);
    view! {
        {title}
        {when(Signal::derive(move || sheet.is_fresh()), || view! { <Caution /> }.into_any())}
        <div class="sheet">
            {plan()}
            <div class="rows" on:focusin=move |event: ev::FocusEvent| sheet.let_go(&event)>
                {move || sheet.parts().into_iter().map(part_rows).collect::<Vec<AnyView>>()}
                {overall()}
            </div>
            {dock(sealing)}
        </div>
        <SealDialog marking=head.marking open=sealing />
    }
    .into_any()
}
