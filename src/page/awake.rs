//! Keeps the screen awake while a page is watched (W3C, Screen Wake Lock API).

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::VisibilityState;

/// Asks that the screen stays awake as long as the page that calls this is open, and anew whenever
/// it is seen again, as browsers take the lock from a page that is not. Gives whether it stays
/// awake; `None` until the browser has answered.
pub(crate) fn keep_awake() -> ReadSignal<Option<bool>> {
    let (awake, set_awake) = signal(None);
    let lock = StoredValue::new_local(None::<JsValue>);
    let is_open = StoredValue::new(true);
    let ask = move || {
        spawn_local(async move {
            let asked = request().await;
            if is_open.try_get_value() != Some(true) {
                asked.iter().for_each(release);
                return;
            }
            set_awake.set(Some(asked.is_some()));
            lock.set_value(asked);
        });
    };
    ask();
    let seen = window_event_listener_untyped("visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Visible {
            ask();
        }
    });
    on_cleanup(move || {
        seen.remove();
        is_open.set_value(false);
        lock.with_value(|lock| lock.iter().for_each(release));
    });
    awake
}

async fn request() -> Option<JsValue> {
    let navigator = Reflect::get(&window(), &"navigator".into()).ok()?;
    let wake_lock = Reflect::get(&navigator, &"wakeLock".into()).ok()?;
    let request = method(&wake_lock, "request")?;
    let asked = request.call1(&wake_lock, &"screen".into()).ok()?;
    JsFuture::from(asked.dyn_into::<Promise>().ok()?).await.ok()
}

fn release(lock: &JsValue) {
    if let Some(release) = method(lock, "release") {
        // A lock that is gone already needs no release.
        let _ = release.call0(lock);
    }
}

fn method(of: &JsValue, name: &str) -> Option<Function> {
    let found = Reflect::get(of, &name.into()).ok()?;
    found.dyn_into().ok()
}
