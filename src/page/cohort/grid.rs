use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::{Element, HtmlElement};

use super::medians::Medians;
use crate::cohort::{Column, Standing};
use crate::page::{dom, paths};
use crate::present::cohort::{
    CohortCell, CohortPage, CohortRow, Place, SortBy, order, place, step,
};
use crate::records::LearnerId;

/// How high a row is before one can be measured, as the style sheet has it.
const ROW_PX: i32 = 44;
/// Rows that are there above and below those in view.
const SPARE: usize = 4;
/// Rows in view before the box can be measured.
const IN_VIEW: usize = 8;
/// Name, standing and all marks come before the criteria.
const FIRST_HEADS: [&str; 3] = ["Learner", "Standing", "All marks"];

/// What is scrolled to: the first row in view and how many there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Window {
    first: usize,
    rows: usize,
}

/// What stands where nothing is known yet.
const WAITING: &str = "…";

/// What all parts of the grid share. A copy is a handle.
#[derive(Clone, Copy)]
struct State {
    rows: StoredValue<Arc<Vec<CohortRow>>>,
    medians: Medians,
    last: Place,
    sort: RwSignal<SortBy>,
    order: Memo<Vec<usize>>,
    active: RwSignal<Place>,
    window: RwSignal<Window>,
    row_px: StoredValue<i32>,
    standings: Memo<BTreeMap<LearnerId, Standing>>,
    frame: NodeRef<html::Div>,
}

/// Learners by criterion as a grid with one tab stop; only the rows in view are there.
#[component]
pub(super) fn Grid(
    shown: Memo<CohortPage>,
    medians: Medians,
    standings: Memo<BTreeMap<LearnerId, Standing>>,
) -> impl IntoView {
    let sort = RwSignal::new(SortBy::default());
    move || shown.with(|page| table(page, medians, sort, standings))
}

fn table(
    page: &CohortPage,
    medians: Medians,
    sort: RwSignal<SortBy>,
    standings: Memo<BTreeMap<LearnerId, Standing>>,
) -> AnyView {
    let rows = Arc::new(page.rows.clone());
    let columns = FIRST_HEADS.len() + page.plan.columns.len();
    let sorted = Arc::clone(&rows);
    let is_done = medians.is_done();
    let state = State {
        last: Place {
            row: rows.len(),
            column: columns.saturating_sub(1),
        },
        sort,
        order: Memo::new(move |_| {
            // Rows stay where they are while medians come in, and are sorted once all are there.
            is_done.track();
            let sort = sort.get();
            medians.with_now(|cells| {
                standings.with(|standings| order(&sorted, cells, standings, sort))
            })
        }),
        rows: StoredValue::new(rows),
        medians,
        active: RwSignal::new(Place::default()),
        window: RwSignal::new(Window {
            first: 0,
            rows: IN_VIEW,
        }),
        row_px: StoredValue::new(ROW_PX),
        standings,
        frame: NodeRef::new(),
    };
    state.measures_itself();
    state.tells_what_is_in_view();
    let own = FIRST_HEADS.map(|title| (title.to_owned(), String::new()));
    let criteria = page.plan.columns.iter().cloned();
    let criteria = criteria.map(|Column { name, section, .. }| (name, section));
    let heads = own.into_iter().chain(criteria).enumerate();
    let heads = heads
        .map(|(column, (title, section))| state.head(column, title, section))
        .collect_view();
    view! {
        <section class="part" aria-labelledby="cohort-matrix">
            <h2 id="cohort-matrix">"Learners by criterion"</h2>
            <p class="quiet">
                "Share of the marks, the median of the latest pieces; in brackets how many there are where they are fewer than asked for. Heads sort."
            </p>
            <div class="cohort-frame" node_ref=state.frame on:scroll=move |_| state.scrolled()>
                <table
                    class="cohort"
                    role="grid"
                    aria-labelledby="cohort-matrix"
                    aria-rowcount=(state.last.row + 1).to_string()
                    aria-colcount=columns.to_string()
                    on:keydown=move |event| state.key(&event)
                    on:focusin=move |event| state.focused(&event)
                >
                    <thead><tr role="row" aria-rowindex="1">{heads}</tr></thead>
                    <tbody>
                        {state.gap(columns, true)}
                        <For
                            each=move || state.in_window()
                            key=|key| *key
                            children=move |(at, number)| state.row(at, number)
                        />
                        {state.gap(columns, false)}
                    </tbody>
                </table>
            </div>
        </section>
    }
    .into_any()
}

impl State {
    /// The rows that are there: place from 0 and number.
    fn in_window(self) -> Vec<(usize, usize)> {
        let (from, to) = self.span();
        self.order.with(|order| {
            let rows = order.iter().copied().enumerate();
            rows.skip(from).take(to.saturating_sub(from)).collect()
        })
    }

    fn row_of(self, number: usize) -> Option<CohortRow> {
        self.rows.with_value(|rows| rows.get(number).cloned())
    }

    /// Looks how many rows are in view once they are there, and when the window changes.
    fn measures_itself(self) {
        Effect::new(move |_| {
            if self.frame.get().is_some() {
                self.scrolled();
            }
        });
        let hears = window_event_listener(ev::resize, move |_| self.scrolled());
        on_cleanup(move || hears.remove());
    }

    /// Has the medians of the rows in view worked out first.
    fn tells_what_is_in_view(self) {
        Effect::new(move |_| {
            let Window { first, rows } = self.window.get();
            let there = self.order.with(|order| {
                let in_view = order.iter().skip(first).take(rows);
                let in_view = in_view.filter_map(|number| Some(self.row_of(*number)?.id));
                in_view.collect()
            });
            self.medians.show_first(there);
        });
    }

    /// The places, from 0, of the first row that is there and of the one after the last.
    fn span(self) -> (usize, usize) {
        let Window { first, rows } = self.window.get();
        let from = first.saturating_sub(SPARE).min(self.last.row);
        (from, (first + rows + SPARE).min(self.last.row))
    }

    /// What stands for the rows above or below those that are there.
    fn gap(self, columns: usize, is_above: bool) -> AnyView {
        let height = move || {
            let (from, to) = self.span();
            let rows = if is_above { from } else { self.last.row - to };
            let px = i64::from(self.row_px.get_value());
            i64::try_from(rows).unwrap_or(0).saturating_mul(px)
        };
        // Set by script, which the Content-Security-Policy lets through.
        view! {
            <tr class="gap" aria-hidden="true" role="presentation">
                <td role="presentation" colspan=columns.to_string() style:height=move || format!("{}px", height())></td>
            </tr>
        }
        .into_any()
    }

    fn tab_stop(self, at: Place) -> Signal<&'static str> {
        Signal::derive(move || if self.active.get() == at { "0" } else { "-1" })
    }

    fn head(self, column: usize, title: String, section: String) -> AnyView {
        let at = Place { row: 0, column };
        let sort = self.sort;
        view! {
            <th
                scope="col"
                role="columnheader"
                aria-colindex=(column + 1).to_string()
                aria-sort=move || sort.get().aria(column)
            >
                <button
                    type="button"
                    id=place(at)
                    tabindex=self.tab_stop(at)
                    title=section
                    on:click=move |_| sort.update(|sort| *sort = sort.tapped(column))
                >
                    {title}
                </button>
            </th>
        }
        .into_any()
    }

    fn row(self, at: usize, number: usize) -> AnyView {
        let Some(CohortRow { id, name }) = self.row_of(number) else {
            return ().into_any();
        };
        let row = at + 1;
        let first = Place { row, column: 0 };
        let standing = Place { row, column: 1 };
        let standings = self.standings;
        let word = move || {
            let known = standings.with(|standings| standings.get(&id).copied());
            known.map_or(WAITING, Standing::word)
        };
        let medians = self.medians.of(id);
        let cells = (2..=self.last.column)
            .map(|column| self.cell(Place { row, column }, medians))
            .collect_view();
        view! {
            <tr role="row" aria-rowindex=(row + 1).to_string()>
                <th scope="row" role="rowheader" aria-colindex="1">
                    <a id=place(first) tabindex=self.tab_stop(first) href=paths::learner(id)><bdi>{name}</bdi></a>
                </th>
                <td role="gridcell" aria-colindex="2" id=place(standing) tabindex=self.tab_stop(standing)>{word}</td>
                {cells}
            </tr>
        }
        .into_any()
    }

    fn cell(self, at: Place, medians: Memo<Option<Vec<CohortCell>>>) -> AnyView {
        let shown = move || {
            let cell = medians.with(|cells| cells.as_ref()?.get(at.column - 2).cloned());
            let Some(CohortCell { band, words, .. }) = cell else {
                return WAITING.into_any();
            };
            let band = band.map(|band| {
                view! { <span class="band" data-band=band.to_string() aria-hidden="true"></span> " " }
            });
            view! { {band} {words} }.into_any()
        };
        view! {
            <td
                role="gridcell"
                aria-colindex=(at.column + 1).to_string()
                id=place(at)
                tabindex=self.tab_stop(at)
            >
                {shown}
            </td>
        }
        .into_any()
    }

    fn scrolled(self) {
        let frame = self.frame.get_untracked();
        // It has no height before it is laid out.
        let Some(frame) = frame.filter(|frame| frame.client_height() > 0) else {
            return;
        };
        let measured = frame
            .query_selector("tbody tr[aria-rowindex]")
            .ok()
            .flatten();
        let measured = measured.and_then(|row| row.dyn_into::<HtmlElement>().ok());
        let px = measured.map_or(ROW_PX, |row| row.offset_height()).max(1);
        self.row_px.set_value(px);
        let rows = |px_high: i32| usize::try_from(px_high / px).unwrap_or(0);
        let window = Window {
            first: rows(frame.scroll_top()),
            rows: rows(frame.client_height()) + 1,
        };
        if self.window.get_untracked() != window {
            self.window.set(window);
        }
        // The tab stop stays among the rows that are there.
        let (from, to) = untrack(|| self.span());
        let at = self.active.get_untracked();
        if at.row > 0 && !(from + 1..=to).contains(&at.row) {
            let row = (window.first + 1).min(self.last.row);
            self.active.set(Place { row, ..at });
        }
    }

    fn key(self, event: &ev::KeyboardEvent) {
        if event.alt_key() || event.shift_key() {
            return;
        }
        let has_control = event.ctrl_key() || event.meta_key();
        let at = self.active.get_untracked();
        let page = self.window.get_untracked().rows.saturating_sub(2);
        let Some(to) = step(&event.key(), has_control, at, self.last, page) else {
            return;
        };
        event.prevent_default();
        self.active.set(to);
        let (from, end) = untrack(|| self.span());
        if to.row > 0 && !(from + 1..=end).contains(&to.row) {
            self.window.update(|window| window.first = to.row - 1);
        }
        // Focus scrolls it into view.
        dom::focus_soon_at(place(to));
    }

    fn focused(self, event: &ev::FocusEvent) {
        let target = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok());
        let at = target.and_then(|target| Place::from_id(&target.id()));
        let moved = at.filter(|at| self.active.get_untracked() != *at);
        if let Some(at) = moved {
            self.active.set(at);
        }
    }
}
