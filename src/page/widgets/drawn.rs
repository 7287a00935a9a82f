use std::sync::atomic::{AtomicUsize, Ordering};

use leptos::prelude::*;
use leptos::svg;

use crate::chart::{Drawing, Shape};

static DRAWN: AtomicUsize = AtomicUsize::new(0);

/// A drawing as SVG, named by its title and told by its description.
#[component]
pub(crate) fn Drawn(
    /// What is drawn.
    drawing: Drawing,
    /// What the style sheet calls the whole, such as `shoe` or `scale`.
    #[prop(optional)]
    class: &'static str,
) -> impl IntoView {
    let number = DRAWN.fetch_add(1, Ordering::Relaxed);
    let (title_id, text_id) = (
        format!("drawing-{number}-title"),
        format!("drawing-{number}-text"),
    );
    let Drawing {
        left,
        top,
        width,
        height,
        title,
        description,
        shapes,
    } = drawing;
    let text =
        (!description.is_empty()).then(|| view! { <desc id=text_id.clone()>{description}</desc> });
    let labelled_by = title_id.clone();
    let described_by = text.is_some().then_some(text_id);
    view! {
        <svg
            class=(!class.is_empty()).then_some(class)
            viewBox=format!("{left} {top} {width} {height}")
            role="img"
            aria-labelledby=labelled_by
            aria-describedby=described_by
        >
            <title id=title_id>{title}</title>
            {text}
            {shapes.into_iter().map(shape).collect_view()}
        </svg>
    }
}

fn shape(shape: Shape) -> AnyView {
    match shape {
        Shape::Rect {
            x,
            y,
            width,
            height,
            class,
            band,
        } => svg::rect()
            .attr("x", number(x))
            .attr("y", number(y))
            .attr("width", number(width))
            .attr("height", number(height))
            .attr("class", (!class.is_empty()).then_some(class))
            .attr("data-band", band.map(|band| band.to_string()))
            .into_any(),
        Shape::TurnedRect {
            x,
            y,
            width,
            height,
            degrees,
            class,
        } => svg::rect()
            .attr("x", number(-width / 2.0))
            .attr("y", number(-height / 2.0))
            .attr("width", number(width))
            .attr("height", number(height))
            .attr("class", class)
            .attr(
                "transform",
                format!(
                    "translate({},{}) rotate({})",
                    number(x),
                    number(y),
                    number(degrees)
                ),
            )
            .into_any(),
        Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class,
        } => svg::line()
            .attr("x1", number(x1))
            .attr("y1", number(y1))
            .attr("x2", number(x2))
            .attr("y2", number(y2))
            .attr("class", class)
            .into_any(),
        Shape::Path { d, class } => svg::path()
            .attr("d", d)
            .attr("class", class)
            .attr("fill-rule", "evenodd")
            .into_any(),
        Shape::Circle {
            x,
            y,
            radius,
            class,
            kind,
        } => svg::circle()
            .attr("cx", number(x))
            .attr("cy", number(y))
            .attr("r", number(radius))
            .attr("class", class)
            .attr("data-kind", kind)
            .into_any(),
        Shape::Text {
            x,
            y,
            align,
            text,
            class,
        } => svg::text()
            .attr("x", number(x))
            .attr("y", number(y))
            .attr("text-anchor", align.word())
            .attr("class", class)
            .child(text)
            .into_any(),
    }
}

/// A coordinate with two places, which is finer than any screen.
fn number(value: f64) -> String {
    format!("{value:.2}")
}
