use leptos::prelude::*;

use super::handle::Handle;
use super::state::PhotoState;
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

    fn put(self, place: usize, at: Dot) {
        let all = untrack(|| self.all());
        // Of a sheet the other corners stay where they were found; a mark on a ruler is one only
        // once somebody has placed it.
        let rest: Vec<Option<Dot>> = if self.state.way.get_untracked().needs_marks() {
            let marks = self.state.marks.get_untracked();
            let marks = marks.into_iter().chain(std::iter::repeat(None));
            marks.take(all.len()).collect()
        } else {
            all.into_iter().map(Some).collect()
        };
        let marks = rest.into_iter().enumerate();
        let marks = marks.map(|(one, mark)| if one == place { Some(at) } else { mark });
        self.state.marks.set(marks.collect());
    }
}

/// A handle on each place: dragged, or moved by arrow keys; then all is measured anew.
pub(super) fn handles(corners: Corners) -> AnyView {
    let all = move || {
        let names = corners.state.way.get().places().into_iter().enumerate();
        names
            .map(|(place, name)| handle(corners, place, &name).view())
            .collect::<Vec<AnyView>>()
    };
    all.into_any()
}

fn handle(corners: Corners, place: usize, name: &str) -> Handle {
    let label = format!("{name}; arrow keys move it by a pixel, with shift by ten");
    Handle {
        size: corners.size,
        kind: "corner",
        id: Signal::stored(None),
        label: Signal::stored(label),
        at: Signal::derive(move || corners.all().get(place).copied().unwrap_or_default()),
        put: Callback::new(move |at| corners.put(place, at)),
        done: Callback::new(move |()| corners.state.measure_if_changed()),
        remove: None,
    }
}
