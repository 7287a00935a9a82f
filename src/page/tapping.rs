//! A tap with what the clocks show: the device's, which may be set, and the page's own, which
//! no one can set.

use std::cell::OnceCell;

use leptos::prelude::*;
use num_traits::AsPrimitive as _;

use super::clock;
use crate::marking::heat_log::{Run, Tap, What};
use crate::records::Moment;

thread_local! {
    /// This page's life; `None` where the browser gives no chance to draw one from.
    static PAGE: OnceCell<Option<u32>> = const { OnceCell::new() };
}

/// `what` as it is tapped now.
pub(crate) fn tap(what: What) -> Tap {
    let (at, run) = clocks();
    Tap { at, run, what }
}

/// What both clocks show now; without the page's own where the browser has none.
pub(crate) fn clocks() -> (Moment, Option<Run>) {
    (clock::now(), run())
}

fn run() -> Option<Run> {
    let page = PAGE.with(|page| *page.get_or_init(|| clock::random().map(u32::from_be_bytes)))?;
    let ms = window().performance()?.now();
    Some(Run {
        page,
        ms: ms.max(0.0).as_(),
    })
}

/// What both clocks show, anew each second while the page that calls this is open.
pub(crate) fn ticking() -> ReadSignal<(Moment, Option<Run>)> {
    let (shown, show) = signal(clocks());
    let tick = move || show.set(clocks());
    if let Ok(ticks) = set_interval_with_handle(tick, std::time::Duration::from_secs(1)) {
        on_cleanup(move || ticks.clear());
    }
    shown
}
