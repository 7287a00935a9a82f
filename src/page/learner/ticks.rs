use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::page::widgets::{Tile, TileKind, tile_words};

/// One of several to tick; all are in until somebody leaves one out.
pub(super) fn tick<Id: Copy + Ord + Send + Sync + 'static>(
    id: Id,
    left_out: RwSignal<BTreeSet<Id>>,
    title: String,
    about: String,
) -> AnyView {
    Tile {
        kind: TileKind::Check,
        class: "tile",
        checked: Signal::derive(move || left_out.with(|left_out| !left_out.contains(&id))),
        chosen: Callback::new(move |is_in: bool| {
            left_out.update(|left_out| {
                if is_in {
                    left_out.remove(&id);
                } else {
                    left_out.insert(id);
                }
            });
        }),
        inside: tile_words(title, about),
    }
    .view()
}
