use leptos::prelude::*;

use super::{NOT_TAPPED, tap_on};
use crate::command::{Command, Edit};
use crate::marking::Pause;
use crate::marking::heat_log::What;
use crate::page::keeper::Keeper;
use crate::page::widgets::{PushButton, TextBox};
use crate::present::board::BoardTile;
use crate::present::heat_log::{stop_choices, time_wrong};
use crate::records::MarkingId;

/// What is open below the buttons of a tile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Open {
    Nothing,
    Faults,
    Pause,
    Extra,
    Stop,
}

/// Usual reasons why a clock stands; common practice, no source.
const REASONS: [&str; 4] = [
    "Fire or gas",
    "Tool or machine",
    "First aid",
    "By the examiner",
];

/// What is open below the buttons.
pub(super) fn panel(
    keeper: Keeper,
    id: MarkingId,
    own: Memo<Option<BoardTile>>,
    open: RwSignal<Open>,
) -> Option<AnyView> {
    match open.get() {
        Open::Nothing => None,
        Open::Faults => Some(faults(keeper, id, own, open)),
        Open::Pause => Some(pauses(keeper, id, open)),
        Open::Extra => Some(extra(keeper, id, own, open)),
        Open::Stop => Some(stops(keeper, id, open)),
    }
}

fn faults(
    keeper: Keeper,
    id: MarkingId,
    own: Memo<Option<BoardTile>>,
    open: RwSignal<Open>,
) -> AnyView {
    let known = own.with_untracked(|tile| tile.as_ref().map(|tile| tile.faults.clone()));
    let known = known.unwrap_or_default();
    if known.is_empty() {
        return view! { <p>"The rubric names no fault that is seen while the piece is made."</p> }
            .into_any();
    }
    let buttons = known.into_iter().map(|seen| {
        let words = seen.name.clone();
        let tapped = move || {
            open.set(Open::Nothing);
            let (entry, fault) = (seen.entry.clone(), seen.fault.clone());
            tap_on(keeper, id, What::Fault { entry, fault });
        };
        PushButton::plain(words, tapped).view()
    });
    view! { <div class="board-panel">{buttons.collect_view()}</div> }.into_any()
}

fn pauses(keeper: Keeper, id: MarkingId, open: RwSignal<Open>) -> AnyView {
    let pause = move |reason: String| {
        if !reason.trim().is_empty() {
            open.set(Open::Nothing);
            tap_on(keeper, id, What::Pause { reason });
        }
    };
    let usual =
        REASONS.map(|reason| PushButton::plain(reason, move || pause(reason.to_owned())).view());
    let typed = RwSignal::new(String::new());
    let other = field(
        format!("pause-{id}"),
        "Another reason",
        typed,
        nothing_wrong,
    );
    let done = PushButton::plain("Pause for that", move || pause(typed.get_untracked())).view();
    view! { <div class="board-panel">{Vec::from(usual)} {other} {done}</div> }.into_any()
}

/// The ways to end without being finished.
fn stops(keeper: Keeper, id: MarkingId, open: RwSignal<Open>) -> AnyView {
    let buttons = stop_choices().into_iter().map(|(how, _, words)| {
        let tapped = move || {
            open.set(Open::Nothing);
            let reason = String::new();
            tap_on(keeper, id, What::Stopped { how, reason });
        };
        PushButton::plain(words, tapped).view()
    });
    view! { <div class="board-panel">{buttons.collect_view()}</div> }.into_any()
}

fn extra(
    keeper: Keeper,
    id: MarkingId,
    own: Memo<Option<BoardTile>>,
    open: RwSignal<Open>,
) -> AnyView {
    let stands = own.with_untracked(|tile| tile.as_ref().map(|tile| tile.extra.clone()));
    let (time, why) = stands.unwrap_or_default();
    let (time, why) = (RwSignal::new(time), RwSignal::new(why));
    let set = move |extra_time: Option<Pause>| {
        let edit = Edit::SetExtraTime { extra_time };
        if keeper.perform_or_say(NOT_TAPPED, Command::edit(id, edit)) {
            open.set(Open::Nothing);
        }
    };
    let is_whole = move || {
        let said = |text: RwSignal<String>| text.with(|text| !text.trim().is_empty());
        said(time) && said(why) && time.with(|text| time_wrong(text).is_empty())
    };
    let give = PushButton {
        enabled: Signal::derive(is_whole),
        ..PushButton::plain("Give extra time", move || {
            set(Some(Pause {
                duration: time.get_untracked(),
                reason: why.get_untracked(),
            }));
        })
    };
    let none = PushButton::plain("No extra time", move || set(None));
    view! {
        <div class="board-panel">
            {field(format!("extra-{id}"), "Minutes", time, time_wrong)}
            {field(format!("extra-why-{id}"), "Why, as arranged", why, nothing_wrong)}
            {give.view()}
            {none.view()}
        </div>
    }
    .into_any()
}

fn nothing_wrong(_: &str) -> String {
    String::new()
}

fn field(
    id: String,
    label: &'static str,
    value: RwSignal<String>,
    wrong: fn(&str) -> String,
) -> AnyView {
    TextBox {
        id,
        label: label.to_owned(),
        hint: "",
        lines: 1,
        value: value.into(),
        wrong: Signal::derive(move || value.with(|text| wrong(text))),
        typed: Callback::new(move |text| value.set(text)),
    }
    .view()
}
