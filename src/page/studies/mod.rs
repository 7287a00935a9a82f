//! The page of an instrument study: form, grid, result, and taking it over.

mod form;
mod grid;
mod result;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::PushButton;
use super::{dom, paths};
use crate::command::Command;
use crate::present::{
    StudyEdit, StudyHead, StudyStep, StudyText, WHAT_STUDIES_ASK, sentence, study_head,
};
use crate::records::StudyId;

/// Key of the notice that an act on a study was refused.
const REFUSED: &str = "study-refused";

/// A study on its page, with what was done to it there.
#[derive(Clone, Copy)]
struct Here {
    keeper: Keeper,
    id: StudyId,
    /// What undoes each act, the last one last.
    undos: RwSignal<Vec<Command>>,
    /// What was said last.
    said: RwSignal<String>,
}

impl Here {
    /// Does an act, so that it can be undone.
    fn act(self, edit: StudyEdit) {
        let before = self.keeper.ledger_now();
        let Some(command) = edit.command(&before, self.id) else {
            return;
        };
        match command {
            Err(why) => self.said.set(sentence(&why)),
            Ok(command) => {
                if self.keeper.perform_or_say(REFUSED, command) {
                    let after = self.keeper.ledger_now();
                    let step = StudyStep::between(&before, &after, self.id);
                    let lost = step.as_ref().and_then(StudyStep::lost);
                    self.said.set(lost.unwrap_or_default());
                    self.undos
                        .update(|undos| undos.extend(step.map(StudyStep::undo)));
                }
            }
        }
    }

    fn undo(self) {
        let undo = self.undos.try_update(Vec::pop).flatten();
        if undo.is_some_and(|undo| self.keeper.perform_or_say(REFUSED, undo)) {
            self.said.set("The last step is undone.".to_owned());
        }
    }

    /// What stands in a field.
    fn text(self, text: StudyText) -> Memo<String> {
        let Self { keeper, id, .. } = self;
        Memo::new(move |_| {
            keeper.with_ledger(|ledger| {
                let study = ledger.study(id);
                study.map(|study| text.of(&study.facts)).unwrap_or_default()
            })
        })
    }
}

/// The study in the address.
#[component]
pub(super) fn StudyPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<StudyId>("study");
    let known = Memo::new(move |_| {
        let id = id.get()?;
        keeper.with_ledger(|ledger| ledger.study(id).map(|_| id))
    });
    move || match known.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(id) => {
            let here = Here {
                keeper,
                id,
                undos: RwSignal::new(Vec::new()),
                said: RwSignal::new(String::new()),
            };
            shown(here)
        }
    }
}

fn shown(here: Here) -> AnyView {
    let Here {
        keeper,
        id,
        undos,
        said,
    } = here;
    let head = Memo::new(move |_| keeper.with_ledger(|ledger| study_head(ledger, id)));
    let part = move |see: fn(&StudyHead) -> String| {
        move || head.with(|head| head.as_ref().map(see).unwrap_or_default())
    };
    let title = part(|head| head.title.clone());
    Effect::new(move |_| dom::set_title(&title()));
    let is_aside =
        Memo::new(move |_| head.with(|head| head.as_ref().is_some_and(|head| head.set_aside)));
    let aside = move || {
        let set_aside = !is_aside.get_untracked();
        let command = Command::SetStudyAside {
            study: id,
            set_aside,
        };
        if keeper.perform_or_say(REFUSED, command) {
            said.set(
                if set_aside {
                    "The study is set aside. It stays in the ledger."
                } else {
                    "The study is back."
                }
                .to_owned(),
            );
        }
    };
    let aside = PushButton {
        kind: Some("quiet"),
        words: Signal::derive(move || {
            let words = if is_aside.get() {
                "Bring back"
            } else {
                "Set aside"
            };
            words.to_owned()
        }),
        ..PushButton::plain("", aside)
    };
    let undo = PushButton {
        enabled: Signal::derive(move || undos.with(|undos| !undos.is_empty())),
        ..PushButton::plain("Undo", move || here.undo())
    };
    let asks = WHAT_STUDIES_ASK
        .map(|text| view! { <p>{text}</p> })
        .collect_view();
    view! {
        <div class="page-head screen-only">
            <div>
                <h1 dir="auto">{part(|head| head.title.clone())}</h1>
                <p dir="auto">{part(|head| head.about.clone())}</p>
            </div>
            <div class="actions">
                {undo.view()}
                {aside.view()}
                <a class="button" data-kind="quiet" href=paths::INSTRUMENTS>"All instruments"</a>
            </div>
        </div>
        <p class="quiet screen-only" role="status" id="study-says">{move || said.get()}</p>
        <div class="stack narrow screen-only">{asks}</div>
        {form::form(here)}
        {grid::grid(here)}
        {result::result(here, head)}
    }
    .into_any()
}
