use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::ledger::compared;
use crate::page::file_choice::FileChoice;
use crate::page::open_file;
use crate::page::paper::Paper;
use crate::page::widgets::TextBox;
use crate::present::PROVES;
use crate::present::verify::{MarkingFound, SignatureFound, compared_with, key_compared};

/// What the file of one marking says, and what it can be compared with.
pub(super) fn shown(found: &Arc<MarkingFound>, signature: &SignatureFound) -> AnyView {
    let texts = found.texts.iter();
    let texts = texts
        .map(|text| view! { <li dir="auto">{text.clone()}</li> })
        .collect_view();
    let key = match signature {
        SignatureFound::Fits(fingerprint) => {
            let fingerprint = fingerprint.clone();
            Some(view! { <Key fingerprint /> })
        }
        _ => None,
    };
    let paper = found.document.clone();
    let paper = paper.map(|document| view! { <Paper document /> });
    let digest = found.digest.clone();
    view! {
        <DigestField compare=Callback::new(move |typed: String| {
            compared_with(&typed, &digest).map(|(fits, text)| (fits, text.to_owned()))
        }) />
        {key}
        <section class="part" aria-labelledby="texts">
            <h2 id="texts">"Names and comments"</h2>
            <ul class="list">{texts}</ul>
        </section>
        {paper}
    }
    .into_any()
}

/// Compares a digest that is typed, pasted or scanned with what was found.
#[component]
pub(super) fn DigestField(
    /// Whether it fits and what to say.
    ///
    /// *Errors:* in words, where it is no digest.
    compare: Callback<String, Result<(bool, String), String>>,
) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let answer = Memo::new(move |_| {
        let typed = typed.get();
        (!typed.trim().is_empty()).then(|| compare.run(typed))
    });
    let wrong = Signal::derive(move || match answer.get() {
        Some(Err(text)) => text,
        _ => String::new(),
    });
    let field = TextBox {
        id: "digest".to_owned(),
        label: "Digest on the sheet".to_owned(),
        hint: "Type or paste the eight groups, or what its code reads when it is scanned.",
        lines: 2,
        value: typed.into(),
        wrong,
        typed: Callback::new(move |text| typed.set(text)),
    };
    view! {
        <section class="part" aria-labelledby="compare">
            <h2 id="compare">"Compare with the sheet"</h2>
            <div class="stack narrow">
                {field.view()}
                <div role="status" id="digest-says">
                    {move || answer.get().and_then(Result::ok).map(compared)}
                </div>
            </div>
        </section>
    }
}

/// Compares the key that signed with one that was saved.
#[component]
fn Key(
    /// Of the key that signed.
    fingerprint: String,
) -> impl IntoView {
    let answer = RwSignal::new(None::<Result<(bool, &'static str), String>>);
    let chosen = UnsyncCallback::new(move |file: File| {
        let fingerprint = fingerprint.clone();
        spawn_local(async move {
            let read = open_file::bytes_of(&file).await;
            let found =
                read.and_then(|bytes| key_compared(&String::from_utf8_lossy(&bytes), &fingerprint));
            // The page may be gone by now.
            answer.try_set(Some(found));
        });
    });
    let refused = Signal::derive(move || answer.with(|answer| matches!(answer, Some(Err(_)))));
    view! {
        <section class="part" aria-labelledby="signed">
            <h2 id="signed">"Compare the key"</h2>
            <div class="stack narrow">
                {PROVES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
                <FileChoice
                    id="key-file"
                    label="Saved public key"
                    hint="The file that the examiner saved on the page Ledger; its name begins with evenshod-key."
                    accept=".pem,.txt"
                    busy=Signal::stored(false)
                    refused
                    chosen
                />
                <div role="status" id="key-says">
                    {move || answer.get().map(|answer| match answer {
                        Ok((fits, text)) => compared((fits, text.to_owned())),
                        Err(text) => view! { <p class="error">{text}</p> }.into_any(),
                    })}
                </div>
            </div>
        </section>
    }
}
