//! Photos of a piece on its sheet.

use super::document::{Block, Pictured};
use super::scored::{Scored, heading};

/// The photos that the marking names, under a heading.
pub(super) fn photos(scored: &Scored<'_>) -> Vec<Block> {
    let photos = &scored.parts.marking.photos;
    if photos.is_empty() {
        return Vec::new();
    }
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
    vec![heading("Photos"), Block::Pictures(shown.collect())]
}
