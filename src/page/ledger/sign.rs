//! The key that this browser signs with.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::page::device_key::DeviceKey;
use crate::page::{crypto, save_file};
use crate::present::{KEY_DOES, KeyShown, PROVES, sentence};

/// How far the key is.
#[derive(Debug, Clone)]
enum Stage {
    Looking,
    /// This browser signs nothing.
    Missing,
    None,
    Made(KeyShown),
    Refused(String),
}

/// Make a key for this device, see it, save its public part.
#[component]
pub(super) fn Sign() -> impl IntoView {
    let stage = RwSignal::new(Stage::Looking);
    if crypto::is_there() {
        spawn_local(async move {
            let kept = DeviceKey::kept().await;
            // The page may be gone by now.
            stage.try_set(match kept {
                Ok(None) => Stage::None,
                Ok(Some(key)) => Stage::Made(KeyShown::of(key.public())),
                Err(why) => Stage::Refused(why),
            });
        });
    } else {
        stage.set(Stage::Missing);
    }
    view! {
        <section class="part" aria-labelledby="sign">
            <h2 id="sign" tabindex="-1">"Sign what is sealed on this device"</h2>
            <div class="stack narrow">
                {PROVES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
                <div class="stack" id="key" role="status">{move || shown(stage)}</div>
            </div>
        </section>
    }
}

fn shown(stage: RwSignal<Stage>) -> AnyView {
    match stage.get() {
        Stage::Looking => view! { <p>"Looking for the key of this browser…"</p> }.into_any(),
        Stage::Missing => view! {
            <p>
                "This browser signs nothing here: the page must come over https, or from this machine. Markings are sealed all the same, without a signature."
            </p>
        }
        .into_any(),
        Stage::None => ask(stage, None),
        Stage::Refused(why) => ask(stage, Some(why)),
        Stage::Made(key) => view! { <Made key /> }.into_any(),
    }
}

fn ask(stage: RwSignal<Stage>, why: Option<String>) -> AnyView {
    let make = move |_| {
        stage.set(Stage::Looking);
        spawn_local(async move {
            stage.try_set(match DeviceKey::make().await {
                Ok(key) => Stage::Made(KeyShown::of(key.public())),
                Err(why) => Stage::Refused(why),
            });
        });
    };
    let why = why.map(|why| {
        let text = sentence(&why);
        view! { <div class="notice" data-kind="stop"><p>"There is no key: " {text}</p></div> }
    });
    view! {
        {why}
        {KEY_DOES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
        <div class="actions">
            <button type="button" class="button" id="make-key" on:click=make>
                "Make a key for this device"
            </button>
        </div>
    }
    .into_any()
}

#[component]
fn Made(key: KeyShown) -> impl IntoView {
    let KeyShown {
        fingerprint,
        pem,
        base,
    } = key;
    let wrong = RwSignal::new(String::new());
    let save = move |_| {
        let saved = save_file::offer(&base, save_file::Kind::Pem, &pem);
        wrong.set(saved.err().unwrap_or_default());
    };
    let trouble = move || {
        let text = wrong.get();
        (!text.is_empty()).then(|| view! { <p class="error">{text}</p> })
    };
    view! {
        <p>"What is sealed in this browser is signed from now on. The fingerprint of its key is"</p>
        <p><code id="fingerprint">{fingerprint}</code></p>
        {KEY_DOES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
        <div class="actions">
            <button type="button" class="button" id="save-key" on:click=save>
                "Save the public key"
            </button>
        </div>
        {trouble}
    }
}
