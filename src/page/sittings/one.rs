use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::widgets::{
    HandingButton, HeldNotice, SavePaper, SaveTable, feedback, held_shown, piece_row,
};
use crate::page::{dom, paths};
use crate::present::paper_files::sitting_wanted;
use crate::present::{self, HELD_SITTING, SittingPiece, sitting_page, ticket_links};
use crate::records::SittingId;

/// One sitting with its pieces.
#[component]
pub(crate) fn SittingPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<SittingId>("sitting");
    let (shows, turn) = held_shown(id);
    let shown = Memo::new(move |_| {
        let id = id.get()?;
        let shows = shows.get();
        keeper.look(|ledger, rubrics| sitting_page(ledger, rubrics, id, shows))
    });
    let who = Memo::new(move |_| shown.with(Option::is_some).then(|| id.get()).flatten());
    move || match who.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(_) => view! { <Known sitting=who shown shows turn /> }.into_any(),
    }
}

#[component]
fn Known(
    sitting: Memo<Option<SittingId>>,
    shown: Memo<Option<present::SittingPage>>,
    shows: Signal<bool>,
    turn: Callback<()>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let part = move |see: fn(&present::SittingPage) -> String| {
        Memo::new(move |_| shown.with(|page| page.as_ref().map(see).unwrap_or_default()))
    };
    let title = part(|page| page.row.title.clone());
    let about = part(|page| format!("{}, {}", page.row.about, page.row.now));
    let handing = Memo::new(move |_| shown.with(|page| page.as_ref()?.row.handing));
    let is_held =
        Memo::new(move |_| shown.with(|page| page.as_ref().is_some_and(|page| page.is_held)));
    let wanted = Callback::new(move |()| {
        let id = sitting.get_untracked()?;
        keeper.look_now(|ledger, _| sitting_wanted(ledger, id))
    });
    let is_marked = Memo::new(move |_| {
        let id = sitting.get();
        id.is_some_and(|id| keeper.with_ledger(|ledger| sitting_wanted(ledger, id).is_some()))
    });
    let has_tickets = Memo::new(move |_| {
        let id = sitting.get();
        id.is_some_and(|id| keeper.with_ledger(|ledger| !ticket_links(ledger, id).is_empty()))
    });
    let pieces = move || {
        shown.with(|page| {
            let pieces = page.iter().flat_map(|page| page.pieces.iter().cloned());
            pieces.map(piece).collect_view()
        })
    };
    Effect::new(move |_| title.with(|title| dom::set_title(title)));
    view! {
        <div class="page-head">
            <div>
                <h1>{move || title.get()}</h1>
                <p>{move || about.get()}</p>
            </div>
            <div class="actions">
                {move || handing.get().map(|handing| view! { <HandingButton handing /> })}
                {move || is_marked.get().then(|| view! { <SavePaper wanted several=true /> <SaveTable wanted /> })}
                {move || sitting.get().map(|id| view! {
                    <a class="button" href=paths::board(id)>"Board"</a>
                    <a class="button" href=paths::issue_for(id)>"Issue tickets"</a>
                    {move || has_tickets.get().then(|| view! { <a class="button" href=paths::tickets(id)>"Tickets to print"</a> })}
                })}
                <a class="button" data-kind="quiet" href=paths::SITTINGS>"All sittings"</a>
            </div>
        </div>
        <Show when=move || is_held.get()>
            <HeldNotice words=HELD_SITTING shown=shows turn />
        </Show>
        <section class="part" aria-labelledby="pieces" class:screen-only=move || is_held.get() && shows.get()>
            <h2 id="pieces">"Pieces"</h2>
            <ul class="pieces">{pieces}</ul>
        </section>
    }
}

fn piece(shown: SittingPiece) -> AnyView {
    let foot = feedback(shown.row.piece, shown.feedback, &shown.row.title);
    piece_row(shown.row, foot)
}
