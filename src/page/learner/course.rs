use leptos::prelude::*;

use super::charted::{charted, numbers, told, worked_out};
use crate::page::paths;
use crate::page::widgets::{Readable, SaveDrawing};
use crate::present::{Course, CourseAsked, RubricChoice};
use crate::records::LearnerId;
use crate::sheet::{CriterionShown, HOW_NEXT, NextShown, OwnShown, SectionShown, Table, Told};

/// The rubrics whose course can be shown, where there are several.
pub(super) fn rubric_choice(
    id: LearnerId,
    asked: &CourseAsked,
    choices: Vec<RubricChoice>,
) -> Option<AnyView> {
    (choices.len() > 1).then(|| {
        let links = choices.into_iter().map(|choice| {
            view! {
                <li>
                    <a
                        href=paths::learner_by(id, &asked.by(&choice.id))
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
            {course.step_heats.map(|heats| charted("heats-by-step", heats, "bars"))}
        </div>
        {next(course.next)}
        <div class="chart-pair">
            {course.usual.map(|usual| charted("stand-out", usual, ""))}
            {course.change.map(|change| told("real-change", change))}
        </div>
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
                {worked_out(HOW_NEXT.to_owned())}
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
                "Piece by piece, from none of its marks at the lower line to all of them at the upper one. What there is most to win in comes first: marks of the total that the latest pieces lost there, on the mean. Tap a chart to read a piece off it."
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
            <Readable drawing=shown.drawing is_small=true />
            {(!shown.to_win.is_empty()).then(|| view! { <p class="quiet">{shown.to_win}</p> })}
        </li>
    }
    .into_any()
}

/// Own marks against an examiner's.
pub(super) fn own(shown: OwnShown, eye: Option<Told>) -> AnyView {
    let any = !shown.differ.is_empty();
    let items = shown.differ.into_iter().map(|item| {
        let said = item.lines.join(" ");
        view! { <li><b><bdi>{item.lead}</bdi></b> ": " {said}</li> }
    });
    let items = items.collect_view();
    view! {
        <div class="chart-pair">
            {charted("own-marks", shown.chart, "")}
            {eye.map(|eye| told("own-eye", eye))}
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
