use leptos::prelude::*;

use crate::page::paper::show_table;
use crate::page::widgets::{Drawn, SaveDrawing};
use crate::sheet::{Charted, Table};

/// A chart under its heading, its numbers folded below it.
pub(super) fn charted(id: &str, chart: Charted, class: &'static str) -> AnyView {
    let Charted {
        heading,
        drawing,
        caption,
        table,
    } = chart;
    view! {
        <section class="part" aria-labelledby=id.to_owned()>
            <h2 id=id.to_owned()>{heading}</h2>
            <figure class="chart">
                <Drawn drawing=drawing.clone() class />
                <figcaption>{caption}</figcaption>
                {numbers(table)}
                <SaveDrawing drawing />
            </figure>
        </section>
    }
    .into_any()
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
