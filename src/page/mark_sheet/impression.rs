//! The first impression: a card on top of the sheet until it is given, then a line.

use leptos::prelude::*;

use super::entry::level_inside;
use super::state::SheetState;
use crate::command::Edit;
use crate::page::dom;
use crate::page::widgets::{PushButton, TextBox, when};
use crate::present::mark_sheet::{
    ImpressionChoices, ImpressionForm, ImpressionState, impression_form, impression_state,
    next_choice, typed_choice,
};

const CARD: &str = "impression";
const LINE: &str = "impression-line";

/// The card and the line. A copy is a handle.
#[derive(Clone, Copy)]
struct Card {
    sheet: SheetState,
    state: Memo<ImpressionState>,
    /// What the examiner asked to see; `None` leaves it to whether one is given.
    wanted: RwSignal<Option<bool>>,
}

impl Card {
    fn is_shown(self) -> bool {
        let wanted = self.wanted.get();
        self.state
            .with(|state| state.is_open && wanted.unwrap_or(state.given.is_none()))
    }

    fn fold(self, open: bool) {
        self.wanted.set(Some(open));
        dom::focus_soon(if open { CARD } else { LINE });
    }

    fn give(self, impression: Option<String>) {
        let is_given = impression.is_some();
        self.sheet.edit(CARD, Edit::SetImpression { impression });
        self.wanted.set(None);
        dom::focus_soon(if is_given { LINE } else { CARD });
    }
}

/// What is asked at a first look, where the rubric asks for it.
pub(super) fn impression() -> AnyView {
    let sheet = SheetState::here();
    let Some(form) = sheet.rubric(impression_form) else {
        return ().into_any();
    };
    let state = Memo::new(move |_| {
        sheet.rubric(|rubric| sheet.see_facts(|facts| impression_state(rubric, facts)))
    });
    let card = Card {
        sheet,
        state,
        wanted: RwSignal::new(None),
    };
    let form = StoredValue::new(form);
    let shown = Signal::derive(move || card.is_shown());
    let folded = Signal::derive(move || !card.is_shown());
    view! {
        {when(shown, move || form.with_value(|form| asked(card, form)))}
        {when(folded, move || line(card))}
    }
    .into_any()
}

/// One line once it is given, left out or locked.
fn line(card: Card) -> AnyView {
    let words = move || {
        let words = card.state.with(|state| state.words.clone());
        if words.is_empty() {
            "No first impression is given.".to_owned()
        } else {
            words
        }
    };
    let is_open = Signal::derive(move || card.state.with(|state| state.is_open));
    let change = move || {
        let is_given = card.state.with_untracked(|state| state.given.is_some());
        let words = if is_given { "Change it" } else { "Give it" };
        PushButton {
            kind: Some("quiet"),
            ..PushButton::plain(words, move || card.fold(true))
        }
        .view()
    };
    view! {
        <div class="impression-line">
            <p id=LINE tabindex="-1" role="status">{words}</p>
            {when(is_open, change)}
        </div>
    }
    .into_any()
}

fn asked(card: Card, form: &ImpressionForm) -> AnyView {
    let choices = match form.choices.clone() {
        ImpressionChoices::Levels(levels) => {
            let tiles = levels.into_iter().map(|level| {
                let id = level.id.clone();
                choice(card, id, "tile level", level_inside(level))
            });
            let tiles: Vec<AnyView> = tiles.collect();
            view! { <div class="tiles">{tiles}</div> }.into_any()
        }
        ImpressionChoices::Tiles(numbers) => {
            let tiles = numbers
                .into_iter()
                .map(|number| choice(card, number.clone(), "tile number", number.into_any()));
            let tiles: Vec<AnyView> = tiles.collect();
            view! { <div class="tiles numbers">{tiles}</div> }.into_any()
        }
        ImpressionChoices::Typed(numbers) => typed(card, numbers),
    };
    let is_given = card.state.with_untracked(|state| state.given.is_some());
    let away = is_given.then(|| {
        PushButton {
            kind: Some("quiet"),
            ..PushButton::plain("Take it away", move || card.give(None))
        }
        .view()
    });
    let skip = PushButton {
        kind: Some("quiet"),
        ..PushButton::plain(if is_given { "Leave it" } else { "Skip" }, move || {
            card.fold(false);
        })
    };
    view! {
        <section class="impression" aria-labelledby=CARD>
            <h2 id=CARD tabindex="-1">{form.ask.clone()}</h2>
            <p class="quiet">{form.about.clone()}</p>
            {choices}
            <div class="actions">{skip.view()} {away}</div>
        </section>
    }
    .into_any()
}

/// A button and no radio: arrow keys go through radios, and each would give another.
fn choice(card: Card, value: String, class: &'static str, inside: AnyView) -> AnyView {
    let (own, given) = (value.clone(), value);
    let pressed = move || {
        card.state.with(|state| {
            let is_it = state.given.as_ref() == Some(&own);
            is_it.to_string()
        })
    };
    view! {
        <button
            type="button"
            class=class
            aria-pressed=pressed
            on:click=move |_| card.give(Some(given.clone()))
        >
            {inside}
        </button>
    }
    .into_any()
}

/// A number to type, with a step down and a step up.
fn typed(card: Card, numbers: Vec<String>) -> AnyView {
    let given = card.state.with_untracked(|state| state.given.clone());
    let text = RwSignal::new(given.unwrap_or_default());
    let numbers = StoredValue::new(numbers);
    let choice = Memo::new(move |_| {
        numbers.with_value(|numbers| text.with(|text| typed_choice(numbers, text)))
    });
    let wrong = Signal::derive(move || {
        let is_empty = text.with(|text| text.trim().is_empty());
        choice.get().err().filter(|_| !is_empty).unwrap_or_default()
    });
    let step = |up: bool, words: &'static str, label: &str| {
        let go = move || {
            text.update(|text| {
                *text = numbers.with_value(|numbers| next_choice(numbers, text, up));
            });
        };
        PushButton {
            class: "step",
            label: Some(label.to_owned()),
            ..PushButton::plain(words, go)
        }
        .view()
    };
    let number = TextBox {
        id: "impression-number".to_owned(),
        label: "Number".to_owned(),
        hint: "",
        lines: 1,
        value: text.into(),
        wrong,
        typed: Callback::new(move |typed: String| text.set(typed)),
    };
    let give = PushButton {
        kind: Some("primary"),
        enabled: Signal::derive(move || choice.with(Result::is_ok)),
        ..PushButton::plain("Give it", move || card.give(choice.get_untracked().ok()))
    };
    view! {
        <div class="impression-typed">
            {number.view()} {step(false, "−", "one less")} {step(true, "+", "one more")}
            {give.view()}
        </div>
    }
    .into_any()
}
