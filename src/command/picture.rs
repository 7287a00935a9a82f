//! Pictures: keeping them, and throwing away what nothing names.

use super::{Change, CommandError};
use crate::records::{Kind, Ledger, Picture, PictureBytes, RecordKey, Stamp, unused_pictures};

pub(super) fn keep(
    ledger: &Ledger,
    bytes: PictureBytes,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let mut picture = Picture::of(&bytes, stamp.clone())?;
    if let Some(here) = ledger.picture(&picture.digest) {
        picture.stamp = stamp.after(&here.stamp);
    }
    let digest = picture.digest.clone();
    Ok(Change {
        bytes: [(digest, bytes)].into(),
        puts: vec![picture.into()],
        ..Change::default()
    })
}

pub(super) fn drop_unused(ledger: &Ledger) -> Change {
    let unused = unused_pictures(ledger).into_iter();
    Change {
        deletes: unused
            .map(|picture| RecordKey::new(Kind::Picture, &picture.digest))
            .collect(),
        ..Change::default()
    }
}
