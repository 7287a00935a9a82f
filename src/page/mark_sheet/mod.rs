use leptos::prelude::*;

use super::lost::LostPage;
use super::widgets::Caution;
use super::{Keeper, dom, paths};
use crate::present::maker_name;
use crate::records::PieceId;

/// The mark sheet of a piece.
#[component]
pub(super) fn MarkSheetPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    dom::set_title("Mark sheet");
    let found = Memo::new(move |_| {
        keeper.with_ledger(|ledger| {
            let piece = ledger.piece(piece.get()?)?;
            let draft = ledger.markings_of(piece.id).next()?.id;
            Some((draft, maker_name(ledger, piece)))
        })
    });
    move || match found.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((draft, name)) => {
            keeper.remember_open(draft);
            view! {
                <div class="page-head"><div><h1>{name}</h1></div></div>
                <Caution />
            }
            .into_any()
        }
    }
}
