use leptos::ev;
use leptos::prelude::*;

use super::edging::Edging;
use super::handle::{Handle, place_of};
use super::moving::{HANDLE, Moving, SAYS};
use super::viewer::heard_by;
use crate::page::widgets::PushButton;
use crate::present::photo::{Hold, Mark, Tap};

/// All that can be held as marks over a picture of so many columns and rows, and a handle on the
/// one that is: neighbours lie too near each other for a finger.
pub(super) fn marks(moving: Moving, size: (usize, usize)) -> AnyView {
    let (columns, rows) = size;
    let mark = move |hold: Hold| {
        let share = |at: f64, all: usize| format!("{:.3}%", (at + 0.5) / all as f64 * 100.0);
        view! {
            <span
                class="photo-mark"
                aria-hidden="true"
                data-mark=hold.mark.kind()
                style:left=share(hold.at.0, columns)
                style:top=share(hold.at.1, rows)
            ></span>
        }
    };
    let marks = move || {
        let holds = moving.holds.get().into_iter();
        holds.map(mark).collect_view()
    };
    // A handle that is dragged stays the same while its place changes.
    let handle = move || {
        let mark = moving.held.get();
        mark.map(|mark| handle(moving, size, mark).view())
    };
    view! {
        {marks}
        {handle}
    }
    .into_any()
}

fn handle(moving: Moving, size: (usize, usize), mark: Mark) -> Handle {
    let keys = match mark {
        Mark::End { .. } => "arrow keys move it by a pixel, with shift by ten",
        Mark::Hole(_) => "arrow keys move it by a pixel, with shift by ten, Delete removes it",
    };
    let hold = move || moving.hold(mark);
    Handle {
        size,
        kind: mark.kind(),
        id: Signal::stored(Some(HANDLE)),
        label: Signal::derive(move || {
            let name = hold().map(|hold| hold.name).unwrap_or_default();
            format!("{name}; {keys}")
        }),
        at: Signal::derive(move || hold().map(|hold| hold.at).unwrap_or_default()),
        put: Callback::new(move |at| moving.put(mark, at)),
        done: Callback::new(|()| {}),
        remove: mark
            .hole()
            .map(|place| Callback::new(move |()| moving.remove_hole(place))),
    }
}

/// Hears taps on a picture of so many columns and rows: each puts a point on the edge, or holds
/// the mark that is nearest.
#[derive(Clone, Copy)]
pub(super) struct Taps {
    moving: Moving,
    edging: Edging,
    size: (usize, usize),
    tap: StoredValue<Tap>,
}

impl Taps {
    pub(super) fn new(moving: Moving, edging: Edging, size: (usize, usize)) -> Self {
        let tap = StoredValue::new(Tap::default());
        Self {
            moving,
            edging,
            size,
            tap,
        }
    }

    pub(super) fn down(self, event: &ev::PointerEvent) {
        let is_first = event.is_primary() && event.button() == 0;
        self.tap
            .update_value(|tap| tap.down(event.pointer_id(), is_first, seen_at(event)));
    }

    pub(super) fn up(self, event: &ev::PointerEvent) {
        let is_tap = self
            .tap
            .try_update_value(|tap| tap.up(event.pointer_id(), seen_at(event)))
            .unwrap_or(false);
        let plane = heard_by(event).filter(|_| is_tap);
        let Some(at) = plane.map(|plane| place_of(event, &plane, self.size)) else {
            return;
        };
        if untrack(|| self.edging.is_on()) {
            self.edging.add(at);
        } else if self.moving.is_on.get_untracked() {
            self.moving.hold_near(at);
        }
    }

    pub(super) fn over(self) {
        self.tap.update_value(Tap::over);
    }
}

fn seen_at(event: &ev::PointerEvent) -> (f64, f64) {
    (f64::from(event.client_x()), f64::from(event.client_y()))
}

/// What is held and what may be done to it beside moving.
pub(super) fn tools(moving: Moving) -> AnyView {
    let add = |words: &'static str, side: &'static str| {
        PushButton::plain(words, move || moving.add_hole(side)).view()
    };
    let has_several = Signal::derive(move || moving.holds.with(Vec::len) > 1);
    let step = |words: &'static str, is_after: bool| {
        let button = PushButton {
            enabled: has_several,
            ..PushButton::plain(words, move || moving.step(is_after))
        };
        button.view()
    };
    let hole = move || moving.held.get().and_then(Mark::hole);
    let remove = PushButton {
        enabled: Signal::derive(move || hole().is_some()),
        ..PushButton::plain("Remove the hole held", move || {
            if let Some(place) = untrack(hole) {
                moving.remove_hole(place);
            }
        })
    };
    let holes_back = PushButton {
        enabled: Signal::derive(move || moving.has_holes()),
        ..PushButton::plain("Put holes back", move || moving.put_holes_back())
    };
    let says = move || {
        let hold = moving.held.get().and_then(|mark| moving.hold(mark));
        match hold {
            Some(hold) => format!("Held: {}.", hold.name),
            None => "Nothing to hold yet.".to_owned(),
        }
    };
    view! {
        <p id=SAYS tabindex="-1" role="status">{says}</p>
        <div class="actions" role="group" aria-label="What is held">
            {step("Previous", false)}
            {step("Next", true)}
        </div>
        <p class="hint">
            "Drag it, or move it with the arrow keys. Tap the photo near another mark to hold that one. To move the ends of a measure point at it in the list below: a width, a length, a web, a chord or a gap."
        </p>
        <div class="actions" role="group" aria-label="Nail holes">
            {add("Add a hole on the left", "left")}
            {add("Add a hole on the right", "right")}
            {remove.view()}
            {holes_back.view()}
        </div>
    }
    .into_any()
}
