use leptos::prelude::*;

use super::state::Heats;
use crate::command::Edit;
use crate::page::clock;
use crate::page::widgets::PushButton;
use crate::present::heat_log::{
    LogOffer, LogTaken, TAKING_OVER_DOES, log_offers, log_taken, take_over_log,
};

/// Another examiner's log to take over, or what was taken over.
pub(super) fn take_over(heats: Heats) -> AnyView {
    let offers = Memo::new(move |_| heats.look(log_offers));
    let taken =
        Memo::new(move |_| heats.look(|ledger, marking| log_taken(ledger, marking, clock::now())));
    (move || match (taken.get(), offers.get()) {
        (Some(taken), _) => was_taken(heats, taken),
        (None, offers) if !offers.is_empty() => offered(heats, offers),
        _ => ().into_any(),
    })
    .into_any()
}

fn offered(heats: Heats, offers: Vec<LogOffer>) -> AnyView {
    let offers = offers.into_iter().map(|offer| {
        let LogOffer {
            marking: from,
            words,
            says,
        } = offer;
        let button = PushButton::plain(words, move || {
            let edit = untrack(|| {
                heats.look(|ledger, into| take_over_log(ledger, into, from, clock::now()))
            });
            if let Some(edit) = edit {
                heats.edit(edit);
            }
        });
        view! {
            <div class="actions">{button.view()}</div>
            <p class="hint">{says}</p>
        }
    });
    view! {
        <section class="part stack" aria-labelledby="heat-take-over">
            <h2 id="heat-take-over">"Somebody tapped already"</h2>
            {offers.collect_view()}
            <p class="hint">{TAKING_OVER_DOES}</p>
        </section>
    }
    .into_any()
}

fn was_taken(heats: Heats, taken: LogTaken) -> AnyView {
    let back = taken.may_give_back.then(|| {
        let button = PushButton::plain("Take them out again", move || {
            heats.edit(Edit::GiveBackLog);
        });
        view! { <div class="actions">{button.view()}</div> }
    });
    view! {
        <section class="part stack" aria-label="Taken over">
            <p role="status">{taken.says}</p>
            {back}
        </section>
    }
    .into_any()
}
