use leptos::prelude::*;

use super::charted::{charted, numbers};
use crate::page::paths;
use crate::page::widgets::{Drawn, SaveDrawing};
use crate::present::{Course, RubricChoice};
use crate::records::LearnerId;
use crate::sheet::{CriterionShown, HOW_NEXT, NextShown, OwnShown, SectionShown, Table};

/// The rubrics whose course can be shown, where there are several.
pub(super) fn rubric_choice(id: LearnerId, choices: Vec<RubricChoice>) -> Option<AnyView> {
    (choices.len() > 1).then(|| {
        let links = choices.into_iter().map(|choice| {
            view! {
                <li>
                    <a
                        href=paths::learner_by(id, &choice.id)
                        aria-current=choice.is_chosen.then_some("true")
                    >
                        {choice.title}
                        <span>{choice.about}</span>
                    </a>
                </li>
            }
        });
        view! {
            <nav class="part jump" aria-label="Rubric to show">
                <ol>{links.collect_view()}</ol>
            </nav>
        }
        .into_any()
    })
}

/// How the pieces by one rubric go.
pub(super) fn course(course: Course) -> AnyView {
    let tallies = course.tallies.into_iter().enumerate();
    let tallies = tallies
        .map(|(at, tally)| charted(&format!("tally-{}", at + 1), tally, ""))
        .collect_view();
    view! {
        <div class="chart-pair">
            {charted("over-time", course.marks, "")}
            {course.steps.map(|steps| charted("by-step", steps, "bars"))}
        </div>
        {next(course.next)}
        {criteria(course.criteria, course.criteria_table)}
        <div class="chart-pair">{tallies}</div>
    }
    .into_any()
}

/// What the next piece may come to.
fn next(shown: Vec<NextShown>) -> Option<AnyView> {
    let is_any = !shown.is_empty();
    let items = shown.into_iter().map(|next| {
        view! { <li><b>{next.name}</b> ": " {next.words}</li> }
    });
    let items = items.collect_view();
    is_any.then(|| {
        view! {
            <section class="part" aria-labelledby="next-piece">
                <h2 id="next-piece">"The next piece"</h2>
                <ul class="list">{items}</ul>
                <details class="numbers-behind">
                    <summary>"How this is worked out"</summary>
                    <p>{HOW_NEXT}</p>
                </details>
            </section>
        }
        .into_any()
    })
}

fn criteria(sections: Vec<SectionShown>, table: Table) -> AnyView {
    let sections = sections.into_iter().map(section).collect_view();
    view! {
        <section class="part" aria-labelledby="each-criterion">
            <h2 id="each-criterion">"Each criterion"</h2>
            <p class="quiet">
                "Piece by piece, from none of its marks at the lower line to all of them at the upper one."
            </p>
            {sections}
            {numbers(table)}
        </section>
    }
    .into_any()
}

fn section(section: SectionShown) -> AnyView {
    let criteria = section.criteria.into_iter().map(criterion).collect_view();
    view! {
        <h3>{section.heading}</h3>
        <ul class="small-charts">{criteria}</ul>
        <SaveDrawing drawing=section.drawing />
    }
    .into_any()
}

fn criterion(shown: CriterionShown) -> AnyView {
    view! {
        <li>
            <p><span>{shown.name}</span> <b>{shown.latest}</b></p>
            <Drawn drawing=shown.drawing />
        </li>
    }
    .into_any()
}

/// Own marks against an examiner's.
pub(super) fn own(shown: OwnShown) -> AnyView {
    let any = !shown.differ.is_empty();
    let items = shown.differ.into_iter().map(|item| {
        let said = item.lines.join(" ");
        view! { <li><b><bdi>{item.lead}</bdi></b> ": " {said}</li> }
    });
    let items = items.collect_view();
    view! {
        <div class="chart-pair">
            {charted("own-marks", shown.chart, "")}
            {any.then(|| view! {
                <section class="part" aria-labelledby="own-differ">
                    <h2 id="own-differ">"Where they differ most"</h2>
                    <ul class="list">{items}</ul>
                </section>
            })}
        </div>
    }
    .into_any()
}
