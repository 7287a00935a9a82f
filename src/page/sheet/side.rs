use leptos::prelude::*;

use super::{no_sheet, of_piece};
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{HeldNotice, SaveDocument, held_shown, whom};
use crate::page::{dom, paths};
use crate::present::{HELD_SIDE, NoSheet, SidePage as Shown, side_page};
use crate::records::PieceId;

/// The maker's own marking beside the one that counts.
#[component]
pub(crate) fn SidePage() -> impl IntoView {
    let (shows, turn) = held_shown(paths::id_in_path::<PieceId>("piece"));
    let notice = move || view! { <HeldNotice words=HELD_SIDE shown=shows turn /> }.into_any();
    of_piece(
        move |ledger, rubrics, piece, _| side_page(ledger, rubrics, piece, whom(shows)),
        |shown| &shown.file_base,
        move |shown| {
            if shown.is_held {
                view! {
                    {notice()}
                    <div class="screen-only">{beside(shown)}</div>
                }
                .into_any()
            } else {
                beside(shown)
            }
        },
        move |why, piece| match why {
            NoSheet::Alone => alone(piece),
            NoSheet::Held { own } => {
                dom::set_title("Side by side");
                let own = piece.map(|piece| paths::sheet_of(piece, own));
                view! {
                    <div class="page-head">
                        <div>
                            <h1>"Side by side"</h1>
                        </div>
                        <div class="actions">
                            <a class="button" href=own>"The maker’s own sheet"</a>
                        </div>
                    </div>
                    {notice()}
                }
                .into_any()
            }
            why => no_sheet(why, piece),
        },
    )
}

fn beside(shown: Shown) -> AnyView {
    let [own, counting] =
        [shown.own, shown.counting].map(|marking| paths::sheet_of(shown.piece, marking));
    view! {
        <div class="actions screen-only">
            {(!shown.is_held).then(|| view! {
                <PrintButton />
                <SaveDocument document=shown.document.clone() what="side-by-side" />
            })}
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
