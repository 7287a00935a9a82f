use leptos::prelude::*;

use super::state::Heats;
use crate::page::paper::show_table;
use crate::page::widgets::Drawn;
use crate::present::heat_log::{HeatResult, heat_result};
use crate::sheet::making_is_told;

/// What came of the making: totals, when each step was worked on, every tap.
pub(super) fn result(heats: Heats) -> AnyView {
    let result =
        Memo::new(move |_| heats.see(|rubric, facts| heat_result(rubric, facts, heats.unit())));
    let has_any = Memo::new(move |_| heats.see(|_, facts| making_is_told(facts)));
    view! {
        <Show when=move || has_any.get()>
            <section class="part stack" aria-labelledby="heat-result">
                <h2 id="heat-result">"Planned and made"</h2>
                {move || shown(result.get())}
            </section>
        </Show>
    }
    .into_any()
}

fn shown(result: HeatResult) -> AnyView {
    let totals = result.totals.into_iter();
    let totals =
        totals.map(|(label, value)| view! { <div><dt>{label}</dt> <dd>{value}</dd></div> });
    let jumps = (!result.jumps.is_empty()).then(|| {
        let lines = result
            .jumps
            .into_iter()
            .map(|line| view! { <li>{line}</li> });
        view! {
            <div class="notice" data-kind="warn">
                <p><b>"The clocks did not agree."</b></p>
                <ul>{lines.collect_view()}</ul>
            </div>
        }
    });
    let taps = result.taps.into_iter().map(|tap| view! { <li>{tap}</li> });
    view! {
        <dl class="facts">{totals.collect_view()}</dl>
        {jumps}
        {result.drawing.map(|(drawing, legend)| view! {
            <figure class="heat-drawing">
                <Drawn drawing />
                <figcaption class="hint">{legend}</figcaption>
            </figure>
        })}
        {result.table.map(show_table)}
        <details>
            <summary>"Every tap"</summary>
            <ul class="heat-taps">{taps.collect_view()}</ul>
        </details>
    }
    .into_any()
}
