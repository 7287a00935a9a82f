use leptos::prelude::*;

use super::state::Heats;
use crate::command::Edit;
use crate::page::widgets::{PushButton, TextBox, when};
use crate::present::heat_log::{
    AfterForm, after_form, after_typed, heats_wrong, time_wrong, with_planned,
};

/// What is entered when nobody tapped, and the plan of heats.
pub(super) fn after(heats: Heats) -> AnyView {
    let form = Memo::new(move |_| heats.see(after_form));
    let is_tapped = Memo::new(move |_| heats.buttons().count > 0);
    let quick = when(Signal::derive(move || !is_tapped.get()), move || {
        quick(heats, form)
    });
    view! {
        {quick}
        {plan(heats, form)}
    }
    .into_any()
}

/// Changes the form and keeps what it says.
fn typed(heats: Heats, form: Memo<AfterForm>, change: impl FnOnce(&mut AfterForm)) {
    let mut now = form.get_untracked();
    change(&mut now);
    heats.edit(Edit::SetAfterwards {
        afterwards: after_typed(&now),
    });
}

fn field(
    id: String,
    label: String,
    hint: &'static str,
    wrong: fn(&str) -> String,
    value: impl Fn() -> String + Send + Sync + 'static,
    typed: impl Fn(String) + Send + Sync + 'static,
) -> AnyView {
    let value = Signal::derive(value);
    TextBox {
        id,
        label,
        hint,
        lines: 1,
        value,
        wrong: Signal::derive(move || value.with(|text| wrong(text))),
        typed: Callback::new(typed),
    }
    .view()
}

fn quick(heats: Heats, form: Memo<AfterForm>) -> AnyView {
    let heats_of = move |place: usize, label: String| {
        field(
            format!("heats-of-{place}"),
            label,
            "",
            heats_wrong,
            move || {
                form.with(|form| {
                    form.heats
                        .get(place)
                        .map(|of| of.2.clone())
                        .unwrap_or_default()
                })
            },
            move |text| {
                typed(heats, form, |form| {
                    if let Some(of) = form.heats.get_mut(place) {
                        of.2 = text;
                    }
                });
            },
        )
    };
    let labels: Vec<String> =
        form.with_untracked(|form| form.heats.iter().map(|of| of.1.clone()).collect());
    let fields = labels
        .into_iter()
        .enumerate()
        .map(|(place, label)| heats_of(place, label));
    let weld = form
        .with_untracked(|form| form.weld_heats.is_some())
        .then(|| {
            field(
                "heats-weld".to_owned(),
                "Weld heats among them".to_owned(),
                "",
                heats_wrong,
                move || form.with(|form| form.weld_heats.clone().unwrap_or_default()),
                move |text| typed(heats, form, |form| form.weld_heats = Some(text)),
            )
        });
    view! {
        <section class="part stack" aria-labelledby="heat-after">
            <h2 id="heat-after">"Enter it afterwards"</h2>
            <p class="hint">"For a piece that nobody tapped for. What stays empty is not counted."</p>
            <div class="heat-form">
                {fields.collect_view()}
                {weld}
                {field(
                    "heats-time".to_owned(),
                    "Time from start to finish".to_owned(),
                    "Without pauses, such as 52 min or 1 h 4 min",
                    time_wrong,
                    move || form.with(|form| form.time.clone()),
                    move |text| typed(heats, form, |form| form.time = text),
                )}
                {field(
                    "heats-fire".to_owned(),
                    "Of that in the fire".to_owned(),
                    "If somebody took it",
                    time_wrong,
                    move || form.with(|form| form.at_the_fire.clone()),
                    move |text| typed(heats, form, |form| form.at_the_fire = text),
                )}
            </div>
        </section>
    }
    .into_any()
}

fn plan(heats: Heats, form: Memo<AfterForm>) -> AnyView {
    let parts: Vec<String> =
        form.with_untracked(|form| form.plan.iter().map(|of| of.0.clone()).collect());
    if parts.is_empty() {
        return ().into_any();
    }
    let row = move |place: usize, label: String| {
        let wrong = RwSignal::new(String::new());
        TextBox {
            id: format!("planned-{place}"),
            label,
            hint: "",
            lines: 1,
            value: Signal::derive(move || {
                form.with(|form| {
                    form.plan
                        .get(place)
                        .map(|of| of.1.clone())
                        .unwrap_or_default()
                })
            }),
            wrong: wrong.into(),
            typed: Callback::new(move |text: String| {
                let plan = untrack(|| {
                    heats.see(|rubric, facts| Some(with_planned(rubric, facts, place, &text)))
                });
                match plan {
                    Some(Ok(plan)) => {
                        wrong.set(String::new());
                        heats.edit(Edit::SetHeatPlan { plan });
                    }
                    Some(Err(why)) => wrong.set(why),
                    None => {}
                }
            }),
        }
        .view()
    };
    let back = PushButton {
        enabled: Signal::derive(move || form.with(|form| form.is_changed)),
        ..PushButton::plain("The rubric’s plan again", move || {
            heats.edit(Edit::SetHeatPlan { plan: None });
        })
    };
    let rows = parts
        .into_iter()
        .enumerate()
        .map(|(place, label)| row(place, label));
    view! {
        <section class="part stack" aria-labelledby="heat-plan">
            <details>
                <summary><h2 id="heat-plan">"Plan of heats"</h2></summary>
                <p class="hint">"For this piece only; marks still go by the rubric’s own plan."</p>
                <div class="heat-form">{rows.collect_view()}</div>
                <div class="actions">{back.view()}</div>
            </details>
        </section>
    }
    .into_any()
}
