use std::sync::Arc;

use leptos::prelude::*;

use super::handle::Handle;
use super::state::PhotoState;
use crate::gauge::{Dot, Shown};
use crate::page::dom;
use crate::page::widgets::PushButton;
use crate::present::photo::{Moves, PhotoStands, ends_of, hole_rows, moved};

/// What says what may be moved.
const SAYS: &str = "photo-moving";

/// Measures and nail holes that are moved by hand. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Moving {
    state: PhotoState,
    /// Whether they have handles.
    pub(super) is_on: RwSignal<bool>,
    moves: RwSignal<Moves>,
    /// The nail hole whose handle was held last.
    held: RwSignal<Option<usize>>,
    /// As the gauge found it.
    found: Memo<Option<Arc<Shown>>>,
    /// With what was moved.
    pub(super) shown: Memo<Option<Arc<Shown>>>,
}

impl Moving {
    pub(super) fn new(state: PhotoState) -> Self {
        let moves = RwSignal::new(Moves::default());
        let held = RwSignal::new(None);
        let found = Memo::new(move |_| {
            state.last.with(|last| match last.as_ref()? {
                PhotoStands::Measured(shown) => Some(Arc::new(shown.as_ref().clone())),
                _ => None,
            })
        });
        // Another photo has none of them.
        Effect::new(move |_| {
            state.chosen.track();
            moves.set(Moves::default());
            held.set(None);
        });
        Self {
            state,
            is_on: RwSignal::new(false),
            moves,
            held,
            found,
            shown: Memo::new(move |_| {
                let found = found.get()?;
                Some(Arc::new(moves.with(|moves| moved(&found, moves))))
            }),
        }
    }

    /// As the gauge found it.
    pub(super) fn found(self) -> Option<Arc<Shown>> {
        self.found.get()
    }

    /// What was moved, for the note of the photo.
    pub(super) fn note(self) -> String {
        self.moves.with_untracked(Moves::note)
    }

    fn change(self, change: impl FnOnce(&mut Moves, &Shown)) {
        if let Some(found) = self.found.get_untracked() {
            self.moves.update(|moves| change(moves, &found));
        }
    }

    /// The measure that is pointed at, where it can be moved.
    fn pointed(self) -> Option<usize> {
        let place = self.state.pointed.get()?;
        let shown = self.shown.get()?;
        ends_of(&shown, place).map(|_| place)
    }

    /// Puts the ends of a measure back.
    pub(super) fn put_back(self, place: usize) {
        self.change(|moves, found| moves.put_back(found, place));
    }

    fn hole_at(self, place: usize) -> Dot {
        let found = self.found.get();
        let holes = found.map(|found| self.moves.with(|moves| moves.holes(&found)));
        let hole = holes.and_then(|holes| holes.get(place).copied());
        hole.map_or((0.0, 0.0), |hole| hole.at)
    }

    fn hole_count(self) -> usize {
        let found = self.found.get();
        found.map_or(0, |found| {
            self.moves.with(|moves| moves.holes(&found).len())
        })
    }

    fn remove_hole(self, place: usize) {
        self.change(|moves, found| moves.remove_hole(found, place));
        self.held.set(None);
        // The handle that had the focus is gone.
        dom::focus_soon(SAYS);
    }

    /// What the nail hole of a handle is called: its place in the table.
    fn hole_name(self, place: usize) -> String {
        let (x, y) = self.hole_at(place);
        let name = self.shown.get().and_then(|shown| {
            let near = |at: Dot| (at.0 - x).abs() < 0.02 && (at.1 - y).abs() < 0.02;
            let row = shown.holes.iter().position(|hole| near(hole.at))?;
            hole_rows(&shown).into_iter().nth(row)
        });
        name.map_or_else(|| "off the steel".to_owned(), |row| row.name)
    }
}

/// Handles on the ends of the measure that is pointed at, and on the nail holes, in a picture of
/// so many columns and rows.
pub(super) fn handles(moving: Moving, size: (usize, usize)) -> AnyView {
    // A handle that is dragged stays the same while its place changes.
    let pointed = Memo::new(move |_| moving.pointed());
    let count = Memo::new(move |_| moving.hole_count());
    let ends = move || {
        let place = pointed.get()?;
        Some([0, 1].map(|end| end_handle(moving, size, place, end).view()))
    };
    let holes = move || {
        let each = (0..count.get()).map(|place| hole_handle(moving, size, place).view());
        each.collect::<Vec<AnyView>>()
    };
    view! {
        {move || ends().map(|ends| ends.into_iter().collect::<Vec<AnyView>>())}
        {holes}
    }
    .into_any()
}

fn end_handle(moving: Moving, size: (usize, usize), place: usize, end: usize) -> Handle {
    let which = ["first", "second"].get(end).copied().unwrap_or_default();
    let at = move || {
        let ends = ends_of(moving.shown.get()?.as_ref(), place)?;
        ends.get(end).copied()
    };
    Handle {
        size,
        kind: "end",
        label: Signal::stored(format!(
            "The {which} end of the measure; arrow keys move it by a pixel, with shift by ten"
        )),
        at: Signal::derive(move || at().unwrap_or_default()),
        put: Callback::new(move |at| {
            moving.change(|moves, found| moves.put_end(found, place, end, at));
        }),
        done: Callback::new(|()| {}),
        held: Callback::new(|()| {}),
        remove: None,
    }
}

fn hole_handle(moving: Moving, size: (usize, usize), place: usize) -> Handle {
    Handle {
        size,
        kind: "hole",
        label: Signal::derive(move || {
            format!(
                "Nail hole, {}; arrow keys move it by a pixel, with shift by ten, Delete removes it",
                moving.hole_name(place)
            )
        }),
        at: Signal::derive(move || moving.hole_at(place)),
        put: Callback::new(move |at| {
            moving.change(|moves, found| moves.put_hole(found, place, at));
        }),
        done: Callback::new(|()| {}),
        held: Callback::new(move |()| moving.held.set(Some(place))),
        remove: Some(Callback::new(move |()| moving.remove_hole(place))),
    }
}

/// What may be done to them beside moving.
pub(super) fn tools(moving: Moving) -> AnyView {
    let add = |words: &'static str, side: &'static str| {
        PushButton::plain(words, move || {
            moving.change(|moves, found| moves.add_hole(found, side));
        })
        .view()
    };
    let remove = PushButton {
        enabled: Signal::derive(move || moving.held.get().is_some()),
        ..PushButton::plain("Remove the hole held last", move || {
            if let Some(place) = moving.held.get_untracked() {
                moving.remove_hole(place);
            }
        })
    };
    let holes_back = PushButton {
        enabled: Signal::derive(move || moving.moves.with(Moves::has_holes)),
        ..PushButton::plain("Put holes back", move || {
            moving.change(|moves, _| moves.put_holes_back());
            moving.held.set(None);
        })
    };
    let says = move || {
        if moving.pointed().is_some() {
            "Drag the ends of the measure, or move them with the arrow keys."
        } else {
            "Point at a measure in the list below to move its ends: a width, a length, a web, a chord or a gap."
        }
    };
    view! {
        <p class="hint" id=SAYS tabindex="-1" role="status">{says}</p>
        <div class="actions" role="group" aria-label="Nail holes">
            {add("Add a hole on the left", "left")}
            {add("Add a hole on the right", "right")}
            {remove.view()}
            {holes_back.view()}
        </div>
    }
    .into_any()
}
