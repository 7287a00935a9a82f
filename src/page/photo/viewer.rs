use leptos::ev;
use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use super::corners::{Corners, handles};
use super::edging::{Edging, points, tools as edge_tools};
use super::holding::{Taps, marks, tools as moving_tools};
use super::moving::Moving;
use super::state::PhotoState;
use super::zoom::Zoom;
use crate::gauge::Dot;
use crate::page::widgets::PushButton;
use crate::present::photo::{Layer, Overlay, PhotoStands, Stretch, first_sight, overlay};

/// The photo with what was found drawn over it.
pub(super) fn viewer(state: PhotoState, moving: Moving, size: (usize, usize)) -> AnyView {
    let is_drawn = RwSignal::new(true);
    let has_image = RwSignal::new(true);
    let over = move || {
        if let Some(shown) = moving.shown.get() {
            let drawn = is_drawn.get().then(|| overlay(&shown));
            return drawn.map(|drawn| svg(&drawn, state.pointed, has_image.into()));
        }
        state.last.with(|last| match last.as_ref()? {
            PhotoStands::Refused(advice) => advice.at.map(|at| trouble(at, size)),
            _ => None,
        })
    };
    let edging = Edging::new(state, moving, size);
    // A tap is for one of the two.
    let edge = move || {
        let tool = || either("Move edge", state.edging, moving.is_on);
        (!state.is_drawn()).then(tool)
    };
    let tools = vec![
        toggle("What was found", is_drawn),
        toggle("Mirror image", has_image),
        toggle("Move corners", state.moving),
        either("Move measures", moving.is_on, state.edging),
        edge.into_any(),
    ];
    let outer = state.last.with_untracked(|last| match last {
        Some(PhotoStands::Measured(shown)) => shown.outer.clone(),
        _ => Vec::new(),
    });
    let legend = view! {
        <ul class="photo-legend" aria-label="Outline of the branches against the mirror image of the other one">
            <li><span class="swatch" data-off="on"></span>"within 0.75 mm"</li>
            <li><span class="swatch" data-off="near"></span>"within 1.5 mm"</li>
            <li><span class="swatch" data-off="off"></span>"further off; ticks stand out or in eight times as far"</li>
        </ul>
    };
    let marks = move || moving.is_on.get().then(|| marks(moving, size));
    let points = move || edging.is_on().then(|| points(edging));
    let over = view! { {over} {marks} {points} }.into_any();
    let taps = Taps::new(moving, edging, size);
    let others = move || moving.is_on.get().then(|| moving_tools(moving));
    let edge_others = move || edging.is_on().then(|| edge_tools(edging));
    view! {
        {plane(Corners { state, size }, Zoom::on(first_sight(&outer, size)), taps, tools, over)}
        {others}
        {edge_others}
        {legend}
    }
    .into_any()
}

/// A ring about the place that is to be mended.
fn trouble((x, y): Dot, (columns, rows): (usize, usize)) -> AnyView {
    view! {
        <svg viewBox=format!("-0.5 -0.5 {columns} {rows}") aria-hidden="true">
            <circle class="trouble" cx=x cy=y r=columns.min(rows) as f64 / 30.0 />
        </svg>
    }
    .into_any()
}

fn toggle(words: &'static str, on: RwSignal<bool>) -> AnyView {
    PushButton {
        pressed: Some(on.into()),
        ..PushButton::plain(words, move || on.update(|on| *on = !*on))
    }
    .view()
}

/// The same of two of which one at most is on.
fn either(words: &'static str, on: RwSignal<bool>, other: RwSignal<bool>) -> AnyView {
    let press = move || {
        on.update(|on| *on = !*on);
        other.set(false);
    };
    PushButton {
        pressed: Some(on.into()),
        ..PushButton::plain(words, press)
    }
    .view()
}

/// The photo in its frame, to be made larger by wheel, fingers, keys and buttons.
fn plane(corners: Corners, zoom: Zoom, taps: Taps, tools: Vec<AnyView>, over: AnyView) -> AnyView {
    let Corners { state, size } = corners;
    let (columns, rows) = size;
    let frame: NodeRef<Div> = NodeRef::new();
    zoom.begin(frame);
    let handles = move || state.moving.get().then(|| handles(corners));
    let larger = PushButton {
        label: Some("Larger".to_owned()),
        ..PushButton::plain("+", move || zoom.by(frame, 1.5, None))
    };
    let smaller = PushButton {
        label: Some("Smaller".to_owned()),
        ..PushButton::plain("−", move || zoom.by(frame, 1.0 / 1.5, None))
    };
    let whole = PushButton::plain("Whole photo", move || zoom.whole());
    let (address, name) = state.chosen.with_untracked(|chosen| {
        let chosen = chosen.as_ref();
        chosen
            .map(|chosen| (chosen.address.clone(), chosen.name.clone()))
            .unwrap_or_default()
    });
    let on_wheel = move |event: ev::WheelEvent| {
        let factor = if event.delta_y() < 0.0 {
            1.2
        } else {
            1.0 / 1.2
        };
        // At either end the wheel is the page's again.
        if !zoom.can(factor) {
            return;
        }
        event.prevent_default();
        zoom.by(frame, factor, Some((event.client_x(), event.client_y())));
    };
    // Keys of the handles in it are theirs.
    let on_key = move |event: ev::KeyboardEvent| {
        let is_own = event.target() == event.current_target();
        let factor = match event.key().as_str() {
            "+" | "=" => 1.5,
            "-" => 1.0 / 1.5,
            "0" if is_own => {
                zoom.whole();
                return;
            }
            _ => return,
        };
        event.prevent_default();
        zoom.by(frame, factor, None);
    };
    view! {
        <div class="photo-view">
            <div class="actions" role="group" aria-label="The photo">
                {larger.view()} {smaller.view()} {whole.view()} {tools}
            </div>
            <div
                class="photo-frame"
                node_ref=frame
                tabindex="0"
                role="group"
                aria-label="The photo; plus and minus make it larger and smaller, arrows move it"
                on:wheel=on_wheel
                on:keydown=on_key
                on:pointerdown=move |event: ev::PointerEvent| zoom.finger_down(&event)
                on:pointermove=move |event: ev::PointerEvent| zoom.finger_moves(frame, &event)
                on:pointerup=move |event: ev::PointerEvent| zoom.finger_up(&event)
                on:pointercancel=move |event: ev::PointerEvent| zoom.finger_up(&event)
            >
                <div
                    class="photo-plane"
                    style:width=move || zoom.width()
                    style:aspect-ratio=format!("{columns} / {rows}")
                    on:pointerdown=move |event: ev::PointerEvent| taps.down(&event)
                    on:pointerup=move |event: ev::PointerEvent| taps.up(&event)
                    on:pointercancel=move |_| taps.over()
                >
                    <img src=address alt=format!("The photo {name}") draggable="false" />
                    {over}
                    {handles}
                </div>
            </div>
        </div>
    }
    .into_any()
}

fn svg(drawn: &Overlay, pointed: RwSignal<Option<usize>>, has_image: Signal<bool>) -> AnyView {
    let layers = drawn.layers.iter().map(|layer| {
        let Layer { name, path, .. } = layer.clone();
        let hides = move || (name == "mirror-image" && !has_image.get()).then_some("");
        view! { <path class=name d=path data-hidden=hides /> }
    });
    let stretches = drawn.stretches.iter().map(|stretch| {
        let Stretch { name, path, ticks } = stretch.clone();
        view! {
            <path class="stretch" data-off=name d=path />
            <path class="ticks" data-off=name d=ticks />
        }
    });
    let letters = drawn.letters;
    let holes = drawn.holes.iter().map(|(x, y)| {
        view! { <circle class="nail-hole" cx=*x cy=*y r=letters / 2.5 /> }
    });
    let measures = drawn
        .measures
        .iter()
        .enumerate()
        .map(|(place, layer)| measure(place, layer, pointed));
    view! {
        <svg viewBox=drawn.view_box.clone() font-size=drawn.letters aria-hidden="true">
            {layers.collect_view()} {stretches.collect_view()} {holes.collect_view()} {measures.collect_view()}
        </svg>
    }
    .into_any()
}

/// Where a measure is taken; all of it only while it is pointed at.
fn measure(place: usize, layer: &Layer, pointed: RwSignal<Option<usize>>) -> AnyView {
    let Layer { name, path, number } = layer.clone();
    let is_pointed = move || pointed.get() == Some(place);
    let number = number.map(|(number, (x, y))| {
        view! { <text class="number" x=x y=y>{number.to_string()}</text> }
    });
    view! {
        <g class=name data-pointed=move || is_pointed().then_some("")>
            <path class="halo" d=path.clone() />
            <path class="line" d=path />
            {number}
        </g>
    }
    .into_any()
}

/// The element that hears an event.
pub(super) fn heard_by(event: &ev::PointerEvent) -> Option<web_sys::Element> {
    event.current_target()?.dyn_into().ok()
}
