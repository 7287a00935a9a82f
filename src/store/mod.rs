//! Where a ledger rests between visits, and the desk that writes to it.
//!
//! A [`Store`] keeps records as JSON text, and the bytes of pictures beside them, which it
//! gives one by one; it takes one [`Batch`] in one
//! transaction, all or nothing. A batch carries the stamp of every record that
//! it replaces or relies on, and the store compares them inside the transaction,
//! so that what a second tab wrote is never lost: the batch is refused with
//! [`StoreError::Changed`], and the [`Desk`] applies its commands again on the
//! fresh ledger. Records that cannot be read are listed, never dropped and never
//! overwritten.

mod batch;
mod desk;
mod error;
mod memory;

#[cfg(target_arch = "wasm32")]
pub mod indexed_db;
#[cfg(target_arch = "wasm32")]
pub mod key_store;

use std::future::Future;

pub use batch::{Base, Batch};
pub use desk::{BatchInFlight, Desk};
pub use error::StoreError;
pub use memory::MemoryStore;

use crate::records::{Ledger, PictureBytes, Record, WireError};

/// What a store holds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Loaded {
    /// Every record that can be read.
    pub ledger: Ledger,
    /// Every record that cannot.
    pub unreadable: Vec<Unreadable>,
}

/// A stored record that cannot be read; it stays as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// The key that it is stored under.
    pub key: String,
    /// The text as it is stored.
    pub text: String,
    /// Why it cannot be read.
    pub why: WireError,
}

impl Loaded {
    /// Reads stored texts by their keys.
    pub fn read<K, T>(stored: impl IntoIterator<Item = (K, T)>) -> Self
    where
        K: AsRef<str>,
        T: AsRef<str>,
    {
        let mut loading = Loading::default();
        for (key, text) in stored {
            loading.take(key.as_ref(), text.as_ref());
        }
        loading.done()
    }
}

/// What was read so far, for a store that reads in pieces.
#[derive(Debug, Default)]
struct Loading {
    records: Vec<Record>,
    unreadable: Vec<Unreadable>,
}

impl Loading {
    fn take(&mut self, key: &str, text: &str) {
        match Record::read_at(key, text) {
            Ok(record) => self.records.push(record),
            Err(why) => self.unreadable.push(Unreadable {
                key: key.to_owned(),
                text: text.to_owned(),
                why,
            }),
        }
    }

    fn done(self) -> Loaded {
        Loaded {
            ledger: Ledger::of(self.records),
            unreadable: self.unreadable,
        }
    }
}

/// A place that keeps a ledger.
pub trait Store {
    /// Everything that is stored.
    fn load(&self) -> impl Future<Output = Result<Loaded, StoreError>>;

    /// The bytes of the picture with this digest; `None` where they are not here.
    fn picture(
        &self,
        digest: &str,
    ) -> impl Future<Output = Result<Option<PictureBytes>, StoreError>>;

    /// Stores `batch` as a whole, or nothing of it. Done means written to the
    /// disk as far as the place can promise it.
    fn commit(&self, batch: &Batch) -> impl Future<Output = Result<(), StoreError>>;
}
