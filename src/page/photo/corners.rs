use leptos::ev;
use leptos::prelude::*;

use super::state::PhotoState;
use super::viewer::heard_by;
use crate::gauge::Dot;
use crate::present::photo::PhotoStands;

/// Where the handles stand while nothing is known, as a share of the picture.
const AT_FIRST: [Dot; 4] = [(0.15, 0.15), (0.85, 0.15), (0.85, 0.85), (0.15, 0.85)];

/// The corners of the sheet in a picture of so many columns and rows.
#[derive(Clone, Copy)]
pub(super) struct Corners {
    pub(super) state: PhotoState,
    pub(super) size: (usize, usize),
}

impl Corners {
    /// Those that were moved by hand, or were found, or a beginning.
    fn all(self) -> [Dot; 4] {
        let found = || {
            self.state.last.with(|last| match last {
                Some(PhotoStands::Measured(shown)) => shown.sheet.as_slice().try_into().ok(),
                _ => None,
            })
        };
        let (columns, rows) = self.size;
        let at_first = || AT_FIRST.map(|(x, y)| (x * columns as f64, y * rows as f64));
        let moved = self.state.corners.get();
        moved.or_else(found).unwrap_or_else(at_first)
    }

    fn all_now(self) -> [Dot; 4] {
        untrack(|| self.all())
    }

    fn put(self, place: usize, (x, y): Dot) {
        let (columns, rows) = self.size;
        let mut corners = self.all_now();
        if let Some(corner) = corners.get_mut(place) {
            *corner = (
                x.clamp(-0.5, columns as f64 - 0.5),
                y.clamp(-0.5, rows as f64 - 0.5),
            );
        }
        self.state.corners.set(Some(corners));
    }

    /// Moves a corner by so many pixels.
    fn nudge(self, place: usize, (x, y): Dot) {
        if let Some(at) = self.all_now().get(place) {
            self.put(place, (at.0 + x, at.1 + y));
        }
    }

    /// Puts a corner where the pointer is.
    fn follow(self, place: usize, event: &ev::PointerEvent) {
        let plane = heard_by(event).and_then(|handle| handle.parent_element());
        if let Some(plane) = plane {
            let seen = plane.get_bounding_client_rect();
            let (columns, rows) = self.size;
            let x = (f64::from(event.client_x()) - seen.left()) / seen.width();
            let y = (f64::from(event.client_y()) - seen.top()) / seen.height();
            self.put(place, (x * columns as f64 - 0.5, y * rows as f64 - 0.5));
        }
    }
}

/// A handle on each corner: dragged, or moved by arrow keys; then all is measured anew.
pub(super) fn handles(corners: Corners) -> AnyView {
    (0..4)
        .map(|place| handle(corners, place))
        .collect::<Vec<AnyView>>()
        .into_any()
}

fn handle(corners: Corners, place: usize) -> AnyView {
    let (columns, rows) = corners.size;
    let at = move |of: fn(Dot) -> f64, all: usize| {
        let corner = corners.all().get(place).copied().unwrap_or_default();
        format!("{:.3}%", (of(corner) + 0.5) / all as f64 * 100.0)
    };
    let dragged = RwSignal::new(false);
    let down = move |event: ev::PointerEvent| {
        event.stop_propagation();
        event.prevent_default();
        if let Some(handle) = heard_by(&event) {
            // Without it the drag ends where the finger leaves the handle.
            drop(handle.set_pointer_capture(event.pointer_id()));
        }
        dragged.set(true);
    };
    let moves = move |event: ev::PointerEvent| {
        if dragged.get_untracked() {
            event.stop_propagation();
            corners.follow(place, &event);
        }
    };
    let up = move |event: ev::PointerEvent| {
        if dragged.get_untracked() {
            event.stop_propagation();
            dragged.set(false);
            corners.state.measure();
        }
    };
    let key = move |event: ev::KeyboardEvent| {
        let by = if event.shift_key() { 10.0 } else { 1.0 };
        let step = match event.key().as_str() {
            "ArrowLeft" => (-by, 0.0),
            "ArrowRight" => (by, 0.0),
            "ArrowUp" => (0.0, -by),
            "ArrowDown" => (0.0, by),
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        corners.nudge(place, step);
    };
    let key_up = move |event: ev::KeyboardEvent| {
        if event.key().starts_with("Arrow") {
            corners.state.measure();
        }
    };
    view! {
        <button
            type="button"
            class="photo-corner"
            aria-label=format!(
                "Corner {} of the sheet; arrow keys move it by a pixel, with shift by ten",
                place + 1,
            )
            style:left=move || at(|corner| corner.0, columns)
            style:top=move || at(|corner| corner.1, rows)
            on:pointerdown=down
            on:pointermove=moves
            on:pointerup=up
            on:pointercancel=up
            on:keydown=key
            on:keyup=key_up
        ></button>
    }
    .into_any()
}
