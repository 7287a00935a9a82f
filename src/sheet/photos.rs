//! Photos of a piece on its sheet.

use super::document::{Block, Pictured};
use super::scored::{Scored, heading};
use crate::records::Photo;

/// The photos that the marking names, under a heading.
pub(super) fn photos(scored: &Scored<'_>) -> Vec<Block> {
    let photos = &scored.parts.marking.photos;
    if photos.is_empty() {
        return Vec::new();
    }
    vec![heading("Photos"), Block::Pictures(pictured(photos))]
}

/// Photos, each by its number with what was noted.
pub fn pictured<'a>(photos: impl IntoIterator<Item = &'a Photo>) -> Vec<Pictured> {
    let shown = (1..).zip(photos).map(|(place, photo)| {
        let name = format!("Photo {place}");
        Pictured {
            digest: photo.picture.clone(),
            caption: if photo.note.is_empty() {
                name.clone()
            } else {
                format!("{name}: {}", photo.note)
            },
            alt: name,
        }
    });
    shown.collect()
}
