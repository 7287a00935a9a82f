use evenshod::command::{Change, Command, CommandError, Edit, apply};
use evenshod::records::{
    Kind, Ledger, MOST_PICTURE_BYTES, MarkingId, Media, PersonalText, Photo, Picture, PictureError,
    RecordKey, RubricDraftId, SealCheck, check_seal, sha256_hex, unused_pictures,
};

use crate::records::sample::{
    after, erase, jpeg, keep, now, photos, seal, stamp, stamp_of, with_draft,
};

fn unused(ledger: &Ledger) -> Vec<&str> {
    let unused = unused_pictures(ledger).into_iter();
    unused.map(|picture| picture.digest.as_str()).collect()
}

fn add(marking: MarkingId, photo: &Photo) -> Command {
    let photo = photo.clone();
    Command::edit(marking, Edit::AddPhoto { photo })
}

/// A sealed marking with two photos, whose pictures are kept.
fn sealed_with_photos() -> (Ledger, MarkingId) {
    let (mut ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    for (which, photo) in (1..).zip(&photos()) {
        ledger = after(&ledger, keep(&jpeg(which)), &stamp(1)).0;
        ledger = after(&ledger, add(marking, photo), &stamp(2)).0;
    }
    (after(&ledger, seal(marking), &stamp(3)).0, marking)
}

fn check(ledger: &Ledger, marking: MarkingId) -> SealCheck {
    let marking = ledger.marking(marking).unwrap();
    check_seal(ledger.seal_parts(marking).unwrap()).unwrap()
}

/// The first bytes are those of ISO/IEC 10918-1 (SOI and a marker), ISO/IEC 15948, 5.2, and
/// RFC 9649, 2.4.
#[test]
fn a_picture_is_told_by_its_first_bytes() {
    let png = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0];
    let kinds: [(&[u8], _); 7] = [
        (&[0xff, 0xd8, 0xff, 0xe1, 0], Ok(Media::Jpeg)),
        (&png, Ok(Media::Png)),
        (b"RIFF\x24\0\0\0WEBPVP8 ", Ok(Media::Webp)),
        (b"RIFF\x24\0\0\0WAVEfmt ", Err(PictureError::Unknown)),
        (b"GIF89a", Err(PictureError::Unknown)),
        (
            b"<svg xmlns='http://www.w3.org/2000/svg'/>",
            Err(PictureError::Unknown),
        ),
        (b"", Err(PictureError::Unknown)),
    ];
    for (bytes, media) in kinds {
        let picture = Picture::of(bytes, stamp(1));
        assert_eq!(picture.map(|picture| picture.media), media, "{bytes:?}");
    }
}

#[test]
fn a_picture_is_kept_under_its_digest_with_its_bytes_beside_the_ledger() {
    let bytes = jpeg(1);
    let digest = sha256_hex(&bytes);
    let change = apply(&Ledger::default(), keep(&bytes), &stamp(1)).unwrap();
    assert_eq!(
        change.bytes.get(&digest).map(|bytes| &**bytes),
        Some(&*bytes)
    );
    let ledger = Ledger::default().with(&change);
    let kept = ledger.picture(&digest).unwrap();
    assert_eq!((kept.media, kept.size), (Media::Jpeg, 5));
    assert!(kept.is_of(&bytes) && !kept.is_of(&jpeg(2)));
    let again = apply(&ledger, keep(&bytes), &stamp(2)).unwrap();
    assert_eq!(again.bytes.len(), 1, "its bytes may have been lost");
    assert_eq!(ledger.with(&again).pictures().count(), 1);
}

#[test]
fn what_is_no_picture_or_too_large_is_refused_with_what_to_do() {
    let refused = |bytes: &[u8]| {
        let error = apply(&Ledger::default(), keep(bytes), &stamp(1)).unwrap_err();
        assert!(matches!(error, CommandError::Picture(_)), "{error:?}");
        error.to_string()
    };
    let mut large = jpeg(1);
    large.resize(MOST_PICTURE_BYTES + 1, 0);
    assert_eq!(
        refused(b"hello"),
        "this is no JPEG, PNG or WebP picture; choose one, or save it as JPEG first"
    );
    assert_eq!(
        refused(&large),
        "the picture has 2000001 bytes, and at most 2000000 are kept; make it smaller first"
    );
    large.pop();
    assert!(apply(&Ledger::default(), keep(&large), &stamp(1)).is_ok());
}

#[test]
fn photos_are_added_once_noted_and_taken_off() {
    let (ledger, made) = with_draft();
    let id = made.marking.unwrap();
    let [one, two] = <[Photo; 2]>::try_from(photos()).unwrap();
    let note = Edit::SetPhotoNote {
        picture: two.picture.clone(),
        note: " heels ".to_owned(),
    };
    let remove = Edit::RemovePhoto {
        picture: one.picture.clone(),
    };
    let mut ledger = ledger;
    let mut stands = Vec::new();
    let commands = [
        add(id, &one),
        add(id, &two),
        add(id, &one),
        Command::edit(id, note),
        Command::edit(id, remove),
    ];
    for (seconds, command) in (1..).zip(commands) {
        ledger = after(&ledger, command, &stamp(seconds)).0;
        let photos = ledger.marking(id).unwrap().photos.iter();
        stands.push(photos.map(|photo| photo.note.clone()).collect::<Vec<_>>());
    }
    let bar = "ground side, the bar";
    assert_eq!(
        stands,
        [
            vec![bar],
            vec![bar, ""],
            vec![bar, ""],
            vec![bar, "heels"],
            vec!["heels"]
        ]
    );
}

#[test]
fn only_what_no_text_and_no_marking_names_is_unused() {
    let (mut ledger, made) = with_draft();
    let digests = [1, 2, 3, 4].map(|which| sha256_hex(&jpeg(which)));
    for which in 1..=4 {
        ledger = after(&ledger, keep(&jpeg(which)), &stamp(1)).0;
    }
    assert_eq!(unused(&ledger).len(), 4);
    let text = format!("photo = \"{}\" # {}", digests[0], &digests[1][..63]);
    ledger = after(&ledger, Command::DraftRubric { text }, &stamp(2)).0;
    ledger = after(&ledger, add(made.marking.unwrap(), &photos()[1]), &stamp(3)).0;
    let mut left = [digests[2].as_str(), &digests[3]];
    left.sort_unstable();
    assert_eq!(unused(&ledger), left);
    let change = apply(&ledger, Command::DropUnusedPictures, &stamp(4)).unwrap();
    assert_eq!(
        change.deletes,
        left.map(|digest| RecordKey::new(Kind::Picture, digest))
    );
    ledger = ledger.with(&change);
    assert_eq!(ledger.pictures().count(), 2);
    let none = apply(&ledger, Command::DropUnusedPictures, &stamp(5)).unwrap();
    assert_eq!(none, Change::default());
    let draft = RubricDraftId::made_by(&stamp(2), 5);
    ledger = after(&ledger, Command::DropRubricDraft { draft }, &stamp(6)).0;
    assert_eq!(unused(&ledger), [&digests[0]]);
}

#[test]
fn a_seal_has_photos_as_salted_digests_only() {
    let (ledger, id) = sealed_with_photos();
    let marking = ledger.marking(id).unwrap();
    let check = check(&ledger, id);
    assert!(check.intact);
    for label in ["photo/001", "photo/002"] {
        assert_eq!(
            check.personal.get(label),
            Some(&PersonalText::Same),
            "{label}"
        );
    }
    let parts = ledger.seal_parts(marking).unwrap();
    let document = evenshod::records::sealed_document(parts).unwrap().canonical;
    for photo in &marking.photos {
        assert!(!document.contains(&photo.picture));
        let digest = format!("{} {}", photo.picture, photo.note);
        let salted = marking.seal.as_ref().unwrap().personal.values();
        assert_eq!(salted.filter(|salted| salted.is_of(&digest)).count(), 1);
    }
    let mut altered = marking.clone();
    altered.photos[0].note = "another shoe".to_owned();
    altered.photos.remove(1);
    let parts = ledger.seal_parts(&altered).unwrap();
    let found = check_seal(parts).unwrap();
    assert_eq!(
        found.personal.get("photo/001"),
        Some(&PersonalText::Changed)
    );
    assert_eq!(found.personal.get("photo/002"), Some(&PersonalText::Erased));
}

#[test]
fn erasing_takes_photos_and_their_pictures_and_the_seal_stands() {
    let (ledger, id) = sealed_with_photos();
    // The second picture is an example in a rubric too.
    let kept = sha256_hex(&jpeg(2));
    let text = format!("photo = \"{kept}\"");
    let ledger = after(&ledger, Command::DraftRubric { text }, &stamp(4)).0;
    let ledger = after(&ledger, erase(id), &stamp(5)).0;
    let marking = ledger.marking(id).unwrap();
    assert!(marking.photos.is_empty() && marking.erased == Some(now()));
    let pictures: Vec<_> = ledger.pictures().map(|picture| &picture.digest).collect();
    assert_eq!(pictures, [&kept]);
    let check = check(&ledger, id);
    assert!(check.intact);
    assert_eq!(check.personal.get("photo/001"), Some(&PersonalText::Erased));
}

#[test]
fn pictures_of_another_device_stay_while_something_names_them() {
    let device = stamp_of(2, 0).device;
    let (ledger, made) = with_draft();
    let ledger = after(&ledger, keep(&jpeg(1)), &stamp_of(2, 1)).0;
    let ledger = after(&ledger, keep(&jpeg(2)), &stamp_of(2, 1)).0;
    let ledger = after(&ledger, add(made.marking.unwrap(), &photos()[0]), &stamp(2)).0;
    let remove = Command::RemoveMadeBy { device };
    let left = after(&ledger, remove, &stamp(3)).0;
    let pictures: Vec<_> = left
        .pictures()
        .map(|picture| picture.digest.clone())
        .collect();
    assert_eq!(pictures, [sha256_hex(&jpeg(1))]);
}
