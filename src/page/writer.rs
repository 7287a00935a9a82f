//! Stores what the desk holds, and says so where it cannot.

use leptos::prelude::Set as _;
use wasm_bindgen_futures::spawn_local;

use super::clock;
use super::keeper::{Keeper, Parts};
use super::notices::{Notice, Remedy, Weight};
use crate::command::{Command, CommandError};
use crate::present::{Saving, refused_words, sentence, unreadable_words};
use crate::store::indexed_db::StoreEvent;
use crate::store::{Store as _, StoreError, Unreadable};

/// Key of the notice that something is not stored.
pub(super) const NOT_SAVED: &str = "not-saved";
/// Refusals in a row after which a person is asked.
const MOST_REFUSALS: u32 = 20;

/// Whether the writer goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Next {
    GoOn,
    Stop,
}

/// Starts [`write_all`] in the background, unless it is at work.
pub(super) fn save(keeper: Keeper) {
    let parts = keeper.parts();
    if parts.is_writing.replace(true) {
        return;
    }
    spawn_local(async move {
        write_all(keeper, &parts).await;
        parts.is_writing.set(false);
    });
}

/// Stores batch after batch until all is stored or something stands against it.
/// At most one of these runs at a time.
async fn write_all(keeper: Keeper, parts: &Parts) {
    let mut refusals = 0;
    loop {
        if parts.is_stale.get() && take_over(keeper, parts).await == Next::Stop {
            return;
        }
        let Some(batch) = keeper.at_desk(|desk| desk.take_batch()).flatten() else {
            break;
        };
        if !keeper.is_only_here() {
            keeper.set_saving(Saving::Saving);
        }
        match parts.store.commit(&batch).await {
            Ok(()) => {
                refusals = 0;
                keeper.at_desk(|desk| desk.batch_saved());
                parts.tabs.tell();
            }
            Err(error) => {
                refusals += 1;
                keeper.at_desk(|desk| desk.batch_failed(&error));
                if failed(keeper, parts, error, refusals) == Next::Stop {
                    return;
                }
            }
        }
    }
    if parts.has_ended.get() {
        return;
    }
    keeper.notices().clear(NOT_SAVED);
    if matches!(keeper.saving_now(), Saving::Saving | Saving::NotSaved) {
        keeper.set_saving(Saving::Saved(clock::now()));
    }
}

fn failed(keeper: Keeper, parts: &Parts, error: StoreError, refusals: u32) -> Next {
    match error {
        StoreError::Changed { .. } | StoreError::TimedOut if refusals < MOST_REFUSALS => {
            parts.is_stale.set(true);
            Next::GoOn
        }
        StoreError::Unreadable { ref key, .. } => {
            let refused = keeper.at_desk_and_show(|desk| desk.give_up(key));
            let refused = refused.and_then(Result::ok).unwrap_or_default();
            if refused.is_empty() {
                // What cannot be read is not written, only relied on: trying again would find it so again.
                say_not_saved(keeper, &error);
                return Next::Stop;
            }
            say_refused(keeper, &refused, Some(&error));
            Next::GoOn
        }
        error => {
            if !error.may_pass() {
                parts.is_stale.set(true);
            }
            say_not_saved(keeper, &error);
            Next::Stop
        }
    }
}

/// Loads what is stored now and carries the pending commands out on it.
async fn take_over(keeper: Keeper, parts: &Parts) -> Next {
    // Another tab may write while this one loads: its word then stands for the next turn.
    parts.is_stale.set(false);
    match parts.store.load().await {
        Err(error) => {
            parts.is_stale.set(true);
            say_not_saved(keeper, &error);
            Next::Stop
        }
        Ok(loaded) => {
            let refused = keeper.at_desk_and_show(|desk| desk.rebase(loaded.ledger));
            let refused = refused.and_then(Result::ok).unwrap_or_default();
            say_refused(keeper, &refused, None);
            say_unreadable(keeper, loaded.unreadable);
            Next::GoOn
        }
    }
}

/// What happens to the store while the page is open.
pub(super) fn hear_store(keeper: Keeper, event: StoreEvent) {
    let error = match event {
        StoreEvent::WaitingForOtherTab => return,
        StoreEvent::NewerTab => StoreError::NewerTab,
        StoreEvent::Closed => StoreError::Closed,
    };
    keeper.end();
    say_not_saved(keeper, &error);
}

/// Says that nothing outlasts this page, as long as it is open.
pub(super) fn say_only_here(keeper: Keeper, why: &StoreError) {
    keeper.notices().show(Notice {
        key: "only-here",
        weight: Weight::Warn,
        text: format!(
            "Nothing you enter outlasts this page. {} You can mark all the same, and print the sheet.",
            sentence(&why.to_string())
        ),
        remedy: Some(Remedy::Reload),
        closes: false,
    });
}

/// Says that stored records cannot be read, and keeps them for the ledger's page.
pub(super) fn say_unreadable(keeper: Keeper, unreadable: Vec<Unreadable>) {
    let text = unreadable_words(&unreadable);
    keeper.unreadable().set(unreadable);
    let Some(text) = text else {
        return keeper.notices().clear("unreadable");
    };
    keeper.notices().show(Notice {
        key: "unreadable",
        weight: Weight::Warn,
        text,
        remedy: None,
        closes: true,
    });
}

fn say_not_saved(keeper: Keeper, error: &StoreError) {
    keeper.set_saving(Saving::NotSaved);
    let remedy = match error {
        StoreError::NewerTab | StoreError::Closed | StoreError::Blocked { .. } => Remedy::Reload,
        _ => Remedy::TryAgain,
    };
    keeper.notices().show(Notice {
        key: NOT_SAVED,
        weight: Weight::Stop,
        text: sentence(&error.to_string()),
        remedy: Some(remedy),
        closes: false,
    });
}

fn say_refused(keeper: Keeper, refused: &[(Command, CommandError)], why: Option<&StoreError>) {
    let Some(text) = refused_words(refused, why) else {
        return;
    };
    keeper.notices().show(Notice {
        key: "refused",
        weight: Weight::Warn,
        text,
        remedy: None,
        closes: true,
    });
}
