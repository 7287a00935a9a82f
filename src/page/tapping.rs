//! What a tap of a heat log knows of the clocks, and a screen that stays awake meanwhile.

use std::cell::{Cell, OnceCell};

use js_sys::{Function, Promise, Reflect};
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::clock;
use crate::marking::heat_log::{Run, Tap, What};
use crate::records::Moment;

thread_local! {
    /// The number of this page's life; `None` where the browser gives no chance.
    static PAGE: OnceCell<Option<u32>> = const { OnceCell::new() };
}

/// What both clocks show.
pub(crate) fn both_clocks() -> (Moment, Option<Run>) {
    let page = PAGE.with(|page| *page.get_or_init(|| clock::random().map(u32::from_le_bytes)));
    let run = page.and_then(|page| {
        let ms = window().performance()?.now().max(0.0);
        Some(Run {
            page,
            ms: num_traits::AsPrimitive::as_(ms),
        })
    });
    (clock::now(), run)
}

/// A tap now.
pub(crate) fn tap(what: What) -> Tap {
    let (at, run) = both_clocks();
    Tap { at, run, what }
}

/// What both clocks show, anew each second while the page stands.
pub(crate) fn ticking() -> ReadSignal<(Moment, Option<Run>)> {
    let (shown, show) = signal(both_clocks());
    let ticks = set_interval_with_handle(
        move || show.set(both_clocks()),
        std::time::Duration::from_secs(1),
    );
    on_cleanup(move || {
        if let Ok(ticks) = ticks {
            ticks.clear();
        }
    });
    shown
}

/// Keeps the screen awake while the page stands and `wanted` says so; `false` where the browser
/// cannot, or does not now.
pub(crate) fn awake(wanted: Signal<bool>) -> ReadSignal<bool> {
    let (is_awake, set) = signal(true);
    let held = StoredValue::new_local(Cell::new(None::<JsValue>));
    let let_go = move || {
        let lock = held.try_with_value(Cell::take).flatten();
        if let Some(lock) = lock {
            let _ = call(&lock, "release");
        }
    };
    let ask = move || {
        let_go();
        if !wanted.get_untracked() {
            return;
        }
        spawn_local(async move {
            let lock = lock().await;
            let _ = set.try_set(lock.is_some());
            // The page may be gone by now.
            if held.try_with_value(|held| held.set(lock.clone())).is_none()
                && let Some(lock) = lock
            {
                let _ = call(&lock, "release");
            }
        });
    };
    Effect::new(move |_| {
        wanted.track();
        ask();
    });
    // A lock ends when the page is hidden.
    let back = window_event_listener(ev::visibilitychange, move |_| {
        if !document().hidden() {
            ask();
        }
    });
    on_cleanup(move || {
        back.remove();
        let_go();
    });
    is_awake
}

/// *Source:* Screen Wake Lock API, W3C.
async fn lock() -> Option<JsValue> {
    let locks = Reflect::get(&window().navigator(), &"wakeLock".into()).ok()?;
    let request: Function = Reflect::get(&locks, &"request".into())
        .ok()?
        .dyn_into()
        .ok()?;
    let promise: Promise = request
        .call1(&locks, &"screen".into())
        .ok()?
        .dyn_into()
        .ok()?;
    JsFuture::from(promise).await.ok()
}

fn call(object: &JsValue, method: &str) -> Option<JsValue> {
    let method: Function = Reflect::get(object, &method.into()).ok()?.dyn_into().ok()?;
    method.call0(object).ok()
}
