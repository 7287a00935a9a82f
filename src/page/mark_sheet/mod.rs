//! The mark sheet: rows to fill, a number pad, and what it comes to at its foot.

mod calls;
mod dock;
mod entry;
mod focus;
mod impression;
mod on_paper;
mod overall;
mod pad;
mod panel;
mod photos;
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

use super::agree::AgreePage;
use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::seal::SealDialog;
use super::ways::WhoMarks;
use super::widgets::{Caution, when};
use super::{dom, paths};
use crate::present::{PieceWay, ended_sentence, maker_name, marker_words, piece_way, piece_words};
use crate::records::{Ledger, Marking, MarkingId, PieceId};
use crate::rubric::Rubric;
use calls::Calls;
use dock::{dock, sum_words};
use impression::impression;
pub(super) use on_paper::OnPaperPage;
use overall::overall;
use photos::photos;
use row::part_rows;
use state::SheetState;
use tools::{Ways, plan};

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
    let wanted = paths::marking_in_path();
    let way = Memo::new(move |before: Option<&PieceWay>| {
        let (Some(piece), Ok(wanted)) = (piece.get(), wanted.get()) else {
            return PieceWay::Lost;
        };
        let before = match before {
            Some(PieceWay::Open { marking, .. }) => Some(*marking),
            _ => None,
        };
        keeper.with_ledger(|ledger| piece_way(ledger, piece, wanted, before))
    });
    move || match way.get() {
        PieceWay::Lost => view! { <LostPage /> }.into_any(),
        PieceWay::Choose(piece) => view! { <WhoMarks piece /> }.into_any(),
        PieceWay::Agree(_) => view! { <AgreePage /> }.into_any(),
        PieceWay::Open {
            piece,
            marking,
            sealed,
        } => {
            let open = Open {
                marking,
                piece,
                sealed,
            };
            view! { <Opened open /> }.into_any()
        }
    }
}

fn head_of(ledger: &Ledger, open: Open) -> Option<Head> {
    let piece = ledger.piece(open.piece)?;
    Some(Head {
        title: maker_name(ledger, piece),
        about: format!(
            "{}.{}{}",
            piece_words(ledger, piece),
            marker_words(ledger, open.marking),
            ended_sentence(ledger, piece)
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
        let stands = keeper
            .ledger_now()
            .standing(open.piece)
            .counts()
            .map(|one| one.id);
        let href = match stands {
            Some(marking) if marking != open.marking => paths::sheet_of(open.piece, open.marking),
            _ => paths::sheet(open.piece),
        };
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
    let calls = Calls::follow(keeper, open.marking, sheet);
    provide_context(calls);
    let sealing = RwSignal::new(false);
    view! {
        {title}
        {when(Signal::derive(move || sheet.is_fresh()), || view! { <Caution /> }.into_any())}
        {impression()}
        <div class="sheet">
            {plan(Some(Ways { on_paper: paths::on_paper(open.piece, open.marking), photo: paths::photo(open.piece, open.marking), heats: paths::heats(open.piece, open.marking) }))}
            <div class="rows" on:focusin=move |event: ev::FocusEvent| sheet.focus_went(&event)>
                {calls.decisive()}
                {move || sheet.parts().into_iter().map(part_rows).collect::<Vec<AnyView>>()}
                {overall()}
                {photos()}
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
        {impression()}
        <div class="sheet" data-kind="tried">
            {plan(None)}
            <div class="rows" on:focusin=move |event: ev::FocusEvent| sheet.focus_went(&event)>
                {move || sheet.parts().into_iter().map(part_rows).collect::<Vec<AnyView>>()}
            </div>
            {sum_words()}
        </div>
    }
}
