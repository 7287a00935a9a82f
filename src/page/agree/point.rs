use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::widgets::{TextBox, Tile, TileKind, tile_words, when};
use crate::present::{AgreeChoice, AgreePoint, settle_command};
use crate::records::MarkingId;

/// Key of the notice that something could not be settled.
const NOT_SETTLED: &str = "not-settled";

/// One criterion: what differs, the ways to settle it, why.
#[component]
pub(super) fn Point(point: Memo<Option<AgreePoint>>, marking: MarkingId) -> impl IntoView {
    let Some(first) = point.get_untracked() else {
        return ().into_any();
    };
    let keeper = Keeper::here();
    // What is typed stays as typed, whatever the ledger makes of it.
    let [chosen, marks, reason] = [first.chosen, first.marks, first.reason].map(RwSignal::new);
    let entry = StoredValue::new(first.entry);
    let settle = move || {
        let command = entry.with_value(|entry| {
            let (chosen, marks, reason) = (
                chosen.get_untracked(),
                marks.get_untracked(),
                reason.get_untracked(),
            );
            settle_command(marking, entry, &chosen, &marks, &reason)
        });
        keeper.perform_or_say(NOT_SETTLED, command);
    };
    let tiles = first.choices.into_iter().map(|choice| {
        let key = StoredValue::new(choice.key);
        let checked = Signal::derive(move || key.with_value(|key| chosen.with(|now| now == key)));
        Tile {
            kind: TileKind::Radio(format!("{}-choice", first.dom)),
            class: "tile",
            checked,
            chosen: Callback::new(move |_| {
                chosen.set(key.get_value());
                settle();
            }),
            inside: tile_words(choice.title, choice.note),
        }
        .view()
    });
    let problem = Signal::derive(move || {
        point.with(|point| {
            point
                .as_ref()
                .map_or_else(String::new, |point| point.problem.clone())
        })
    });
    let no_reason = Signal::derive(move || {
        let is_wanted = point.with(|point| {
            point
                .as_ref()
                .is_some_and(|point| point.needs_reason && !point.chosen.is_empty())
        });
        if is_wanted && reason.with(|reason| reason.trim().is_empty()) {
            "Say why: the agreed sheet prints it.".to_owned()
        } else {
            String::new()
        }
    });
    let heard = move |field: RwSignal<String>| {
        Callback::new(move |text: String| {
            field.set(text);
            settle();
        })
    };
    let (marks_id, reason_id) = (format!("{}-marks", first.dom), format!("{}-why", first.dom));
    let out_of = first.out_of;
    let is_other = Signal::derive(move || chosen.with(|now| now == AgreeChoice::OTHER));
    let other = when(is_other, move || {
        TextBox {
            id: marks_id.clone(),
            label: format!("Marks, {out_of}"),
            hint: "",
            lines: 1,
            value: marks.into(),
            wrong: problem,
            typed: heard(marks),
        }
        .view()
    });
    // The rubric's rule needs no reason.
    let is_own =
        Signal::derive(move || chosen.with(|now| !now.is_empty() && now != AgreeChoice::RULE));
    let why = when(is_own, move || {
        TextBox {
            id: reason_id.clone(),
            label: "Reason".to_owned(),
            hint: "",
            lines: 2,
            value: reason.into(),
            wrong: no_reason,
            typed: heard(reason),
        }
        .view()
    });
    let state = move || point.with(|point| point.as_ref().map_or("", |point| point.state));
    view! {
        <section class="part" id=first.dom.clone() aria-labelledby=format!("{}-name", first.dom)>
            <h2 id=format!("{}-name", first.dom)>{first.name.clone()} " " <small>{state}</small></h2>
            <p>{first.differs}</p>
            <fieldset class="field">
                <legend class="unseen">{format!("Marks for {}", first.name)}</legend>
                <div class="tiles">{tiles.collect_view()}</div>
            </fieldset>
            {other}
            {why}
        </section>
    }
    .into_any()
}
