use leptos::prelude::*;

use crate::page::paper::show_table;
use crate::page::widgets::{Readable, SaveDrawing};
use crate::sheet::{Charted, Table, Told};

/// A chart under its heading, its numbers folded below it.
pub(super) fn charted(id: &str, chart: Charted, class: &'static str) -> AnyView {
    let Charted {
        heading,
        drawing,
        caption,
        table,
        how,
    } = chart;
    view! {
        <section class="part" aria-labelledby=id.to_owned()>
            <h2 id=id.to_owned()>{heading}</h2>
            <figure class="chart">
                <Readable drawing=drawing.clone() class />
                <figcaption>{caption}</figcaption>
                {numbers(table)}
                {worked_out(how)}
                <SaveDrawing drawing />
            </figure>
        </section>
    }
    .into_any()
}

/// What is said of one thing, under its heading.
pub(super) fn told(id: &str, told: Told) -> AnyView {
    let words = told.words.into_iter().map(|words| view! { <p>{words}</p> });
    view! {
        <section class="part" aria-labelledby=id.to_owned()>
            <h2 id=id.to_owned()>{told.heading}</h2>
            {words.collect_view()}
            {worked_out(told.how)}
        </section>
    }
    .into_any()
}

/// How something is worked out, folded until somebody asks for it.
pub(super) fn worked_out(how: String) -> Option<AnyView> {
    (!how.is_empty()).then(|| {
        view! {
            <details class="numbers-behind">
                <summary>"How this is worked out"</summary>
                <p>{how}</p>
            </details>
        }
        .into_any()
    })
}

/// A table that is folded until somebody asks for it.
pub(super) fn numbers(table: Table) -> AnyView {
    view! {
        <details class="numbers-behind">
            <summary>"The numbers"</summary>
            {show_table(table)}
        </details>
    }
    .into_any()
}
