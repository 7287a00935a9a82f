use leptos::prelude::*;

use super::moving::Moving;
use super::over::over;
use super::rows::rows;
use super::state::PhotoState;
use super::viewer::viewer;
use crate::page::widgets::PushButton;
use crate::present::photo::{Advice, PhotoStands, STAGES};

/// How the measuring stands, and what came of it.
pub(super) fn work(state: PhotoState) -> AnyView {
    Effect::new(move |_| match state.stands.get() {
        Some(stands @ (PhotoStands::Measured(_) | PhotoStands::Refused(_))) => {
            state.last.set(Some(stands));
        }
        Some(PhotoStands::Unknown(_)) | None => state.last.set(None),
        Some(PhotoStands::Waiting | PhotoStands::Working(_)) => {}
    });
    let meanwhile = move || match state.stands.get()? {
        PhotoStands::Waiting => Some(stages(state, None)),
        PhotoStands::Working(stage) => Some(stages(state, Some(stage))),
        PhotoStands::Measured(_) => None,
        PhotoStands::Refused(advice) => Some(refused(&advice)),
        PhotoStands::Unknown(why) => Some(unknown(state, why)),
    };
    // The photo stays as it is, with how far it is drawn larger, while all is measured anew.
    let size = Memo::new(move |_| {
        state.last.with(|last| match last.as_ref()? {
            PhotoStands::Measured(shown) => Some(shown.size),
            PhotoStands::Refused(advice) => Some(advice.size),
            _ => None,
        })
    });
    let moving = Moving::new(state);
    let is_measured = Memo::new(move |_| moving.shown.with(Option::is_some));
    let measured = move || is_measured.get().then(|| rows(state, moving));
    let over = move || is_measured.get().then(|| over(state, moving));
    view! {
        <section class="part stack" aria-labelledby="photo-found" data-photo="found">
            <h2 id="photo-found">"What it shows"</h2>
            <div class="stack">{meanwhile}</div>
            {move || size.get().map(|size| viewer(state, moving, size))}
            {measured}
            {over}
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

fn refused(advice: &Advice) -> AnyView {
    let by_hand = advice.by_hand.map(|text| view! { <p>{text}</p> });
    view! {
        <div class="notice" data-kind="warn" role="alert">
            <p><b>"This photo is not measured."</b> " " {advice.text.clone()}</p>
        </div>
        {by_hand}
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
