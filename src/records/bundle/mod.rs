//! A whole ledger as one file: JSON that outlives the program.
//!
//! The file is an object with `format`, `schema`, `written`, `device`, `count`,
//! `sha256`, `sums`, `records`, `unreadable` and `pictures`; `examples/ledger.schema.json`
//! describes each. It is written with one record to a line, each line canonical
//! (RFC 8785). `sha256` is SHA-256 over lines that each end in a line feed: first
//! what the file says of itself (the keys up to `count`), then each record, then
//! each unreadable one, then each picture, which is its `sha256` and its bytes
//! as base64 (`data`). So a file that an editor has laid out anew still stands,
//! and anybody can check it:
//!
//! ```sh
//! jq -cS 'del(.sha256, .sums, .records, .unreadable, .pictures),
//!     .records[], .unreadable[], .pictures[]?' FILE | sha256sum
//! ```
//!
//! `sums` has the first eight digits of each record's own SHA-256, its line feed
//! left out, so that an altered record can be named.

mod error;
mod lines;
mod read;

use std::collections::{BTreeMap, BTreeSet};

use super::ledger::Ledger;
use super::picture::PictureBytes;
use super::record::Record;
use crate::quantity::Moment;

pub use error::BundleError;
pub use lines::RawRecord;

/// What the file calls itself.
const FORMAT: &str = "evenshod ledger";
/// The layout of the file that this program writes; records have their own schemas.
const SCHEMA: u32 = 2;
/// The oldest layout that is read; it has no pictures.
const OLDEST: u32 = 1;

/// A whole ledger on its way between devices, or to a shelf.
///
/// *What is guaranteed:* no two records have one key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bundle {
    written: Moment,
    device: String,
    records: Vec<Record>,
    unreadable: Vec<RawRecord>,
    pictures: BTreeMap<String, PictureBytes>,
}

impl Bundle {
    /// Everything that a device holds: its ledger, and the stored texts that it
    /// cannot read.
    pub fn of(
        ledger: &Ledger,
        unreadable: Vec<RawRecord>,
        device: impl Into<String>,
        written: Moment,
    ) -> Self {
        Self {
            written,
            device: device.into(),
            records: ledger.records().collect(),
            unreadable,
            pictures: BTreeMap::new(),
        }
    }

    /// With the bytes of its pictures, by digest. Those of a picture that no record tells
    /// of are left out.
    #[must_use]
    pub fn with_pictures(
        mut self,
        pictures: impl IntoIterator<Item = (String, PictureBytes)>,
    ) -> Self {
        let told = self.records.iter().filter_map(|record| match record {
            Record::Picture(picture) => Some(picture.digest.as_str()),
            _ => None,
        });
        let told: BTreeSet<&str> = told.collect();
        let pictures = pictures.into_iter();
        self.pictures = pictures
            .filter(|(digest, _)| told.contains(digest.as_str()))
            .collect();
        self
    }

    /// The bytes of a picture, where the file has them.
    pub fn picture(&self, digest: &str) -> Option<&PictureBytes> {
        self.pictures.get(digest)
    }

    /// The file's text.
    ///
    /// *Errors:* [`BundleError::Write`], which no record made by commands gives.
    pub fn write(&self) -> Result<String, BundleError> {
        lines::write(self)
    }

    /// Reads a file whole, or not at all.
    ///
    /// Records of older schemas are brought forward; texts that the writer could
    /// not read are records here where this program can. *Errors:*
    /// [`BundleError`]; no bytes panic.
    pub fn read(bytes: &[u8]) -> Result<Self, BundleError> {
        read::read(bytes)
    }

    /// As [`Bundle::read`], but a file that was altered since it was saved is read too,
    /// with what does not fit: to be looked at, never to be taken over.
    ///
    /// *Errors:* [`BundleError`]; no bytes panic.
    pub fn read_altered(bytes: &[u8]) -> Result<(Self, Option<BundleError>), BundleError> {
        read::read_altered(bytes)
    }

    /// When it was written.
    pub fn written(&self) -> Moment {
        self.written
    }

    /// The device that wrote it, as people call it.
    pub fn device(&self) -> &str {
        &self.device
    }

    /// Every record that can be read.
    pub fn records(&self) -> &[Record] {
        &self.records
    }

    /// Texts that neither the writer nor this program can read.
    pub fn unreadable(&self) -> &[RawRecord] {
        &self.unreadable
    }
}
