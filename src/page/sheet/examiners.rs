use leptos::prelude::*;

use super::no_sheet;
use crate::page::keeper::Keeper;
use crate::page::paper::{Paper, PrintButton};
use crate::page::{dom, paths};
use crate::present::{NoSheet, examiners_page};
use crate::records::PieceId;

/// What examiners have sealed of the piece in the address, side by side.
#[component]
pub(crate) fn ExaminersPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let page = Memo::new(move |_| {
        let piece = piece.get().ok_or(NoSheet::Lost)?;
        keeper.look(|ledger, rubrics| examiners_page(ledger, rubrics, piece))
    });
    move || match page.get() {
        Ok(shown) => {
            // A browser that prints to a file names it so.
            document().set_title(&shown.file_base);
            let sheets = shown.sheets.into_iter().map(|(marking, name)| {
                let href = paths::sheet_of(shown.piece, marking);
                view! { <a class="button" href=href>"Sheet of " <bdi>{name}</bdi></a> }
            });
            view! {
                <div class="actions screen-only">
                    <PrintButton />
                    <a class="button" href=paths::agree(shown.piece)>{shown.agree}</a>
                    {sheets.collect_view()}
                </div>
                <Paper document=shown.document />
            }
            .into_any()
        }
        Err(NoSheet::Alone) => alone(piece.get_untracked(), "Examiners side by side"),
        Err(why) => no_sheet(why, piece.get_untracked()),
    }
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
