use leptos::prelude::*;

use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{dom, paths};
use crate::present::{TicketLink, ticket_document, ticket_links};
use crate::records::SittingId;

/// Key of the notice that a ticket was not linked.
const NOT_LINKED: &str = "not-linked";

/// The tickets of a sitting to print, and whose they are.
#[component]
pub(crate) fn TicketsPage() -> impl IntoView {
    dom::set_title("Tickets");
    let keeper = Keeper::here();
    let id = paths::id_in_path::<SittingId>("sitting");
    let origin = window().location().origin().unwrap_or_default();
    let document = Memo::new(move |_| {
        let id = id.get()?;
        keeper.with_ledger(|ledger| ticket_document(ledger, id, &origin))
    });
    let links = Memo::new(move |_| {
        let id = id.get();
        id.map(|id| keeper.with_ledger(|ledger| ticket_links(ledger, id)))
    });
    move || {
        match (id.get(), document.get()) {
        (Some(id), Some(document)) => view! {
            <div class="actions screen-only">
                <PrintButton />
                <SaveDocument document=document.clone() what="tickets" />
                <a class="button" href=paths::sitting(id)>"The sitting"</a>
            </div>
            <details class="part screen-only">
                <summary>"Whose tickets they are (shows names)"</summary>
                <div class="stack narrow">
                    {move || links.get().unwrap_or_default().into_iter().map(|link| linked(keeper, link)).collect_view()}
                </div>
            </details>
            <Paper document />
        }
        .into_any(),
        _ => view! { <LostPage /> }.into_any(),
    }
    }
}

fn linked(keeper: Keeper, link: TicketLink) -> AnyView {
    let piece = link.piece;
    let id = format!("link-{piece}");
    let chosen = move |event: leptos::ev::Event| {
        let learner = event_target_value(&event).parse().ok();
        keeper.perform_or_say(NOT_LINKED, Command::LinkTicket { piece, learner });
    };
    let options = link.options.into_iter().map(|(value, name)| {
        let selected = value == link.chosen;
        view! { <option value=value selected=selected>{name}</option> }
    });
    view! {
        <div class="field">
            <label for=id.clone()>{link.title}</label>
            <select class="input" id=id on:change=chosen>{options.collect_view()}</select>
        </div>
    }
    .into_any()
}
