use leptos::prelude::*;

use super::no_sheet;
use crate::page::keeper::Keeper;
use crate::page::paper::{Paper, PrintButton};
use crate::page::{dom, paths};
use crate::present::{NoSheet, side_page};
use crate::records::PieceId;

/// The maker's own marking beside the one that counts.
#[component]
pub(crate) fn SidePage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let page = Memo::new(move |_| {
        let piece = piece.get().ok_or(NoSheet::Lost)?;
        keeper.look(|ledger, rubrics| side_page(ledger, rubrics, piece))
    });
    move || match page.get() {
        Ok(shown) => {
            // A browser that prints to a file names it so.
            document().set_title(&shown.file_base);
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
        Err(NoSheet::Alone) => {
            dom::set_title("Side by side");
            let sheet = piece.get_untracked().map(paths::sheet);
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
        Err(why) => no_sheet(why, piece.get_untracked()),
    }
}
