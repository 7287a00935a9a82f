use leptos::prelude::*;

use super::readings::{ReadingEntry, TallyEntry};
use super::state::SheetState;
use super::ticks::FaultTicks;
use crate::command::Edit;
use crate::present::mark_sheet::{Face, LevelTile, Row, RowForm};

/// What is entered in a row.
#[component]
pub(super) fn RowEntry(row: Row, face: Memo<Face>) -> impl IntoView {
    let inside = match row.form.clone() {
        RowForm::Readings { inputs, .. } if inputs.is_empty() => {
            return view! { <p class="quiet">"Taken in its own row."</p> }.into_any();
        }
        RowForm::Readings { inputs, verdicts } => {
            view! { <ReadingEntry row=row inputs=inputs verdicts=verdicts face=face /> }.into_any()
        }
        RowForm::Tally { unit, .. } => {
            view! { <TallyEntry row=row unit=unit face=face /> }.into_any()
        }
        RowForm::Levels(levels) => view! { <Levels row=row levels=levels face=face /> }.into_any(),
        RowForm::Numbers {
            allowed,
            descriptors,
        } => view! { <Numbers row=row allowed=allowed descriptors=descriptors face=face /> }
            .into_any(),
        RowForm::Faults(tiles) => {
            view! { <FaultTicks row=row tiles=tiles face=face has_none=true /> }.into_any()
        }
    };
    view! { <div class="row-entry">{inside}</div> }.into_any()
}

fn choose(sheet: SheetState, row: &Row, level: &str) {
    let edit = Edit::SetLevel {
        entry: row.id.clone(),
        level: Some(level.to_owned()),
    };
    sheet.edit(&row.dom, edit);
    sheet.target.set(None);
}

#[component]
fn Levels(row: Row, levels: Vec<LevelTile>, face: Memo<Face>) -> impl IntoView {
    let sheet = SheetState::here();
    let group = format!("l-{}", row.dom);
    let tiles = levels.into_iter().map(|level| {
        let row = row.clone();
        let (id, chosen) = (level.id.clone(), level.id.clone());
        view! {
            <label class="tile level">
                <input
                    type="radio"
                    name=group.clone()
                    value=level.id.clone()
                    prop:checked=move || face.with(|face| face.level.as_ref() == Some(&chosen))
                    on:change=move |_| choose(sheet, &row, &id)
                />
                <b>{level.name}</b>
                <span>{level.text}</span>
                <span class="band" data-band=level.rank.to_string()></span>
                <i>{level.marks}</i>
            </label>
        }
    });
    view! {
        <fieldset>
            <legend class="unseen">{row.name.clone()}</legend>
            <div class="tiles">{tiles.collect_view()}</div>
        </fieldset>
    }
}

#[component]
fn Numbers(
    row: Row,
    allowed: Vec<String>,
    descriptors: Vec<(String, String)>,
    face: Memo<Face>,
) -> impl IntoView {
    let sheet = SheetState::here();
    let group = format!("l-{}", row.dom);
    let tiles = allowed.into_iter().map(|number| {
        let row = row.clone();
        let (id, chosen) = (number.clone(), number.clone());
        view! {
            <label class="tile number">
                <input
                    type="radio"
                    name=group.clone()
                    value=number.clone()
                    prop:checked=move || face.with(|face| face.level.as_ref() == Some(&chosen))
                    on:change=move |_| choose(sheet, &row, &id)
                />
                {number}
            </label>
        }
    });
    let words = descriptors
        .into_iter()
        .map(|(at, text)| view! { <li><b>{at}</b> " " {text}</li> })
        .collect_view();
    view! {
        <fieldset>
            <legend class="unseen">{row.name.clone()}</legend>
            <div class="tiles numbers">{tiles.collect_view()}</div>
        </fieldset>
        <ul class="descriptors">{words}</ul>
    }
}
