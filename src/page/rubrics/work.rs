use std::sync::Arc;

use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

use super::forms::forms;
use super::read::tries_part;
use super::state::WorkState;
use super::text::text;
use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::mark_sheet::TriedSheet;
use crate::page::widgets::{PushButton, Tile, TileKind, when};
use crate::page::{clock, dom, paths};
use crate::present::rubrics::{keep_command, scratch, try_rows};
use crate::present::sentence;
use crate::records::{RubricDraftId, Unit};
use crate::rubric::Rubric;

/// How a rubric in work is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Look {
    Forms,
    Text,
    Sheet,
}

/// A rubric in work.
#[component]
pub(crate) fn WorkPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<RubricDraftId>("rubric");
    let known = Memo::new(move |_| {
        let id = id.get()?;
        keeper.with_ledger(|ledger| ledger.rubric_draft(id).map(|draft| draft.id))
    });
    move || match known.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(id) => view! { <Opened id /> }.into_any(),
    }
}

#[component]
fn Opened(id: RubricDraftId) -> impl IntoView {
    let state = WorkState::open(Keeper::here(), id);
    let look = RwSignal::new(Look::Forms);
    let rubric = Memo::new(move |before: Option<&Option<Arc<Rubric>>>| {
        let now = state.work.with(|work| work.rubric.clone());
        // While something is to be mended, the last sound sheet stays.
        now.or_else(|| before.cloned().flatten())
    });
    let title = Memo::new(move |_| {
        let title = rubric.with(|rubric| rubric.as_ref().map(|rubric| rubric.title.clone()));
        title.unwrap_or_else(|| "Rubric in work".to_owned())
    });
    Effect::new(move |_| title.with(|title| dom::set_title(title)));
    let tiles = [
        (Look::Forms, "Forms"),
        (Look::Text, "Text"),
        (Look::Sheet, "Mark sheet"),
    ]
    .map(|(one, words)| {
        Tile {
            kind: TileKind::Radio("look".to_owned()),
            class: "tile",
            checked: Signal::derive(move || look.get() == one),
            chosen: Callback::new(move |_| look.set(one)),
            inside: words.into_any(),
        }
        .view()
    });
    let undo = PushButton {
        enabled: Signal::derive(move || state.can_undo()),
        ..PushButton::plain("Undo", move || state.undo())
    };
    let at = |one: Look| Signal::derive(move || look.get() == one);
    view! {
        <div class="page-head">
            <div>
                <h1>{move || title.get()}</h1>
                <p>"In work. Every change is stored; nothing is marked by it until you keep it."</p>
            </div>
            <KeepIt state />
        </div>
        <p id="rubric-state" role="status">{move || state.work.with(|work| work.words())}</p>
        {move || state.wrong.with(|wrong| (!wrong.is_empty()).then(|| view! {
            <p class="error" role="alert">{wrong.clone()}</p>
        }))}
        <div class="work-tools">
            <fieldset>
                <legend class="unseen">"How the rubric is shown"</legend>
                <div class="tiles" data-columns="3">{tiles.into_iter().collect::<Vec<AnyView>>()}</div>
            </fieldset>
            {undo.view()}
        </div>
        <div class="work" data-look=move || format!("{:?}", look.get()).to_lowercase()>
            <div class="work-write">
                {when(at(Look::Forms), move || forms(state))}
                {when(at(Look::Text), move || text(state))}
            </div>
            <section class="work-sheet" aria-label="The mark sheet that this rubric gives">
                <Tried rubric />
            </section>
        </div>
    }
}

/// The mark sheet, to try out; it is made anew when the rubric changes, what was entered
/// stays.
#[component]
fn Tried(rubric: Memo<Option<Arc<Rubric>>>) -> impl IntoView {
    let unit = rubric.with_untracked(|rubric| rubric.as_ref().map(|rubric| rubric.unit));
    let entered = RwSignal::new(scratch(unit.unwrap_or(Unit::Millimetre), clock::now()));
    move || match rubric.get() {
        Some(rubric) => view! { <TriedSheet rubric scratch=entered /> }.into_any(),
        None => view! {
            <p class="quiet">"The mark sheet shows here once nothing is left to mend."</p>
        }
        .into_any(),
    }
}

#[component]
fn KeepIt(state: WorkState) -> impl IntoView {
    let keeper = Keeper::here();
    let navigate = StoredValue::new_local(use_navigate());
    let asks = RwSignal::new(false);
    let go = move |address: String| {
        navigate.with_value(|navigate| navigate(&address, Default::default()));
    };
    let keep = PushButton {
        kind: Some("primary"),
        enabled: Signal::derive(move || state.work.with(|work| work.rubric.is_some())),
        ..PushButton::plain("Keep it to mark by", move || {
            let command = state
                .text
                .with_untracked(|text| keep_command(text, Some(state.id)));
            let command = match command {
                Ok(command) => command,
                Err(why) => return state.wrong.set(why),
            };
            let digest = match &command {
                Command::KeepRubric { rubric, .. } => rubric.digest.clone(),
                _ => String::new(),
            };
            match keeper.perform(command) {
                Ok(_) => go(paths::rubric(&digest)),
                Err(refused) => state.wrong.set(sentence(&refused.to_string())),
            }
        })
    };
    let away = PushButton {
        kind: Some("quiet"),
        words: Signal::derive(move || {
            let words = if asks.get() {
                "Yes, throw it away"
            } else {
                "Throw it away"
            };
            words.to_owned()
        }),
        ..PushButton::plain("", move || {
            if !asks.get_untracked() {
                asks.set(true);
                return;
            }
            match keeper.perform(Command::DropRubricDraft { draft: state.id }) {
                Ok(_) => go(paths::RUBRICS.to_owned()),
                Err(refused) => state.wrong.set(sentence(&refused.to_string())),
            }
        })
    };
    let tries =
        Memo::new(move |_| keeper.with_ledger(|ledger| try_rows(ledger, &state.id.to_string())));
    view! {
        <div class="actions">{keep.view()} {away.view()}</div>
        {move || tries_part(&tries.get())}
    }
}
