use std::sync::Arc;

use leptos::prelude::*;

use super::moving::Moving;
use super::state::PhotoState;
use crate::gauge::Shown;
use crate::page::widgets::PushButton;
use crate::present::photo::{
    Fill, HoleRow, PhotoRow, hole_rows, photo_rows, photo_warnings, still_by_hand,
};

/// What was measured, each with the reading that it fills, to be taken or left.
pub(super) fn rows(state: PhotoState, moving: Moving) -> AnyView {
    let shown = moving.shown;
    let texts = Memo::new(move |_| {
        let shown = shown.get()?;
        Some(
            state
                .rubric
                .with_value(|rubric| photo_warnings(rubric, &shown)),
        )
    });
    let warnings = move || {
        let texts = texts.get().unwrap_or_default().into_iter();
        texts
            .map(|text| {
                view! { <div class="notice" data-kind="warn"><p>{text}</p></div> }.into_any()
            })
            .collect::<Vec<AnyView>>()
    };
    let rows = Memo::new(move |_| {
        let (shoe, shown) = (state.shoe.get(), shown.get());
        let id = state.marking;
        state.keeper.with_ledger(|ledger| {
            let none = crate::marking::Facts::default();
            let facts = ledger.marking(id).map_or(&none, |marking| &marking.facts);
            let rows = shown.map(|shown| {
                let rubric = state.rubric.get_value();
                photo_rows(&rubric, facts, shoe.as_deref(), &shown)
            });
            rows.unwrap_or_default()
        })
    });
    let by_hand = move || {
        let shoe = state.shoe.get();
        let rubric = state.rubric.get_value();
        let names = shown
            .get()
            .map(|shown| still_by_hand(&rubric, shoe.as_deref(), &shown));
        let names = names.unwrap_or_default();
        (!names.is_empty()).then(|| {
            view! { <p>"Left blank, to be measured by hand: " {names.join("; ")} "."</p> }
        })
    };
    let ticked = Memo::new(move |_| {
        let fills = rows.with(|rows| fills(rows));
        let ticked = fills.into_iter().filter(|fill| state.is_ticked(fill));
        ticked.collect::<Vec<Fill>>()
    });
    let take = PushButton {
        kind: Some("primary"),
        words: Signal::derive(move || match ticked.with(Vec::len) {
            1 => "Take 1 reading".to_owned(),
            count => format!("Take {count} readings"),
        }),
        enabled: Signal::derive(move || !ticked.with(Vec::is_empty)),
        ..PushButton::plain("", move || {
            if let Some(shown) = shown.get_untracked() {
                state.take(&shown, &moving.note(), &ticked.get_untracked());
            }
        })
    };
    let undo = PushButton {
        enabled: Signal::derive(move || state.can_undo()),
        ..PushButton::plain("Undo", move || state.undo())
    };
    let has_any =
        Memo::new(move |_| rows.with(|rows| rows.iter().any(|row| !row.fills.is_empty())));
    view! {
        {warnings}
        <p>
            "Each value comes with the range in which it lies with about 95 % (JCGM 100:2008). Left and right as in the photo with the toe up; foot side up, the left one in the photo fills the reading of the right."
        </p>
        {move || if has_any.get() { asked_for(state, moving, rows) } else { none_asked_for() }}
        <details class="photo-others" open=move || !has_any.get()>
            <summary>"Measures that fill no reading here"</summary>
            <table class="table" data-stack="">
                <thead>
                    <tr>
                        <th scope="col">"Measure"</th>
                        <th scope="col" class="num">"Value"</th>
                        <th scope="col" class="num">"How sure"</th>
                    </tr>
                </thead>
                <tbody>{lines(state, moving, rows, false)}</tbody>
            </table>
        </details>
        {holes(shown)}
        {by_hand}
        <div class="actions">{take.view()} {undo.view()}</div>
        <p id="photo-said" tabindex="-1" role="status">{move || state.said.get()}</p>
    }
    .into_any()
}

/// What fills a reading.
fn asked_for(state: PhotoState, moving: Moving, rows: Memo<Vec<PhotoRow>>) -> AnyView {
    view! {
        <table class="table" data-stack="" data-photo="rows">
            <caption>"Measures that fill a reading"</caption>
            <thead>
                <tr>
                    <th scope="col">"Measure"</th>
                    <th scope="col" class="num">"Value"</th>
                    <th scope="col" class="num">"How sure"</th>
                    <th scope="col">"Reading"</th>
                </tr>
            </thead>
            <tbody>{lines(state, moving, rows, true)}</tbody>
        </table>
    }
    .into_any()
}

/// Said where nothing fills a reading.
fn none_asked_for() -> AnyView {
    view! {
        <p>
            "The rubric of this sheet does not say which of its readings a photo fills, so none can be taken over from here. A rubric says so by "
            <code>"photo"</code> " in a reading or criterion."
        </p>
    }
    .into_any()
}

fn fills(rows: &[PhotoRow]) -> Vec<Fill> {
    rows.iter().flat_map(|row| row.fills.clone()).collect()
}

/// The nail holes, where any were found.
fn holes(shown: Memo<Option<Arc<Shown>>>) -> AnyView {
    let rows = Memo::new(move |_| {
        let rows = shown.get().map(|shown| hole_rows(&shown));
        rows.unwrap_or_default()
    });
    let count = Memo::new(move |_| rows.with(Vec::len));
    let line = |row: HoleRow| {
        view! {
            <tr>
                <th scope="row">{row.name}</th>
                <td class="num" data-label="From the toe, along the edge">{row.along}</td>
                <td class="num" data-label="To the outer edge">{row.to_edge}</td>
                <td class="num" data-label="To the next hole">{row.to_next}</td>
                <td class="num" data-label="How sure">{row.sure}</td>
            </tr>
        }
        .into_any()
    };
    let lines = move || rows.get().into_iter().map(line).collect::<Vec<AnyView>>();
    view! {
        <details class="photo-others" hidden=move || count.get() == 0>
            <summary>{count} " nail holes"</summary>
            <table class="table" data-stack="">
                <thead>
                    <tr>
                        <th scope="col">"Hole, from the toe back"</th>
                        <th scope="col" class="num">"From the toe, along the edge"</th>
                        <th scope="col" class="num">"To the outer edge"</th>
                        <th scope="col" class="num">"To the next hole"</th>
                        <th scope="col" class="num">"How sure"</th>
                    </tr>
                </thead>
                <tbody>{lines}</tbody>
            </table>
        </details>
    }
    .into_any()
}

/// The rows that fill a reading, or those that fill none.
fn lines(state: PhotoState, moving: Moving, rows: Memo<Vec<PhotoRow>>, fills: bool) -> AnyView {
    let lines = move || {
        let rows = rows.get().into_iter();
        let rows = rows.filter(|row| row.fills.is_empty() != fills);
        rows.map(|row| line(state, moving, row))
            .collect::<Vec<AnyView>>()
    };
    lines.into_any()
}

fn line(state: PhotoState, moving: Moving, row: PhotoRow) -> AnyView {
    let PhotoRow {
        place,
        number,
        name,
        value,
        sure,
        by_hand,
        fills,
    } = row;
    let is_pointed = move || state.pointed.get() == Some(place);
    let point = PushButton {
        class: "photo-row",
        pressed: Some(Signal::derive(is_pointed)),
        ..PushButton::plain(format!("{number}. {name}"), move || {
            let is_pointed = state.pointed.get_untracked() == Some(place);
            state.pointed.set((!is_pointed).then_some(place));
        })
    };
    let moved = by_hand.then(|| {
        let back = PushButton {
            kind: Some("quiet"),
            ..PushButton::plain("Put back", move || moving.put_back(place))
        };
        view! { <p class="hint">"ends moved by hand"</p> {back.view()} }
    });
    let readings = (!fills.is_empty()).then(|| {
        let ticks = fills.into_iter().map(|fill| tick(state, fill));
        view! { <td>{ticks.collect::<Vec<AnyView>>()}</td> }.into_any()
    });
    view! {
        <tr data-pointed=move || is_pointed().then_some("")>
            <th scope="row">{point.view()}</th>
            <td class="num" data-label="Value">{value}</td>
            <td class="num" data-label="How sure">{sure} {moved}</td>
            {readings}
        </tr>
    }
    .into_any()
}

/// The reading with a tick, and what stands there now.
fn tick(state: PhotoState, fill: Fill) -> AnyView {
    let now = (!fill.now.is_empty()).then(|| format!(" (now {})", fill.now));
    let (name, slot) = (fill.name.clone(), fill.slot.clone());
    let ticked = Signal::derive(move || state.is_ticked(&fill));
    let hear = move |event: leptos::ev::Event| {
        let is_ticked = event_target_checked(&event);
        let slot = slot.clone();
        state.ticks.update(|ticks| {
            ticks.insert(slot, is_ticked);
        });
    };
    view! {
        <label class="photo-tick">
            <input type="checkbox" prop:checked=ticked on:change=hear />
            <span>{name} {now}</span>
        </label>
    }
    .into_any()
}
