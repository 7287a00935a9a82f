use crate::records::Marking;

/// A photo on a mark sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoRow {
    /// Digest of its picture.
    pub picture: String,
    /// Id of the document.
    pub dom: String,
    /// What it is called: `Photo 1`.
    pub name: String,
    /// What the field for its note is called.
    pub note_label: String,
    /// What the button that takes it off is called.
    pub off: String,
}

/// The photos of `marking` in order.
pub fn photo_rows(marking: &Marking) -> Vec<PhotoRow> {
    let photos = (1..).zip(&marking.photos);
    photos
        .map(|(place, photo)| PhotoRow {
            picture: photo.picture.clone(),
            dom: format!("photo-{place}"),
            name: format!("Photo {place}"),
            note_label: format!("What photo {place} shows"),
            off: format!("Take photo {place} off"),
        })
        .collect()
}

/// What is written to the photo with this picture; empty where there is none.
pub fn photo_note(marking: &Marking, picture: &str) -> String {
    let mut photos = marking.photos.iter();
    let photo = photos.find(|photo| photo.picture == picture);
    photo.map(|photo| photo.note.clone()).unwrap_or_default()
}
