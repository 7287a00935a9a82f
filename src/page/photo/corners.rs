use leptos::ev;
use leptos::prelude::*;

use super::state::PhotoState;
use super::viewer::heard_by;
use crate::gauge::Dot;
use crate::present::photo::PhotoStands;

/// The places that are marked by hand in a picture of so many columns and rows: corners of the
/// sheet or card, or marks on a ruler.
#[derive(Clone, Copy)]
pub(super) struct Corners {
    pub(super) state: PhotoState,
    pub(super) size: (usize, usize),
}

impl Corners {
    /// Those that were moved by hand, or were found, or a beginning.
    fn all(self) -> Vec<Dot> {
        let (columns, rows) = self.size;
        let way = self.state.way.get();
        let begins = way.at_first().iter();
        let begins: Vec<Dot> = begins
            .map(|(x, y)| (x * columns as f64, y * rows as f64))
            .collect();
        let found = self.state.last.with(|last| match last {
            Some(PhotoStands::Measured(shown)) => shown.sheet.clone(),
            _ => Vec::new(),
        });
        let at_first = if found.len() == begins.len() {
            found
        } else {
            begins
        };
        let moved = self.state.marks.get();
        let moved = moved.into_iter().chain(std::iter::repeat(None));
        let both = at_first.into_iter().zip(moved);
        both.map(|(at_first, moved)| moved.unwrap_or(at_first))
            .collect()
    }

    fn all_now(self) -> Vec<Dot> {
        untrack(|| self.all())
    }

    fn put(self, place: usize, (x, y): Dot) {
        let (columns, rows) = self.size;
        let at = (
            x.clamp(-0.5, columns as f64 - 0.5),
            y.clamp(-0.5, rows as f64 - 0.5),
        );
        // Of a sheet the other corners stay where they were found; a mark on a ruler is one only
        // once somebody has placed it.
        let rest: Vec<Option<Dot>> = if self.state.way.get_untracked().needs_marks() {
            let count = self.all_now().len();
            let marks = self.state.marks.get_untracked();
            let marks = marks.into_iter().chain(std::iter::repeat(None));
            marks.take(count).collect()
        } else {
            self.all_now().into_iter().map(Some).collect()
        };
        let marks = rest.into_iter().enumerate();
        let marks = marks.map(|(one, mark)| if one == place { Some(at) } else { mark });
        self.state.marks.set(marks.collect());
    }

    /// Moves a place by so many pixels.
    fn nudge(self, place: usize, (x, y): Dot) {
        if let Some(at) = self.all_now().get(place) {
            self.put(place, (at.0 + x, at.1 + y));
        }
    }

    /// Puts a place where the pointer is.
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

/// A handle on each place: dragged, or moved by arrow keys; then all is measured anew.
pub(super) fn handles(corners: Corners) -> AnyView {
    let all = move || {
        let names = corners.state.way.get().places().into_iter().enumerate();
        names
            .map(|(place, name)| handle(corners, place, &name))
            .collect::<Vec<AnyView>>()
    };
    all.into_any()
}

fn handle(corners: Corners, place: usize, name: &str) -> AnyView {
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
            corners.state.measure_if_changed();
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
            corners.state.measure_if_changed();
        }
    };
    view! {
        <button
            type="button"
            class="photo-corner"
            aria-label=format!("{name}; arrow keys move it by a pixel, with shift by ten")
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
