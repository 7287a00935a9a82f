use leptos::prelude::*;

use super::handle::Handle;
use super::state::PhotoState;
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

    fn put(self, place: usize, at: Dot) {
        let mut corners = untrack(|| self.all());
        if let Some(corner) = corners.get_mut(place) {
            *corner = at;
        }
        self.state.corners.set(Some(corners));
    }
}

/// A handle on each corner: dragged, or moved by arrow keys; then all is measured anew.
pub(super) fn handles(corners: Corners) -> AnyView {
    (0..4)
        .map(|place| handle(corners, place).view())
        .collect::<Vec<AnyView>>()
        .into_any()
}

fn handle(corners: Corners, place: usize) -> Handle {
    let label = format!(
        "Corner {} of the sheet; arrow keys move it by a pixel, with shift by ten",
        place + 1
    );
    Handle {
        size: corners.size,
        kind: "corner",
        label: Signal::stored(label),
        at: Signal::derive(move || corners.all().get(place).copied().unwrap_or_default()),
        put: Callback::new(move |at| corners.put(place, at)),
        done: Callback::new(move |()| corners.state.measure()),
        held: Callback::new(|()| {}),
        remove: None,
    }
}
