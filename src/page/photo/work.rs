use leptos::prelude::*;

use super::rows::rows;
use super::state::PhotoState;
use super::viewer::{marking_corners, viewer};
use crate::page::widgets::PushButton;
use crate::present::photo::{Advice, PhotoStands, STAGES};

/// How the measuring stands, and what came of it.
pub(super) fn work(state: PhotoState) -> AnyView {
    // The last result stays until the next one is there, so that the page does not jump while a
    // corner is moved.
    let shown = RwSignal::new(None);
    Effect::new(move |_| match state.stands.get() {
        Some(PhotoStands::Measured(found)) => shown.set(Some(*found)),
        Some(PhotoStands::Refused(_) | PhotoStands::Unknown(_)) | None => shown.set(None),
        Some(PhotoStands::Waiting | PhotoStands::Working(_)) => {}
    });
    let meanwhile = move || match state.stands.get()? {
        PhotoStands::Waiting => Some(stages(state, None)),
        PhotoStands::Working(stage) => Some(stages(state, Some(stage))),
        PhotoStands::Measured(_) => None,
        PhotoStands::Refused(advice) => Some(refused(state, advice)),
        PhotoStands::Unknown(why) => Some(unknown(state, why)),
    };
    view! {
        <section class="part stack" aria-labelledby="photo-found" data-photo="found">
            <h2 id="photo-found">"What it shows"</h2>
            <div class="stack">{meanwhile}</div>
            {move || {
                let shown = shown.get()?;
                Some(view! { {viewer(state, &shown)} {rows(state, shown)} })
            }}
            {move || {
                state
                    .stands
                    .with(Option::is_none)
                    .then(|| view! { <p>"Nothing yet: take or choose a photo."</p> })
            }}
        </section>
    }
    .into_any()
}

/// The stages with the one that is being worked on.
fn stages(state: PhotoState, now: Option<usize>) -> AnyView {
    let items = STAGES.iter().enumerate().map(|(place, words)| {
        let (word, value) = match now {
            Some(now) if place < now => ("done", Some("1")),
            Some(now) if place == now => ("now", None),
            _ => ("ahead", Some("0")),
        };
        view! {
            <li data-state=word aria-current=(word == "now").then_some("step")>
                <span>{*words}</span>
                <progress aria-label=*words value=value max="1"></progress>
            </li>
        }
    });
    let at = now.and_then(|now| STAGES.get(now)).copied();
    view! {
        <p role="status">{at.unwrap_or("Getting ready to measure")}"…"</p>
        <ol class="stages">{items.collect_view()}</ol>
        <div class="actions">{PushButton::plain("Stop", move || state.stop()).view()}</div>
    }
    .into_any()
}

fn refused(state: PhotoState, advice: Advice) -> AnyView {
    let Advice {
        text,
        by_corners,
        at,
        size,
    } = advice;
    view! {
        <div class="notice" data-kind="warn" role="alert">
            <p><b>"This photo is not measured."</b> " " {text}</p>
        </div>
        {marking_corners(state, size, at, by_corners)}
    }
    .into_any()
}

fn unknown(state: PhotoState, why: String) -> AnyView {
    view! {
        <div class="notice" data-kind="warn" role="alert"><p>{why}</p></div>
        <div class="actions">{PushButton::plain("Measure it again", move || state.measure()).view()}</div>
    }
    .into_any()
}
