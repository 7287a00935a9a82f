use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

use crate::page::keeper::Keeper;
use crate::page::pictures::made_small;
use crate::present::pictures::{MISSING, kept_picture, not_read};
use crate::present::sentence;
use crate::records::{Media, PictureBytes};

/// How far a picture has come.
#[derive(Debug, Clone)]
enum Seen {
    Fetching,
    /// As an address that holds all of it.
    Here(String),
    /// In words, why it is not.
    Not(String),
}

/// The picture with this digest, or a word that it is not here. `alt` says what it shows
/// to who cannot see it.
pub(crate) fn picture(digest: String, alt: String) -> AnyView {
    let keeper = Keeper::here();
    let seen = RwSignal::new(Seen::Fetching);
    spawn_local(async move {
        let found = match keeper.picture(&digest).await {
            Ok(Some(bytes)) => address(&bytes),
            Ok(None) => Seen::Not(MISSING.to_owned()),
            Err(error) => Seen::Not(not_read(&error)),
        };
        // The page may have been left.
        drop(seen.try_set(found));
    });
    let shown = move || match seen.get() {
        Seen::Fetching => view! { <span class="picture" data-state="fetching"></span> }.into_any(),
        Seen::Here(address) => {
            view! { <img class="picture" src=address alt=alt.clone() /> }.into_any()
        }
        Seen::Not(why) => {
            view! { <span class="picture" data-state="missing">{why}</span> }.into_any()
        }
    };
    shown.into_any()
}

fn address(bytes: &PictureBytes) -> Seen {
    match Media::of(bytes) {
        Some(media) => {
            let data = STANDARD.encode(bytes);
            Seen::Here(format!("data:{};base64,{data}", media.media_type()))
        }
        None => Seen::Not(MISSING.to_owned()),
    }
}

/// A field that takes a picture, keeps it, and hands its digest on.
pub(crate) struct PictureField {
    /// Id of the control.
    pub(crate) id: String,
    /// What it is called.
    pub(crate) label: &'static str,
    /// What to choose; may be empty.
    pub(crate) hint: &'static str,
    /// Pixels of the longer side that are kept.
    pub(crate) longest: u32,
    /// Hears the digest of each picture, once it is kept.
    pub(crate) kept: Callback<String>,
}

impl PictureField {
    /// Label, control, and what is wrong.
    pub(crate) fn view(self) -> AnyView {
        let keeper = Keeper::here();
        let Self {
            id,
            label,
            hint,
            longest,
            kept,
        } = self;
        let busy = RwSignal::new(false);
        let wrong = RwSignal::new(String::new());
        let take = move |file: File| {
            busy.set(true);
            wrong.set(String::new());
            spawn_local(async move {
                let made = made_small(&file, longest).await;
                // The page may have been left meanwhile.
                if busy.try_set(false).is_some() {
                    return;
                }
                let done = made.and_then(|bytes| {
                    let (digest, command) = kept_picture(bytes);
                    let done = keeper.perform(command);
                    done.map(|_| digest)
                        .map_err(|error| sentence(&error.to_string()))
                });
                match done {
                    Ok(digest) => kept.run(digest),
                    Err(why) => wrong.set(why),
                }
            });
        };
        let hear = move |event: leptos::ev::Event| {
            let input: HtmlInputElement = event_target(&event);
            let file = input.files().and_then(|files| files.get(0));
            // The same file may be chosen again.
            input.set_value("");
            if let Some(file) = file {
                take(file);
            }
        };
        let (hint_id, error_id) = (format!("{id}-hint"), format!("{id}-error"));
        let described = format!("{hint_id} {error_id}");
        view! {
            <div class="field">
                <label for=id.clone()>{label}</label>
                <p class="hint" id=hint_id>{hint}</p>
                <input
                    class="input"
                    id=id
                    type="file"
                    accept="image/*"
                    aria-describedby=described
                    aria-invalid=move || wrong.with(|wrong| (!wrong.is_empty()).then_some("true"))
                    disabled=move || busy.get()
                    on:change=hear
                />
                <div id=error_id role="status">
                    {move || {
                        let text = wrong.get();
                        if busy.get() {
                            Some(view! { <p>"Making it smaller…"</p> }.into_any())
                        } else {
                            (!text.is_empty()).then(|| view! { <p class="error">{text}</p> }.into_any())
                        }
                    }}
                </div>
            </div>
        }
        .into_any()
    }
}
