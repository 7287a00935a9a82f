use leptos::prelude::*;

use crate::page::paths;
use crate::present::{NextStep, PieceRow};

/// Pieces, each a link to its sheet or, where it is not sealed, its mark sheet.
#[component]
pub(crate) fn PieceList(rows: Memo<Vec<PieceRow>>) -> impl IntoView {
    let rows = move || rows.get().into_iter().map(row).collect_view();
    view! { <ul class="pieces">{rows}</ul> }
}

fn row(row: PieceRow) -> impl IntoView {
    let href = match (row.sealed, row.draft) {
        (true, _) => paths::sheet(row.piece),
        (false, None) => paths::piece(row.piece),
        (false, Some(marking)) => paths::marking(row.piece, marking),
    };
    let next = row.next.map(|step| {
        let href = match step {
            NextStep::Mark(role) => paths::again_as(row.piece, role),
            NextStep::Agree => paths::agree(row.piece),
        };
        view! { <p class="next"><a class="button" href=href>{step.words()}</a></p> }
    });
    view! {
        <li class="piece">
            <a href=href>{row.title}</a>
            <p>{row.about}</p>
            <p class="now">{row.now}</p>
            <MarksFigure marks=row.marks />
            {next}
        </li>
    }
}

/// Marks as a large figure, and how many they are of.
#[component]
pub(crate) fn MarksFigure(marks: Option<(String, String)>) -> impl IntoView {
    marks.map(|(marks, out_of)| view! { <p class="marks"><b>{marks}</b> " of " {out_of}</p> })
}
