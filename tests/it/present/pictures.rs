use evenshod::command::Command;
use evenshod::present::mark_sheet::{Order, RowForm, photo_note, photo_rows, plan};
use evenshod::present::pictures::{
    PHOTO_PIXELS, fitted, kept_picture, not_opened, too_heavy, unused_words,
};
use evenshod::records::{Ledger, Unit, sha256_hex};
use evenshod::rubric::{read_rubric, shipped};
use evenshod::sheet::{Block, rubric_document};
use proptest::prelude::*;

use crate::records::sample::{after, full_ledger, jpeg, keep, photos, stamp};

#[test]
fn a_picture_is_made_smaller_alike_and_never_larger() {
    for (from, to) in [
        ((4032, 3024), (1800, 1350)),
        ((3024, 4032), (1350, 1800)),
        ((1800, 10), (1800, 10)),
        ((640, 480), (640, 480)),
        ((20_000, 1), (1800, 1)),
        ((0, 0), (1, 1)),
    ] {
        assert_eq!(fitted(from.0, from.1, PHOTO_PIXELS), to, "{from:?}");
    }
}

proptest! {
    #[test]
    fn sides_fit_and_keep_their_ratio(width: u32, height: u32, longest in 1u32..5000) {
        let (w, h) = fitted(width, height, longest);
        prop_assert!(w >= 1 && h >= 1 && w.max(h) <= longest.max(1));
        let most = f64::from(width.max(height).max(1));
        let scale = f64::from(w.max(h)) / most;
        prop_assert!((f64::from(h) - f64::from(height) * scale).abs() <= 1.0);
        prop_assert!((f64::from(w) - f64::from(width) * scale).abs() <= 1.0);
    }
}

#[test]
fn what_is_wrong_with_a_file_is_said_with_what_to_do() {
    assert_eq!(too_heavy(60_000_000), None);
    assert_eq!(
        too_heavy(61_500_000).unwrap(),
        "The file has 61 MB, and a picture may have 60. Choose a smaller one."
    );
    assert_eq!(
        not_opened("notes.txt", ""),
        "notes.txt is no picture that this browser can open. Choose a JPEG, PNG or WebP, or save \
         it as JPEG first."
    );
    assert!(not_opened("a.heic", "decode failed").contains("open (decode failed)."));
}

#[test]
fn the_command_and_its_digest_are_of_the_same_bytes() {
    let (digest, command) = kept_picture(jpeg(7));
    assert_eq!(digest, sha256_hex(&jpeg(7)));
    assert_eq!(command, keep(&jpeg(7)));
    let ledger = after(&Ledger::default(), command, &stamp(1)).0;
    assert!(ledger.picture(&digest).is_some());
}

#[test]
fn unused_pictures_are_counted_in_words() {
    let mut ledger = Ledger::default();
    assert_eq!(unused_words(&ledger), None);
    ledger = after(&ledger, keep(&jpeg(1)), &stamp(1)).0;
    let one = "1 picture is named by no rubric and no marking any more.";
    assert_eq!(unused_words(&ledger).unwrap(), one);
    ledger = after(&ledger, keep(&jpeg(2)), &stamp(2)).0;
    assert!(
        unused_words(&ledger)
            .unwrap()
            .starts_with("2 pictures are named")
    );
    ledger = after(&ledger, Command::DropUnusedPictures, &stamp(3)).0;
    assert_eq!(unused_words(&ledger), None);
}

#[test]
fn photos_of_a_marking_are_rows_with_their_notes() {
    let ledger = full_ledger();
    let marking = ledger.drafts().next().unwrap();
    let rows = photo_rows(marking);
    let names: Vec<_> = rows.iter().map(|row| (&*row.dom, &*row.name)).collect();
    assert_eq!(names, [("photo-1", "Photo 1"), ("photo-2", "Photo 2")]);
    assert_eq!(rows[0].picture, photos()[0].picture);
    assert_eq!(
        photo_note(marking, &rows[0].picture),
        "ground side, the bar"
    );
    assert_eq!(photo_note(marking, &rows[1].picture), "");
    assert_eq!(photo_note(marking, "nowhere"), "");
}

/// In the tile, and in the rubric as people read it.
#[test]
fn a_level_shows_its_photo() {
    let digest = sha256_hex(&jpeg(1));
    let own = "apprentice-self-check.toml";
    let text = shipped()
        .iter()
        .find(|shipped| shipped.file == own)
        .unwrap()
        .text;
    let level = "[[sections.criteria.levels]]";
    let text = text.replacen(level, &format!("{level}\nphoto = \"{digest}\""), 1);
    let rubric = read_rubric(&text).rubric.unwrap();
    let rows = plan(&rubric, Order::Rubric)
        .into_iter()
        .flat_map(|part| part.rows);
    let photos: Vec<_> = rows
        .filter_map(|row| match row.form {
            RowForm::Levels(tiles) => Some(tiles),
            _ => None,
        })
        .flatten()
        .filter_map(|tile| Some(tile.photo?.digest))
        .collect();
    assert_eq!(photos, std::slice::from_ref(&digest));
    let document = rubric_document(&rubric, Unit::Millimetre);
    let pictures = document.blocks.iter().filter_map(|block| match block {
        Block::Pictures(pictures) => Some(pictures),
        _ => None,
    });
    let digests: Vec<_> = pictures.flatten().map(|one| one.digest.clone()).collect();
    assert_eq!(digests, [digest]);
}
