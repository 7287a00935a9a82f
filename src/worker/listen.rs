use js_sys::global;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use super::perform::take;
use crate::job::Said;

/// Takes requests for as long as the worker lives, and says that it does.
pub fn listen() {
    console_error_panic_hook::set_once();
    let Ok(scope) = global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let heard = {
        let scope = scope.clone();
        Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            let text = event.data().as_string().unwrap_or_default();
            take(&text, &mut |said| say(&scope, &said));
        })
    };
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // Lives as long as the worker.
    heard.forget();
    say(&scope, &Said::Ready);
}

fn say(scope: &DedicatedWorkerGlobalScope, said: &Said) {
    // What cannot be written is no message either: the page hears that.
    let text = said.write().unwrap_or_else(|fault| fault.to_string());
    // A text can always be posted.
    let _ = scope.post_message(&JsValue::from_str(&text));
}
