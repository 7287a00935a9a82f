use leptos::prelude::*;

use super::state::Heats;
use crate::page::widgets::Drawn;
use crate::present::heat_log::{HeatResult, MadeStep, heat_result};

/// What came of the making: totals, when each step was worked on, every tap.
pub(super) fn result(heats: Heats) -> AnyView {
    let result =
        Memo::new(move |_| heats.see(|rubric, facts| heat_result(rubric, facts, heats.unit())));
    let has_any = Memo::new(move |_| {
        result.with(|result: &HeatResult| !result.taps.is_empty())
            || heats.see(|_, facts| facts.heat_log.afterwards.is_some())
    });
    view! {
        <Show when=move || has_any.get()>
            <section class="part" aria-labelledby="heat-result">
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
        {result.drawing.map(|drawing| view! {
            <figure class="heat-drawing">
                <Drawn drawing />
                <figcaption class="hint">
                    "Minutes from the start. Thin: in the fire; thick: out of it; diamond: welding heat; square: fault; upright line: time allowed."
                </figcaption>
            </figure>
        })}
        {table(result.rows)}
        <details>
            <summary>"Every tap"</summary>
            <ul class="heat-taps">{taps.collect_view()}</ul>
        </details>
    }
    .into_any()
}

fn table(rows: Vec<MadeStep>) -> AnyView {
    let rows = rows.into_iter().map(|row| {
        view! {
            <tr>
                <th scope="row">{row.step}</th>
                <td class="figure">{row.planned}</td>
                <td class="figure">{row.made}</td>
                <td class="figure">{row.time}</td>
                <td class="figure">{row.lost}</td>
            </tr>
        }
    });
    view! {
        <div class="table-box">
            <table>
                <caption class="unseen">"Heats, time and marks lost by making step"</caption>
                <thead>
                    <tr>
                        <th scope="col">"Step"</th>
                        <th scope="col">"Heats planned"</th>
                        <th scope="col">"Made"</th>
                        <th scope="col">"Time"</th>
                        <th scope="col">"Marks lost"</th>
                    </tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}
