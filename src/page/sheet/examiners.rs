use leptos::prelude::*;

use super::{no_sheet, of_piece};
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{dom, paths};
use crate::present::{ExaminersPage as Shown, NoSheet, examiners_page};
use crate::records::PieceId;

/// What examiners have sealed of the piece in the address, side by side.
#[component]
pub(crate) fn ExaminersPage() -> impl IntoView {
    of_piece(
        |ledger, rubrics, piece, _| examiners_page(ledger, rubrics, piece),
        |shown| &shown.file_base,
        side_by_side,
        |why, piece| match why {
            NoSheet::Alone => alone(piece, "Examiners side by side"),
            why => no_sheet(why, piece),
        },
    )
}

fn side_by_side(shown: Shown) -> AnyView {
    let sheets = shown.sheets.into_iter().map(|(marking, name)| {
        let href = paths::sheet_of(shown.piece, marking);
        view! { <a class="button" href=href>"Sheet of " <bdi>{name}</bdi></a> }
    });
    view! {
        <div class="actions screen-only">
            <PrintButton />
            <SaveDocument document=shown.document.clone() what="examiners" />
            <a class="button" href=paths::agree(shown.piece)>{shown.agree}</a>
            {sheets.collect_view()}
        </div>
        <Paper document=shown.document />
    }
    .into_any()
}

/// Stands where fewer than two examiners have sealed a marking.
pub(crate) fn alone(piece: Option<PieceId>, title: &'static str) -> AnyView {
    dom::set_title(title);
    let sheet = piece.map(paths::sheet);
    let again = piece.map(|piece| paths::again_as(piece, "second"));
    view! {
        <div class="page-head">
            <div>
                <h1>{title}</h1>
                <p>"Fewer than two examiners have sealed a marking of this piece."</p>
            </div>
            <div class="actions">
                <a class="button" href=sheet>"See the scored sheet"</a>
                <a class="button" href=again>"Mark as second examiner"</a>
            </div>
        </div>
    }
    .into_any()
}
