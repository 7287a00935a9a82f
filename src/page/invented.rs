//! The invented school: opened from the empty bench, named on every page, taken out in
//! one step.

use std::time::Duration;

use leptos::prelude::*;

use super::clock;
use super::keeper::Keeper;
use super::notices::{Notice, Weight};
use super::widgets::PushButton;
use crate::command::Command;
use crate::present::{InventedSign, sentence};

/// Long enough for the page to say that it is at work.
const A_MOMENT: Duration = Duration::from_millis(50);

/// What stands on every page while anything in the ledger is invented.
#[component]
pub(super) fn Sign() -> impl IntoView {
    let keeper = Keeper::here();
    // Typing changes none of these, and asking everybody whether they live takes a while.
    let counts = Memo::new(move |_| {
        keeper.with_ledger(|ledger| {
            let others = (ledger.pieces().count(), ledger.markings().count());
            (ledger.learners().count(), others)
        })
    });
    let sign = Memo::new(move |_| {
        // Read, not only tracked: a memo that nobody reads hears of nothing.
        counts.get();
        let table = keeper.late().desk()?;
        (table.invented_sign)(&keeper.ledger_now())
    });
    move || sign.get().map(|sign| shown(keeper, sign))
}

fn shown(keeper: Keeper, sign: InventedSign) -> AnyView {
    let button = sign.button.map(|words| {
        let remove = PushButton::plain(words, move || {
            if let Some(table) = untrack(|| keeper.late().desk()) {
                perform(keeper, (table.remove_invented)());
            }
        });
        view! { <div class="actions">{remove.view()}</div> }
    });
    view! {
        <aside class="notice invented" aria-label="Invented records">
            <p>{sign.text}</p>
            {button}
        </aside>
    }
    .into_any()
}

/// Opens the school.
pub(super) fn open_button(keeper: Keeper) -> AnyView {
    let is_busy = RwSignal::new(false);
    PushButton {
        words: Signal::derive(move || {
            let words = if is_busy.get() {
                "Opening…"
            } else {
                "Look round an invented school"
            };
            words.to_owned()
        }),
        enabled: Signal::derive(move || keeper.late().desk().is_some() && !is_busy.get()),
        ..PushButton::plain("", move || {
            is_busy.set(true);
            set_timeout(
                move || {
                    open(keeper);
                    // The button may be gone with the empty bench.
                    let _ = is_busy.try_set(false);
                },
                A_MOMENT,
            );
        })
    }
    .view()
}

fn open(keeper: Keeper) {
    let Some(table) = untrack(|| keeper.late().desk()) else {
        return;
    };
    match (table.open_invented)(&keeper.ledger_now(), clock::today()) {
        Ok(command) => perform(keeper, command),
        Err(why) => say(keeper, why),
    }
}

fn perform(keeper: Keeper, command: Command) {
    if let Err(refused) = keeper.perform(command) {
        say(keeper, sentence(&refused.to_string()));
    }
}

fn say(keeper: Keeper, text: String) {
    keeper.notices().show(Notice {
        key: "invented",
        weight: Weight::Warn,
        text,
        remedy: None,
        closes: true,
    });
}
