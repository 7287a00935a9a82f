use std::sync::atomic::{AtomicUsize, Ordering};

use leptos::prelude::*;

use crate::chart::{Drawing, svg_inside};

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
    let title_id = format!("drawing-{number}-title");
    let text_id = format!("drawing-{number}-text");
    let inside = svg_inside(&drawing, &title_id, &text_id);
    let described_by = (!drawing.description.is_empty()).then_some(text_id);
    view! {
        <svg
            class=(!class.is_empty()).then_some(class)
            viewBox=drawing.view_box()
            role=if drawing.has_links() { "group" } else { "img" }
            aria-labelledby=title_id
            aria-describedby=described_by
            inner_html=inside
        ></svg>
    }
    .into_any()
}
