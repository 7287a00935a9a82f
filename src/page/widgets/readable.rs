use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::drawn::Drawn;
use crate::chart::Drawing;

/// Half the width of the ring around what is read off, in the drawing's units.
const RING: f64 = 12.0;

/// A drawing whose points can be read off: by a tap near one, or step by step with the arrow
/// keys of the one control below it. What stands at the point is said in words.
///
/// A small one has no control, as a page of them would be a long walk by keyboard; the table
/// of its numbers has them all. Nor has one of which a single point can be read off.
///
/// One of which nothing can be read off stands alone.
#[component]
pub(crate) fn Readable(
    /// What is drawn.
    drawing: Drawing,
    /// What the style sheet calls the whole.
    #[prop(optional)]
    class: &'static str,
    /// Whether it is one of many small ones.
    #[prop(optional)]
    is_small: bool,
) -> impl IntoView {
    if drawing.readings.is_empty() {
        return view! { <Drawn drawing class /> }.into_any();
    }
    view! { <Reader drawing class is_small /> }.into_any()
}

#[component]
fn Reader(drawing: Drawing, class: &'static str, is_small: bool) -> impl IntoView {
    let shown = drawing.clone();
    let title = format!("Read off: {}", drawing.title);
    let view_box = drawing.view_box();
    let last = drawing.readings.len().saturating_sub(1);
    let has_steps = !is_small && last > 0;
    let drawing = StoredValue::new(drawing);
    let chosen = RwSignal::new(None::<usize>);
    let surface = NodeRef::<html::Div>::new();
    let tapped = move |event: ev::MouseEvent| {
        let Some(surface) = surface.get_untracked() else {
            return;
        };
        let (wide, high) = (
            f64::from(surface.client_width()),
            f64::from(surface.client_height()),
        );
        let (right, down) = (f64::from(event.offset_x()), f64::from(event.offset_y()));
        if wide > 0.0 && high > 0.0 {
            chosen.set(drawing.with_value(|drawing| {
                let x = drawing.left + right / wide * drawing.width;
                drawing.nearest(x, drawing.top + down / high * drawing.height)
            }));
        }
    };
    let stepped = move |event: ev::Event| {
        chosen.set(event_target_value(&event).parse().ok());
    };
    let read = Memo::new(move |_| {
        let at = chosen.get()?;
        drawing.with_value(|drawing| drawing.readings.get(at).cloned())
    });
    let words = move || match read.get() {
        Some(reading) => reading.words,
        None if is_small => String::new(),
        None if has_steps => "Tap a point to read it off, or step along below.".to_owned(),
        None => "Tap the point to read it off.".to_owned(),
    };
    let ring = move || {
        let reading = read.get()?;
        Some(view! {
            <circle class="ring" cx=reading.x.to_string() cy=reading.y.to_string() r=RING.to_string()></circle>
        })
    };
    view! {
        <div class="readable">
            <Drawn drawing=shown class />
            <div class="read-surface screen-only" node_ref=surface on:click=tapped aria-hidden="true">
                <svg viewBox=view_box>{ring}</svg>
            </div>
        </div>
        {has_steps.then(|| view! {
            <input
                class="read-step screen-only"
                type="range"
                min="0"
                max=last.to_string()
                step="1"
                aria-label=title
                aria-valuetext=words
                prop:value=move || chosen.get().unwrap_or(last).to_string()
                on:input=stepped
            />
        })}
        <p class="read-words screen-only" aria-live="polite">{words}</p>
    }
    .into_any()
}
