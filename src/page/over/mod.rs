//! One shoe laid over another, in words and drawn.

mod two;

use leptos::prelude::*;

use super::widgets::SelectField;
use crate::present::over::{LEGEND, Over, OverChoice};
use crate::present::photo::Stretch;
pub(super) use two::OverPage;

/// What a shoe may be laid over, to be chosen, and how it lies over that.
pub(super) fn laid_over(choice: Memo<OverChoice>, chosen: RwSignal<String>) -> AnyView {
    let others = Memo::new(move |_| choice.with(|choice| choice.others.clone()));
    let choose = move || {
        let options = others.get();
        view! { <SelectField id="over-under" label="Lay it over" options value=chosen /> }
    };
    let shown = move || {
        choice.with(|choice| match choice.over.as_ref()? {
            Ok(over) => Some(lies(over)),
            Err(why) => Some(
                view! { <div class="notice" data-kind="warn"><p>{why.clone()}</p></div> }
                    .into_any(),
            ),
        })
    };
    view! {
        <p>
            "Turned and shifted, not resized, until the edges lie as near as they go. It is to look at and to learn from: it gives no marks and fills no reading."
        </p>
        {choose}
        {shown}
    }
    .into_any()
}

fn lies(over: &Over) -> AnyView {
    let lines = over.lines.iter();
    let lines = lines.map(|line| view! { <li>{line.clone()}</li> });
    let notes = over.notes.iter();
    let notes = notes.map(|note| view! { <p class="hint">{note.clone()}</p> });
    view! {
        <div class="over">
            {drawing(over)}
            <div class="stack">
                <ul class="over-lines" data-over="lines">{lines.collect_view()}</ul>
                {notes.collect_view()}
            </div>
        </div>
    }
    .into_any()
}

fn drawing(over: &Over) -> AnyView {
    let drawn = &over.drawn;
    let stretches = drawn.stretches.iter().map(|stretch| {
        let Stretch { name, path, ticks } = stretch.clone();
        view! {
            <path class="over-stretch" data-off=name d=path />
            <path class="over-ticks" data-off=name d=ticks />
        }
    });
    let legend = LEGEND.map(|(name, words)| {
        view! { <li><span class="over-swatch" data-off=name></span>{words}</li> }
    });
    view! {
        <figure class="over-figure">
            <svg
                viewBox=drawn.view_box.clone()
                role="img"
                aria-label="Both outlines over each other, ground side up, toe up; the text beside it says how far apart they lie"
            >
                <path class="over-under" d=drawn.under.clone() />
                {stretches.collect_view()}
            </svg>
            <figcaption>
                <ul class="photo-legend" aria-label="How far the edges of the shoe lie off">
                    {legend.into_iter().collect_view()}
                    <li><span class="over-swatch" data-off="under"></span>"what it is laid over"</li>
                </ul>
            </figcaption>
        </figure>
    }
    .into_any()
}
