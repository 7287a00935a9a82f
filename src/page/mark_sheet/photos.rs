use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;
use crate::page::widgets::{PictureField, PushButton, TextBox, never_wrong, picture};
use crate::present::mark_sheet::{PhotoRow, photo_note, photo_rows};
use crate::present::pictures::PHOTO_PIXELS;
use crate::records::Photo;

/// Photos of the piece.
pub(super) fn photos() -> AnyView {
    let sheet = SheetState::here();
    let rows = Memo::new(move |_| sheet.of_record(photo_rows));
    let add = PictureField {
        id: "add-photo".to_owned(),
        label: "Add a photo",
        hint: "The whole shoe, and what cost marks. It is made smaller, and where it was taken is left out. It goes on the sheet and under the seal.",
        longest: PHOTO_PIXELS,
        kept: Callback::new(move |picture: String| {
            let photo = Photo {
                picture,
                note: String::new(),
            };
            sheet.edit("photos", Edit::AddPhoto { photo });
        }),
    };
    view! {
        <section class="part stack" aria-labelledby="p-photos">
            <h2 id="p-photos">"Photos"</h2>
            <div class="figures">
                {move || rows.get().into_iter().map(|row| photo(sheet, row)).collect_view()}
            </div>
            {add.view()}
        </section>
    }
    .into_any()
}

fn photo(sheet: SheetState, row: PhotoRow) -> AnyView {
    let PhotoRow {
        picture: digest,
        dom,
        name,
        note_label,
        off,
    } = row;
    let place = format!("note-{digest}");
    let note = TextBox {
        id: dom,
        label: note_label,
        hint: "",
        lines: 1,
        value: {
            let digest = digest.clone();
            Memo::new(move |_| sheet.of_record(|record| photo_note(record, &digest))).into()
        },
        wrong: never_wrong(),
        typed: {
            let picture = digest.clone();
            Callback::new(move |note: String| {
                let picture = picture.clone();
                sheet.edit(&place, Edit::SetPhotoNote { picture, note });
            })
        },
    };
    let off = {
        let picture = digest.clone();
        PushButton::plain(off, move || {
            let picture = picture.clone();
            sheet.edit("photos", Edit::RemovePhoto { picture });
        })
    };
    view! {
        <figure class="stack">
            {picture(digest, name)}
            {note.view()}
            {PushButton { kind: Some("quiet"), ..off }.view()}
        </figure>
    }
    .into_any()
}
