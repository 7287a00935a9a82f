//! Long work in slices, so that the page stays responsive.

use js_sys::Promise;
use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

use super::clock;

/// How long a slice may take, in milliseconds: a frame at 60 a second.
const SLICE_MS: u64 = 16;

/// A slice of work.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slice(u64);

impl Slice {
    /// Begins now.
    pub(super) fn begin() -> Self {
        Self(clock::now_ms())
    }

    /// Whether it is time to let the page breathe.
    pub(super) fn is_over(self) -> bool {
        clock::now_ms().saturating_sub(self.0) >= SLICE_MS
    }
}

/// Lets the browser draw and hear what was tapped.
pub(super) async fn breathe() {
    let turn = Promise::new(&mut |resolve, _| {
        // A browser without timers goes on at once.
        let set = window().set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 0);
        if set.is_err() {
            let _ = resolve.call0(&wasm_bindgen::JsValue::UNDEFINED);
        }
    });
    // It is never refused.
    let _ = JsFuture::from(turn).await;
}
