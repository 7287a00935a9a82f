use std::sync::Arc;

use leptos::prelude::*;

use super::state::PhotoState;
use crate::gauge::{Dot, Shown};
use crate::page::dom;
use crate::present::photo::{
    Hold, Mark, Moves, PhotoStands, after_removal, beside, ends_of, held, holds, moved, nearest,
};

/// What says what is held.
pub(super) const SAYS: &str = "photo-moving";
/// The handle of what is held.
pub(super) const HANDLE: &str = "photo-held";

/// Measures and nail holes that are moved by hand. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Moving {
    /// Whether they can be held.
    pub(super) is_on: RwSignal<bool>,
    moves: RwSignal<Moves>,
    /// What was chosen last.
    wanted: RwSignal<Option<Mark>>,
    /// As the gauge found it.
    found: Memo<Option<Arc<Shown>>>,
    /// With what was moved.
    pub(super) shown: Memo<Option<Arc<Shown>>>,
    /// All that can be held, in order.
    pub(super) holds: Memo<Vec<Hold>>,
    /// The one that is held.
    pub(super) held: Memo<Option<Mark>>,
}

impl Moving {
    pub(super) fn new(state: PhotoState) -> Self {
        let moves = RwSignal::new(Moves::default());
        let wanted = RwSignal::new(None);
        let found = Memo::new(move |_| {
            state.last.with(|last| match last.as_ref()? {
                PhotoStands::Measured(shown) => Some(Arc::new(shown.as_ref().clone())),
                _ => None,
            })
        });
        let shown: Memo<Option<Arc<Shown>>> = Memo::new(move |_| {
            let found = found.get()?;
            Some(Arc::new(moves.with(|moves| moved(&found, moves))))
        });
        let holds = Memo::new(move |_| {
            let (Some(found), Some(shown)) = (found.get(), shown.get()) else {
                return Vec::new();
            };
            let pointed = state.pointed.get();
            moves.with(|moves| holds(&found, &shown, moves, pointed))
        });
        // Another photo has none of them.
        Effect::new(move |_| {
            state.chosen.track();
            moves.set(Moves::default());
            wanted.set(None);
        });
        // Whoever points at a measure is about to move it.
        Effect::new(move |_| {
            let row = state.pointed.get();
            let shown = shown.get_untracked();
            let row = row.filter(|row| shown.is_some_and(|shown| ends_of(&shown, *row).is_some()));
            if let Some(row) = row {
                wanted.set(Some(Mark::End { row, end: 0 }));
            }
        });
        Self {
            is_on: RwSignal::new(false),
            moves,
            wanted,
            found,
            shown,
            holds,
            held: Memo::new(move |_| {
                holds.with(|holds| held(holds, wanted.get()).map(|hold| hold.mark))
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

    /// Puts the ends of a measure back.
    pub(super) fn put_back(self, place: usize) {
        self.change(|moves, found| moves.put_back(found, place));
    }

    /// The mark as it stands.
    pub(super) fn hold(self, mark: Mark) -> Option<Hold> {
        let own = |holds: &Vec<Hold>| holds.iter().find(|hold| hold.mark == mark).cloned();
        self.holds.with(own)
    }

    /// Puts a mark there.
    pub(super) fn put(self, mark: Mark, at: Dot) {
        self.change(|moves, found| match mark {
            Mark::End { row, end } => moves.put_end(found, row, end, at),
            Mark::Hole(place) => moves.put_hole(found, place, at),
        });
    }

    /// Holds the mark nearest to a place of the photo.
    pub(super) fn hold_near(self, at: Dot) {
        let mark = self.holds.with_untracked(|holds| nearest(holds, at));
        self.wanted.set(mark);
    }

    /// Holds the next mark, or the one before, and focuses its handle.
    pub(super) fn step(self, is_after: bool) {
        let next = self.held.get_untracked().and_then(|mark| {
            let holds = self.holds.read_untracked();
            beside(&holds, mark, is_after)
        });
        self.wanted.set(next);
        self.focus();
    }

    /// Focuses the handle of what is held.
    fn focus(self) {
        // Where the last mark is gone, what says so stands for it.
        let has_any = self.held.get_untracked().is_some();
        dom::focus_soon(if has_any { HANDLE } else { SAYS });
    }

    /// Adds a nail hole on a branch, `left` or `right`, and holds it.
    pub(super) fn add_hole(self, side: &str) {
        self.change(|moves, found| moves.add_hole(found, side));
        let last = self.found.get_untracked().and_then(|found| {
            let count = self.moves.with_untracked(|moves| moves.holes(&found).len());
            count.checked_sub(1)
        });
        self.wanted.set(last.map(Mark::Hole));
        self.focus();
    }

    /// Takes a nail hole off and holds the next one.
    pub(super) fn remove_hole(self, place: usize) {
        let next = self
            .holds
            .with_untracked(|holds| after_removal(holds, place));
        self.change(|moves, found| moves.remove_hole(found, place));
        self.wanted.set(next);
        self.focus();
    }

    /// Whether a nail hole was moved, removed or added.
    pub(super) fn has_holes(self) -> bool {
        self.moves.with(Moves::has_holes)
    }

    /// Puts all nail holes back.
    pub(super) fn put_holes_back(self) {
        self.change(|moves, _| moves.put_holes_back());
    }
}
