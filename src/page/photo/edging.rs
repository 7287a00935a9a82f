use leptos::prelude::*;

use super::handle::Handle;
use super::moving::Moving;
use super::state::PhotoState;
use crate::gauge::Dot;
use crate::page::dom;
use crate::page::widgets::PushButton;
use crate::present::photo::{doubtful_path, edge_point_name, next_edge_point};

/// What says which point is held.
const SAYS: &str = "photo-edge";
/// The handle of that point.
const HANDLE: &str = "photo-edge-held";

/// Places of the edge that are put right by hand, over a picture of so many columns and rows. A
/// copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Edging {
    state: PhotoState,
    moving: Moving,
    size: (usize, usize),
    /// The point that was touched last.
    wanted: RwSignal<Option<usize>>,
}

impl Edging {
    pub(super) fn new(state: PhotoState, moving: Moving, size: (usize, usize)) -> Self {
        Self {
            state,
            moving,
            size,
            wanted: RwSignal::new(None),
        }
    }

    /// Whether points can be put: of a drawn outline there are none.
    pub(super) fn is_on(self) -> bool {
        self.state.edging.get() && !self.state.is_drawn()
    }

    fn count(self) -> usize {
        self.state.edge_points.with(Vec::len)
    }

    fn held(self) -> Option<usize> {
        self.wanted.get().filter(|place| *place < self.count())
    }

    /// Puts one more point there and measures anew.
    pub(super) fn add(self, at: Dot) {
        self.wanted.set(Some(untrack(|| self.count())));
        self.state.edge_points.update(|points| points.push(at));
        self.state.measure_if_changed();
    }

    /// Puts one where the edge is most in doubt and focuses it.
    fn add_by_key(self) {
        let shown = self.moving.shown.get_untracked();
        let points = self.state.edge_points.get_untracked();
        self.add(next_edge_point(shown.as_deref(), self.size, &points));
        dom::focus_soon(HANDLE);
    }

    fn put(self, place: usize, at: Dot) {
        self.wanted.set(Some(place));
        self.state.edge_points.update(|points| {
            if let Some(point) = points.get_mut(place) {
                *point = at;
            }
        });
    }

    fn remove(self, place: usize) {
        self.state.edge_points.update(|points| {
            if place < points.len() {
                points.remove(place);
            }
        });
        let last = untrack(|| self.count()).checked_sub(1);
        self.wanted.set(last.map(|last| place.min(last)));
        self.state.measure_if_changed();
        // Where the last point is gone, what says so stands for it.
        dom::focus_soon(if last.is_some() { HANDLE } else { SAYS });
    }

    fn put_all_back(self) {
        self.state.edge_points.set(Vec::new());
        self.wanted.set(None);
        self.state.measure_if_changed();
        dom::focus_soon(SAYS);
    }

    fn handle(self, place: usize) -> Handle {
        let points = self.state.edge_points;
        let at = move || points.with(|points| points.get(place).copied());
        Handle {
            size: self.size,
            kind: "edge",
            id: Signal::derive(move || (self.held() == Some(place)).then_some(HANDLE)),
            label: Signal::derive(move || {
                let name = edge_point_name(place, self.count());
                format!(
                    "{name}; arrow keys move it by a pixel, with shift by ten, Delete removes it"
                )
            }),
            at: Signal::derive(move || at().unwrap_or_default()),
            put: Callback::new(move |at| self.put(place, at)),
            done: Callback::new(move |()| {
                self.wanted.set(Some(place));
                self.state.measure_if_changed();
            }),
            remove: Some(Callback::new(move |()| self.remove(place))),
        }
    }
}

/// The points, each a handle, and where the edge is in doubt.
pub(super) fn points(edging: Edging) -> AnyView {
    let (columns, rows) = edging.size;
    let doubtful = move || {
        let shown = edging.moving.shown.get();
        shown.map(|shown| doubtful_path(&shown)).unwrap_or_default()
    };
    // A handle that is dragged stays the same while its place changes.
    let count = Memo::new(move |_| edging.count());
    view! {
        <svg viewBox=format!("-0.5 -0.5 {columns} {rows}") aria-hidden="true">
            <path class="unclear" d=doubtful />
        </svg>
        <For each=move || 0..count.get() key=|place| *place let(place)>
            {edging.handle(place).view()}
        </For>
    }
    .into_any()
}

/// What may be done to the points beside moving them.
pub(super) fn tools(edging: Edging) -> AnyView {
    let says = move || match edging.held() {
        Some(place) => format!("Held: {}.", edge_point_name(place, edging.count())),
        None => format!("Points on the edge: {}.", edging.count()),
    };
    let add = PushButton::plain("Add a point to the edge", move || edging.add_by_key());
    let remove = PushButton {
        enabled: Signal::derive(move || edging.held().is_some()),
        ..PushButton::plain("Remove the point held", move || {
            if let Some(place) = untrack(|| edging.held()) {
                edging.remove(place);
            }
        })
    };
    let back = PushButton {
        enabled: Signal::derive(move || edging.count() > 0),
        ..PushButton::plain("Put all back", move || edging.put_all_back())
    };
    view! {
        <p id=SAYS tabindex="-1" role="status">{says}</p>
        <p class="hint">
            "Put a point where the edge should be, and all measures follow: tap the photo there, drag a point, or move it with the arrow keys. Between two points less than 25 mm apart the edge runs from one to the other. Where it is in doubt, a thick line is drawn."
        </p>
        <div class="actions" role="group" aria-label="Points on the edge">
            {add.view()} {remove.view()} {back.view()}
        </div>
    }
    .into_any()
}
