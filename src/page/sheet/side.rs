use leptos::prelude::*;

use super::{no_sheet, of_piece};
use crate::page::paper::{Paper, PrintButton};
use crate::page::{dom, paths};
use crate::present::{NoSheet, SidePage as Shown, side_page};
use crate::records::PieceId;

/// The maker's own marking beside the one that counts.
#[component]
pub(crate) fn SidePage() -> impl IntoView {
    of_piece(
        |ledger, rubrics, piece, _| side_page(ledger, rubrics, piece),
        |shown| &shown.file_base,
        beside,
        |why, piece| match why {
            NoSheet::Alone => alone(piece),
            why => no_sheet(why, piece),
        },
    )
}

fn beside(shown: Shown) -> AnyView {
    let [own, counting] =
        [shown.own, shown.counting].map(|marking| paths::sheet_of(shown.piece, marking));
    view! {
        <div class="actions screen-only">
            <PrintButton />
            <a class="button" href=counting>"The examiner’s sheet"</a>
            <a class="button" href=own>"The maker’s own sheet"</a>
        </div>
        <Paper document=shown.document />
    }
    .into_any()
}

/// Stands where only one of the two has sealed a marking.
fn alone(piece: Option<PieceId>) -> AnyView {
    dom::set_title("Side by side");
    let sheet = piece.map(paths::sheet);
    view! {
        <div class="page-head">
            <div>
                <h1>"Side by side"</h1>
                <p>"Only one of maker and examiner has sealed a marking of this piece."</p>
            </div>
            <div class="actions">
                <a class="button" href=sheet>"See the scored sheet"</a>
            </div>
        </div>
    }
    .into_any()
}
