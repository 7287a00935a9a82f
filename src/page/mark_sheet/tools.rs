use std::collections::BTreeMap;

use leptos::prelude::*;

use super::focus;
use super::state::SheetState;
use crate::command::Edit;
use crate::page::preferences;
use crate::page::widgets::{PushButton, Tile, TileKind};
use crate::present::mark_sheet::{Order, Part, part_state, untouched_fault_lists};

/// Ways from the sheet to others of the same marking.
pub(super) struct Ways {
    /// The sheet on paper.
    pub(super) on_paper: String,
    /// Measuring in a photo.
    pub(super) photo: String,
    /// The heat log.
    pub(super) heats: String,
}

/// Parts to jump to, what works on the whole sheet, and ways from it.
pub(super) fn plan(ways: Option<Ways>) -> AnyView {
    let sheet = SheetState::here();
    let parts = move || {
        sheet
            .parts()
            .into_iter()
            .map(jump)
            .collect::<Vec<AnyView>>()
    };
    view! {
        <div class="plan">
            {super::shoe::shoes()}
            <nav class="jump" aria-label="Parts of the sheet"><ol>{parts}</ol></nav>
            {tools(ways)}
        </div>
    }
    .into_any()
}

fn jump(part: Part) -> AnyView {
    let sheet = SheetState::here();
    let (id, name) = (part.id.clone(), part.name.clone());
    let kept = StoredValue::new(part);
    let words = Memo::new(move |_| {
        sheet.see_result(|result| kept.with_value(|part| part_state(part, result).words))
    });
    let is_current = Signal::derive(move || {
        let row = sheet
            .target
            .with(|target| target.as_ref().map(|target| target.row.id.clone()));
        let has = |id: &String| kept.with_value(|part| part.rows.iter().any(|row| &row.id == id));
        row.is_some_and(|id| has(&id)).then_some("true")
    });
    let go = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        kept.with_value(|part| focus::show(&part.id));
    };
    view! {
        <li>
            <a href=format!("#{id}") aria-current=is_current on:click=go>
                {name} <span>{words}</span>
            </a>
        </li>
    }
    .into_any()
}

fn tools(ways: Option<Ways>) -> AnyView {
    let sheet = SheetState::here();
    let untouched = Memo::new(move |_| {
        sheet.rubric(|rubric| sheet.see_facts(|facts| untouched_fault_lists(rubric, facts)))
    });
    let orders = [
        (Order::Rubric, "as in the rubric"),
        (Order::Turned, "as the shoe is turned"),
    ];
    let tiles = orders.map(|(order, words)| {
        Tile {
            kind: TileKind::Radio("order".to_owned()),
            class: "tile",
            checked: Signal::derive(move || sheet.order.get() == order),
            chosen: Callback::new(move |_| sheet.order.set(order)),
            inside: words.into_any(),
        }
        .view()
    });
    let no_faults = PushButton {
        enabled: Signal::derive(move || !untouched.with(BTreeMap::is_empty)),
        ..PushButton::plain("No faults in the rest", move || {
            let faults = untouched.get_untracked();
            sheet.edit("no faults", Edit::SetFaultsOnMany { faults });
        })
    };
    let undo = PushButton {
        enabled: Signal::derive(move || sheet.can_undo()),
        ..PushButton::plain("Undo", move || sheet.undo())
    };
    let pad = PushButton {
        pressed: Some(sheet.pad_open.into()),
        ..PushButton::plain("Number pad", move || {
            let wants = !sheet.pad_open.get_untracked();
            sheet.pad_open.set(wants);
            preferences::set_wants_pad(wants);
        })
    };
    view! {
        <div class="tools">
            <fieldset>
                <legend class="unseen">"Order of the rows"</legend>
                <div class="tiles">{tiles.into_iter().collect::<Vec<AnyView>>()}</div>
            </fieldset>
            {no_faults.view()} {undo.view()} {(!sheet.is_tried()).then(|| pad.view())}
            {ways.map(|ways| {
                view! {
                    <a class="button" href=ways.heats>"Heat log"</a>
                    <a class="button" href=ways.photo>"Photo gauge"</a>
                    <a class="button" href=ways.on_paper>"On paper"</a>
                }
            })}
        </div>
    }
    .into_any()
}
