use leptos::prelude::*;

use super::readings::{reading_entry, tally_entry};
use super::state::SheetState;
use super::ticks::fault_ticks;
use crate::command::Edit;
use crate::page::widgets::{Tile, TileKind, picture};
use crate::present::mark_sheet::{Face, LevelTile, Row, RowForm};

/// What is entered in a row.
pub(super) fn row_entry(row: &Row, face: Memo<Face>) -> AnyView {
    let inside = match row.form.clone() {
        RowForm::Readings { inputs, .. } if inputs.is_empty() => {
            return view! { <p class="quiet">"Taken in its own row."</p> }.into_any();
        }
        RowForm::Readings { inputs, verdicts } => reading_entry(row, inputs, verdicts, face),
        RowForm::Tally { unit, .. } => tally_entry(row, unit, face),
        RowForm::Levels(levels) => {
            let tiles = levels.into_iter().map(|level| {
                let id = level.id.clone();
                choice(row, face, id, "tile level", level_inside(level))
            });
            choices(row, face, "tiles", tiles.collect())
        }
        RowForm::Numbers {
            allowed,
            descriptors,
        } => {
            let tiles = allowed
                .into_iter()
                .map(|number| choice(row, face, number.clone(), "tile number", number.into_any()));
            let words: Vec<AnyView> = descriptors
                .into_iter()
                .map(|(at, text)| view! { <li><b>{at}</b> " " {text}</li> }.into_any())
                .collect();
            let group = choices(row, face, "tiles numbers", tiles.collect());
            view! { {group} <ul class="descriptors">{words}</ul> }.into_any()
        }
        RowForm::Faults(tiles) => fault_ticks(row, tiles, face, true),
    };
    view! { <div class="row-entry">{inside}</div> }.into_any()
}

pub(super) fn level_inside(level: LevelTile) -> AnyView {
    let photo = level.photo.map(|shown| picture(shown.digest, shown.alt));
    view! {
        {photo}
        <b>{level.name}</b>
        <span>{level.text}</span>
        <span class="band" data-band=level.rank.to_string()></span>
        <i>{level.marks}</i>
    }
    .into_any()
}

fn choices(row: &Row, face: Memo<Face>, class: &'static str, tiles: Vec<AnyView>) -> AnyView {
    view! {
        <fieldset disabled=move || face.with(|face| face.locked)>
            <legend class="unseen">{row.name.clone()}</legend>
            <div class=class>{tiles}</div>
        </fieldset>
    }
    .into_any()
}

/// A level or a number to choose.
fn choice(
    row: &Row,
    face: Memo<Face>,
    level: String,
    class: &'static str,
    inside: AnyView,
) -> AnyView {
    let sheet = SheetState::here();
    let (id, chosen) = (row.id.clone(), level.clone());
    let place = format!("l-{}", row.dom);
    Tile {
        kind: TileKind::Radio(place.clone()),
        class,
        checked: Signal::derive(move || face.with(|face| face.level.as_ref() == Some(&chosen))),
        chosen: Callback::new(move |_| {
            let edit = Edit::SetLevel {
                entry: id.clone(),
                level: Some(level.clone()),
            };
            sheet.edit(&place, edit);
            sheet.target.set(None);
        }),
        inside,
    }
    .view()
}
