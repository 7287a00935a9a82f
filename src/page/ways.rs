//! Where a piece has several open markings: who marks now, and what is not seen yet.

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::Question;
use super::{dom, paths};
use crate::command::Command;
use crate::present::{MarkWay, OpenMarkings, open_markings};
use crate::records::{MarkingId, PieceId};

/// Key of the notice that a draft was not thrown away.
const NOT_THROWN: &str = "not-thrown";

fn shown_of(piece: PieceId) -> Memo<Option<OpenMarkings>> {
    let keeper = Keeper::here();
    Memo::new(move |_| keeper.look(|ledger, rubrics| open_markings(ledger, rubrics, piece)))
}

/// Asks who marks now; shows no marks.
#[component]
pub(crate) fn WhoMarks(piece: PieceId) -> impl IntoView {
    dom::set_title("Who marks now?");
    let shown = shown_of(piece);
    move || match shown.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(shown) => view! {
            <div class="page-head">
                <div>
                    <h1>"Who marks now?"</h1>
                    <p><bdi>{shown.title}</bdi> ": " {shown.about}</p>
                </div>
            </div>
            {choices(shown.piece, shown.ways)}
            <div class="part">{what_is_sealed(shown.sealed, shown.says)}</div>
        }
        .into_any(),
    }
}

fn choices(piece: PieceId, ways: Vec<MarkWay>) -> AnyView {
    let tiles = ways.into_iter().map(|way| {
        let href = paths::marking(piece, way.marking);
        view! {
            <li>
                <a class="choice" href=href>
                    <b><bdi>{way.who}</bdi></b>
                    {(!way.role.is_empty()).then(|| view! { <span>{way.role}</span> })}
                    <span>{way.far}</span>
                </a>
            </li>
        }
    });
    view! { <ul class="choices">{tiles.collect_view()}</ul> }.into_any()
}

fn what_is_sealed(lines: Vec<String>, says: &'static str) -> AnyView {
    let lines = lines.into_iter();
    let lines = lines.map(|line| view! { <p><b><bdi>{line}</bdi></b></p> });
    view! { <div class="notice">{lines.collect_view()} <p>{says}</p></div> }.into_any()
}

/// Stands for a sheet that may not be seen yet: what is sealed, the ways to what is
/// open, and the way out.
#[component]
pub(crate) fn Unseen(piece: PieceId) -> impl IntoView {
    dom::set_title("Not to be seen yet");
    let shown = shown_of(piece);
    move || match shown.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(shown) => {
            let is_sealed = !shown.sealed.is_empty();
            let throws = shown.ways.clone().into_iter().filter(|_| is_sealed);
            let throws = throws.map(|way| view! { <ThrowAway way /> }).collect_view();
            view! {
                <div class="page-head">
                    <div>
                        <h1>"Not to be seen yet"</h1>
                        <p><bdi>{shown.title}</bdi> ": " {shown.about}</p>
                    </div>
                </div>
                <div class="stack">
                    {what_is_sealed(shown.sealed, shown.says)}
                    <h2>"Still open"</h2>
                    {choices(shown.piece, shown.ways)}
                    {throws}
                </div>
            }
            .into_any()
        }
    }
}

/// The way out: without the open marking the sealed one is seen.
#[component]
fn ThrowAway(way: MarkWay) -> impl IntoView {
    throw_away(
        way.marking,
        Thrown {
            called: way.called,
            before: "What is sealed is seen then.",
            after: "The sealed marking stays as it is, and is seen from then on.",
        },
    )
}

/// The way out of agreeing.
#[component]
pub(crate) fn ThrowAgreed(marking: MarkingId) -> impl IntoView {
    throw_away(
        marking,
        Thrown {
            called: "the agreed marking".to_owned(),
            before: "The markings that it is made from stay.",
            after: "The sealed markings stay as they are.",
        },
    )
}

/// What is said where a draft can be thrown away.
struct Thrown {
    /// What it is called in a sentence.
    called: String,
    /// What is left, before it is asked.
    before: &'static str,
    /// What is left, as it is asked.
    after: &'static str,
}

fn throw_away(marking: MarkingId, thrown: Thrown) -> AnyView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let Thrown {
        called,
        before,
        after,
    } = thrown;
    let called = StoredValue::new(called);
    let throw = Callback::new(move |()| {
        if keeper.perform_or_say(NOT_THROWN, Command::DeleteDraft { marking }) {
            request_animation_frame(dom::focus_heading);
        }
    });
    view! {
        <p>
            "If it will never be finished, "
            <bdi>{called.get_value()}</bdi>
            " can be thrown away. "
            {before}
        </p>
        <div class="actions">
            <button type="button" class="button" on:click=move |_| asked.set(true)>
                "Throw the open marking away"
            </button>
        </div>
        <Question
            id="throw-heading"
            open=asked
            asks=move || view! { "Throw away " <bdi>{called.get_value()}</bdi> "?" }
            yes="Throw it away"
            no="Keep it"
            done=throw
        >
            <p>"What is typed in it is gone for good. " {after}</p>
        </Question>
    }
    .into_any()
}
