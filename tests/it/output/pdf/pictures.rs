//! Photos in a PDF.

use std::collections::BTreeMap;

use evenshod::output::pdf::{Kind, Paper, Pictures, Setting, checked_pdf_of_many, pdf, plan};
use evenshod::sheet::{Block, Document, Pictured};

use super::sample::{document, heading};
use super::tools::{check_syntax, images};

/// 2400 by 1600 pixels, drawn by `tests/data/pictures/make.py`.
const SIDEWAYS: &[u8] = include_bytes!("../../../data/pictures/sideways.jpg");
/// 60 by 40 pixels, with clear parts.
const CLEAR: &[u8] = include_bytes!("../../../data/pictures/clear.png");

fn with(digests: &[&str]) -> Document {
    let shown = digests.iter().map(|digest| Pictured {
        digest: (*digest).to_owned(),
        alt: "Photo".to_owned(),
        caption: format!("Photo {digest}"),
    });
    document(vec![heading("Photos"), Block::Pictures(shown.collect())])
}

fn at_hand(pictures: &[(&str, &[u8])]) -> Pictures {
    let pictures = pictures.iter();
    pictures
        .map(|(digest, bytes)| ((*digest).to_owned(), (*bytes).into()))
        .collect()
}

#[test]
fn a_photo_is_in_the_file_as_it_is_and_poppler_finds_it() {
    let pictures = at_hand(&[("a", SIDEWAYS), ("b", CLEAR)]);
    for paper in [Paper::A4, Paper::Letter] {
        let on = Setting {
            paper,
            pictures: &pictures,
        };
        let shown = with(&["a", "b"]);
        let file = checked_pdf_of_many([&shown], on, "Photos", "en").unwrap();
        check_syntax(&file.bytes);
        let found = images(&file.bytes);
        assert!(
            found.contains(&(2400, 1600, "jpeg".to_owned())),
            "{found:?}"
        );
        assert!(
            found.iter().any(|image| (image.0, image.1) == (60, 40)),
            "{found:?}"
        );
        // Written through, so nothing is lost to a second squeezing.
        let middle = &SIDEWAYS[40_000..40_400];
        assert!(file.bytes.windows(middle.len()).any(|part| part == middle));
    }
}

#[test]
fn what_is_not_at_hand_or_no_picture_is_a_frame() {
    let broken = at_hand(&[("half", &SIDEWAYS[..100]), ("text", b"not a picture")]);
    let on = Setting {
        paper: Paper::A4,
        pictures: &broken,
    };
    let shown = with(&["half", "text", "nowhere"]);
    let file = pdf(&shown, on).unwrap();
    assert_eq!(images(&file.bytes), []);
    let frames = pdf(&shown, Paper::A4).unwrap();
    assert_eq!(file.bytes, frames.bytes);
}

/// Two rows of high ones go on a page, each with what stands under it.
#[test]
fn many_photos_go_on_whole() {
    let pictures: BTreeMap<_, _> = at_hand(&[("a", SIDEWAYS)]);
    let on = Setting {
        paper: Paper::A4,
        pictures: &pictures,
    };
    let shown = with(&["a"; 40]);
    let pages = plan(&shown, on).unwrap();
    assert!((4..=10).contains(&pages.len()), "{}", pages.len());
    for page in &pages {
        let ends = page.last();
        assert_ne!(ends, Some(&Kind::Heading));
    }
    let file = pdf(&shown, on).unwrap();
    // The same bytes are there once.
    assert!(file.bytes.len() < 2 * SIDEWAYS.len());
}
