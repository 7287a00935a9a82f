//! A word between the tabs of this browser: the ledger has changed.

use std::rc::Rc;

use leptos::prelude::window;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use web_sys::{BroadcastChannel, MessageEvent};

const CHANNEL: &str = "evenshod";
const CHANGED: &str = "changed";

/// The way to the other tabs.
#[derive(Debug, Clone)]
pub(super) struct Tabs(Option<Rc<BroadcastChannel>>);

impl Tabs {
    /// Opens the way for as long as the page lives; `hear` is called for each
    /// change that another tab has stored.
    pub(super) fn open(hear: impl Fn() + 'static) -> Self {
        let Ok(channel) = BroadcastChannel::new(CHANNEL) else {
            // Without it the store still refuses what another tab has changed.
            return Self(None);
        };
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            if event.data().as_string().as_deref() == Some(CHANGED) {
                hear();
            }
        });
        channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        // Lives as long as the page.
        heard.forget();
        Self(Some(Rc::new(channel)))
    }

    /// Tells the other tabs that something new is stored.
    pub(super) fn tell(&self) {
        if let Some(channel) = &self.0 {
            // Where it fails, the store still refuses what they would overwrite.
            let _ = channel.post_message(&JsValue::from_str(CHANGED));
        }
    }
}

/// Calls `act` whenever the page is hidden or about to go.
pub(super) fn on_hide(act: impl Fn() + Clone + 'static) {
    use leptos::ev;
    use leptos::prelude::{document, window_event_listener_untyped};
    use web_sys::VisibilityState;

    let hidden = {
        let act = act.clone();
        move |_| {
            if document().visibility_state() == VisibilityState::Hidden {
                act();
            }
        }
    };
    // A document's event; it bubbles to the window.
    window_event_listener_untyped("visibilitychange", hidden);
    leptos::prelude::window_event_listener(ev::pagehide, move |_| act());
}

/// Has the browser ask before it closes a page while `is_unsafe` says so.
pub(super) fn ask_before_close(is_unsafe: impl Fn() -> bool + 'static) {
    let ask = Closure::<dyn Fn(web_sys::BeforeUnloadEvent)>::new(
        move |event: web_sys::BeforeUnloadEvent| {
            if is_unsafe() {
                event.prevent_default();
            }
        },
    );
    let added =
        window().add_event_listener_with_callback("beforeunload", ask.as_ref().unchecked_ref());
    // Without the question the notice still says that nothing is stored.
    drop(added);
    // Lives as long as the page.
    ask.forget();
}
