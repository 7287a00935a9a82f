//! Long work in slices, so that the page stays responsive.

use js_sys::Promise;
use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

use super::clock;

/// How long a slice may take, in milliseconds: a frame at 60 a second.
const SLICE_MS: u64 = 16;
/// How long one may take that somebody waits for: a task that takes longer is felt.
const WAITED_FOR_MS: u64 = 50;

/// A slice of work.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slice {
    since: u64,
    most: u64,
}

impl Slice {
    /// Begins now.
    pub(super) fn begin() -> Self {
        Self {
            since: clock::now_ms(),
            most: SLICE_MS,
        }
    }

    /// Begins now with what is to be seen first.
    pub(super) fn begin_waited_for() -> Self {
        Self {
            most: WAITED_FOR_MS,
            ..Self::begin()
        }
    }

    /// Whether it is time to let the page breathe.
    pub(super) fn is_over(self) -> bool {
        clock::now_ms().saturating_sub(self.since) >= self.most
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
