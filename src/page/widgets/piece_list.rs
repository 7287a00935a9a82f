use leptos::prelude::*;

use crate::page::paths;
use crate::present::{Leads, NextStep, PieceRow};

/// Pieces, each a link to its sheet or, where it is not sealed, its mark sheet; one whose
/// sheet is held back leads nowhere.
#[component]
pub(crate) fn PieceList(rows: Memo<Vec<PieceRow>>) -> impl IntoView {
    let rows = move || {
        rows.get()
            .into_iter()
            .map(|row| piece_row(row, None))
            .collect_view()
    };
    view! { <ul class="pieces">{rows}</ul> }
}

/// One of them, with `foot` under it.
pub(crate) fn piece_row(row: PieceRow, foot: Option<AnyView>) -> AnyView {
    let href = match (row.leads, row.sealed, row.draft) {
        (Leads::Nowhere, ..) => None,
        (Leads::Own(own), ..) => Some(paths::sheet_of(row.piece, own)),
        (Leads::Piece, true, _) => Some(paths::sheet(row.piece)),
        (Leads::Piece, false, None) => Some(paths::piece(row.piece)),
        (Leads::Piece, false, Some(marking)) => Some(paths::marking(row.piece, marking)),
    };
    let next = row.next.map(|step| {
        let href = match step {
            NextStep::Mark(role) => paths::again_as(row.piece, role),
            NextStep::Agree => paths::agree(row.piece),
        };
        view! { <p class="next"><a class="button" href=href>{step.words()}</a></p> }
    });
    let title = match href {
        Some(href) => view! { <a href=href>{row.title}</a> }.into_any(),
        None => view! { <p class="title">{row.title}</p> }.into_any(),
    };
    let foot = foot.map(|foot| view! { <div class="next">{foot}</div> });
    view! {
        <li class="piece">
            {title}
            <p>{row.about}</p>
            <p class="now">{row.now}</p>
            <MarksFigure marks=row.marks />
            {next}
            {foot}
        </li>
    }
    .into_any()
}

/// Marks as a large figure, and how many they are of.
#[component]
pub(crate) fn MarksFigure(marks: Option<(String, String)>) -> impl IntoView {
    marks.map(|(marks, out_of)| view! { <p class="marks"><b>{marks}</b> " of " {out_of}</p> })
}
