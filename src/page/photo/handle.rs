use leptos::ev;
use leptos::prelude::*;

use super::viewer::heard_by;
use crate::gauge::Dot;

/// Where a pointer is on a plane that shows a picture of so many columns and rows, in its pixels.
pub(super) fn place_of(
    event: &ev::PointerEvent,
    plane: &web_sys::Element,
    (columns, rows): (usize, usize),
) -> Dot {
    let seen = plane.get_bounding_client_rect();
    let x = (f64::from(event.client_x()) - seen.left()) / seen.width();
    let y = (f64::from(event.client_y()) - seen.top()) / seen.height();
    (x * columns as f64 - 0.5, y * rows as f64 - 0.5)
}

/// A place over a picture that is dragged, or moved by arrow keys.
#[derive(Clone, Copy)]
pub(super) struct Handle {
    /// Columns and rows of the picture.
    pub(super) size: (usize, usize),
    /// What it looks like: `corner`, `end`, `hole` or `edge`.
    pub(super) kind: &'static str,
    /// Its id, where something asks for it.
    pub(super) id: Signal<Option<&'static str>>,
    /// What it is called.
    pub(super) label: Signal<String>,
    /// Where it is, in pixels.
    pub(super) at: Signal<Dot>,
    /// Puts it there.
    pub(super) put: Callback<Dot>,
    /// Hears that a move is over.
    pub(super) done: Callback<()>,
    /// Takes what it stands for off, by the keys for that; `None` where that cannot be.
    pub(super) remove: Option<Callback<()>>,
}

impl Handle {
    fn move_to(self, (x, y): Dot) {
        let (columns, rows) = self.size;
        self.put.run((
            x.clamp(-0.5, columns as f64 - 0.5),
            y.clamp(-0.5, rows as f64 - 0.5),
        ));
    }

    /// Moves it by so many pixels.
    fn nudge(self, (x, y): Dot) {
        let at = self.at.get_untracked();
        self.move_to((at.0 + x, at.1 + y));
    }

    /// Puts it where the pointer is.
    fn follow(self, event: &ev::PointerEvent) {
        let plane = heard_by(event).and_then(|handle| handle.parent_element());
        if let Some(plane) = plane {
            self.move_to(place_of(event, &plane, self.size));
        }
    }

    /// The handle as a button over the picture.
    pub(super) fn view(self) -> AnyView {
        let (columns, rows) = self.size;
        let share = move |of: fn(Dot) -> f64, all: usize| {
            format!("{:.3}%", (of(self.at.get()) + 0.5) / all as f64 * 100.0)
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
                self.follow(&event);
            }
        };
        let up = move |event: ev::PointerEvent| {
            if dragged.get_untracked() {
                event.stop_propagation();
                dragged.set(false);
                self.done.run(());
            }
        };
        let key = move |event: ev::KeyboardEvent| self.key(&event);
        let key_up = move |event: ev::KeyboardEvent| {
            if event.key().starts_with("Arrow") {
                self.done.run(());
            }
        };
        view! {
            <button
                type="button"
                class="photo-corner"
                id=move || self.id.get()
                data-handle=self.kind
                aria-label=move || self.label.get()
                style:left=move || share(|at| at.0, columns)
                style:top=move || share(|at| at.1, rows)
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

    fn key(self, event: &ev::KeyboardEvent) {
        let by = if event.shift_key() { 10.0 } else { 1.0 };
        let step = match event.key().as_str() {
            "ArrowLeft" => (-by, 0.0),
            "ArrowRight" => (by, 0.0),
            "ArrowUp" => (0.0, -by),
            "ArrowDown" => (0.0, by),
            "Delete" | "Backspace" => {
                if let Some(remove) = self.remove {
                    event.prevent_default();
                    remove.run(());
                }
                return;
            }
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        self.nudge(step);
    }
}
