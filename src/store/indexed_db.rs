//! The browser's database: one object store with keys `kind/id` and JSON texts, and one
//! with the bytes of pictures by their digests.
//!
//! Two rules of the place shape the code. A transaction commits itself as soon
//! as control goes back to the browser with no request under way, so nothing but
//! its own requests is awaited inside one. And a full disk may be told by the
//! `abort` event alone, or by nothing at all, so every end is listened for and
//! waiting has a limit.

use std::cell::Cell;
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;

use indexed_db_futures::database::Database;
use indexed_db_futures::error::{Error, OpenDbError};
use indexed_db_futures::future::VoidRequest;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{
    Transaction, TransactionDurability, TransactionFinishKind, TransactionMode, TransactionOptions,
};
use indexed_db_futures::{KeyRange, OpenDbResult};
use js_sys::{Promise, Uint8Array};
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::window;

use super::batch::compare;
use super::{Batch, Loaded, Loading, Store, StoreError};
use crate::records::{Kind, PictureBytes, Record};

/// The database's name.
const DATABASE: &str = "evenshod";
/// Raised only when the object stores change; records have their own schemas.
const VERSION: u32 = 2;
const RECORDS: &str = "records";
/// Since version 2.
const PICTURES: &str = "pictures";
/// Records read at a time, so that no single array holds the whole ledger twice.
const PAGE: u32 = 5_000;
/// Strict durability waits for the disk; a slow tablet's takes well under this.
const LIMIT_MS: i32 = 20_000;

/// What happens to the database while a page is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StoreEvent {
    /// Opening waits until another tab with an older version is closed.
    WaitingForOtherTab,
    /// A newer version wants the database; this tab has let go of it.
    NewerTab,
    /// The browser closed the database, as when site data is cleared.
    Closed,
}

/// A ledger kept by the browser.
#[derive(Debug)]
pub struct IndexedDbStore {
    database: Database,
    ended: Rc<Cell<Option<StoreEvent>>>,
}

impl IndexedDbStore {
    /// Opens the database, made where there is none; `tell` hears what happens
    /// to it from then on.
    ///
    /// *Errors:* [`StoreError::Blocked`] where the browser keeps nothing for this
    /// page, [`StoreError::NewerTab`] where a newer version has been here.
    pub async fn open(tell: impl Fn(StoreEvent) + 'static) -> Result<Self, StoreError> {
        let tell = Rc::new(tell);
        let waiting = Rc::clone(&tell);
        let opened: OpenDbResult<Database> = async {
            Database::open(DATABASE)
                .with_version(VERSION)
                .with_on_blocked(move |_| {
                    waiting(StoreEvent::WaitingForOtherTab);
                    Ok(())
                })
                .with_on_upgrade_needed(|_, database| {
                    for store in [RECORDS, PICTURES] {
                        if !database.object_store_names().any(|name| name == store) {
                            database.create_object_store(store).build()?;
                        }
                    }
                    Ok(())
                })
                .build()?
                .await
        }
        .await;
        let database = opened.map_err(on_open)?;
        let ended = Rc::new(Cell::new(None));
        watch(database.clone(), Rc::clone(&ended), tell)?;
        Ok(Self { database, ended })
    }

    fn begin(&self, mode: TransactionMode) -> Result<Transaction<'_>, StoreError> {
        match self.ended.get() {
            Some(StoreEvent::NewerTab) => return Err(StoreError::NewerTab),
            Some(_) => return Err(StoreError::Closed),
            None => {}
        }
        let strict = TransactionOptions::new().with_durability(TransactionDurability::Strict);
        let begun = self
            .database
            .transaction([RECORDS, PICTURES])
            .with_mode(mode)
            .with_options(strict)
            .build();
        begun.map_err(StoreError::from)
    }
}

impl Store for IndexedDbStore {
    async fn load(&self) -> Result<Loaded, StoreError> {
        let transaction = self.begin(TransactionMode::Readonly)?;
        let store = transaction.object_store(RECORDS)?;
        let mut loaded = Loading::default();
        // Numbers sort before texts, so this is before every key.
        let mut last = JsValue::from_f64(f64::NEG_INFINITY);
        loop {
            let after = KeyRange::LowerBound(last.clone(), true);
            let keys = store
                .get_all_keys::<JsValue>()
                .with_query::<JsValue, _>(after.clone());
            let keys = keys.with_limit(PAGE).primitive()?;
            let values = store.get_all::<JsValue>().with_query::<JsValue, _>(after);
            let values = values.with_limit(PAGE).primitive()?;
            let keys = answer(keys).await?.collect::<Result<Vec<_>, _>>()?;
            let values = answer(values).await?.collect::<Result<Vec<_>, _>>()?;
            let Some(next) = keys.last() else {
                return Ok(loaded.done());
            };
            last = next.clone();
            for (key, value) in keys.iter().zip(&values) {
                let key = key.as_string().unwrap_or_else(|| format!("{key:?}"));
                loaded.take(&key, &text_of(value));
            }
        }
    }

    async fn picture(&self, digest: &str) -> Result<Option<PictureBytes>, StoreError> {
        let transaction = self.begin(TransactionMode::Readonly)?;
        let store = transaction.object_store(PICTURES)?;
        let asked = store.get::<JsValue, _, _>(digest).primitive()?;
        let value = answer(asked).await?;
        let bytes = value.and_then(|value| value.dyn_into::<Uint8Array>().ok());
        Ok(bytes.map(|bytes| bytes.to_vec().into()))
    }

    async fn commit(&self, batch: &Batch) -> Result<(), StoreError> {
        // Made before the transaction begins, so that nothing can fail in it but
        // its own requests.
        let puts = batch.change.puts.iter();
        let puts: Vec<_> = puts
            .map(|record| Ok((record.key().to_string(), Record::write(record)?)))
            .collect::<Result<_, StoreError>>()?;
        // Dropping the transaction, as `?` does from here on, aborts it.
        let transaction = self.begin(TransactionMode::Readwrite)?;
        let store = transaction.object_store(RECORDS)?;
        let mut stored = Vec::new();
        for (key, base) in &batch.base {
            let asked = store.get::<JsValue, _, _>(key.to_string()).primitive()?;
            stored.push((key, base, asked));
        }
        for (key, base, asked) in stored {
            let text = answer(asked).await?.map(|value| text_of(&value));
            compare(key, text.as_deref(), base.as_ref())?;
        }
        let mut requests = Vec::new();
        for (key, text) in puts {
            let put = store.put(text).with_key(key).without_key_type();
            requests.push(put.primitive()?);
        }
        let pictures = transaction.object_store(PICTURES)?;
        for (digest, bytes) in &batch.change.bytes {
            let bytes = JsValue::from(Uint8Array::from(&**bytes));
            let put = pictures.put(bytes).with_key(digest.as_str());
            requests.push(put.without_key_type().primitive()?);
        }
        for key in &batch.change.deletes {
            requests.push(store.delete(key.to_string()).primitive()?);
            if key.kind == Kind::Picture {
                requests.push(pictures.delete(key.id.as_str()).primitive()?);
            }
        }
        finish(&transaction, requests).await
    }
}

/// A stored value as text; one that is no text reads as no record.
fn text_of(value: &JsValue) -> String {
    value.as_string().unwrap_or_default()
}

/// Waits until all of `requests` are on the disk.
///
/// The transaction is left to commit itself: the library's own `commit` says
/// that it was aborted and not why, and the reason is what a person needs.
async fn finish(
    transaction: &Transaction<'_>,
    requests: Vec<VoidRequest>,
) -> Result<(), StoreError> {
    let ended = within_limit(transaction.on_done()?).await;
    let Some(ended) = ended else {
        return Err(StoreError::TimedOut);
    };
    if ended == TransactionFinishKind::Ok {
        return Ok(());
    }
    if let Some(error) = transaction.error() {
        return Err(error.into());
    }
    // At the `error` event the transaction has no reason yet, its request has.
    for request in requests {
        request.await?;
    }
    Err(StoreError::Other {
        why: "the browser gave the transaction up without a reason".to_owned(),
    })
}

/// What a request gives; an error where it takes too long.
pub(super) async fn answer<T>(
    request: impl Future<Output = Result<T, Error>>,
) -> Result<T, StoreError> {
    match within_limit(request).await {
        Some(answer) => answer.map_err(StoreError::from),
        None => Err(StoreError::TimedOut),
    }
}

/// What `done` gives, or `None` where it takes too long.
pub(super) async fn within_limit<F: Future>(done: F) -> Option<F::Output> {
    let mut handle = None;
    let limit = Promise::new(&mut |resolve, _| {
        handle = window().and_then(|window| {
            window
                .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, LIMIT_MS)
                .ok()
        });
    });
    let mut limit = pin!(JsFuture::from(limit));
    let mut done = pin!(done);
    let first = poll_fn(|context| {
        if let Poll::Ready(output) = done.as_mut().poll(context) {
            return Poll::Ready(Some(output));
        }
        limit.as_mut().poll(context).map(|_| None)
    })
    .await;
    if let (Some(handle), Some(window)) = (handle, window()) {
        window.clear_timeout_with_handle(handle);
    }
    first
}

/// Lets go of the database as soon as a newer version asks for it, so that the
/// newer tab is not kept waiting.
fn watch(
    database: Database,
    ended: Rc<Cell<Option<StoreEvent>>>,
    tell: Rc<impl Fn(StoreEvent) + 'static>,
) -> Result<(), StoreError> {
    let mut changes = database.version_changes()?;
    spawn_local(async move {
        let newer = changes.recv().await.and_then(|event| event.new_version());
        let event = match newer {
            Some(_) => StoreEvent::NewerTab,
            // Closed by the browser, or about to be deleted.
            None => StoreEvent::Closed,
        };
        ended.set(Some(event));
        database.close();
        tell(event);
    });
    Ok(())
}

pub(super) fn on_open(error: OpenDbError) -> StoreError {
    match error {
        OpenDbError::Base(Error::DomException(exception)) => {
            let exception = web_sys::DomException::from(exception);
            StoreError::on_open(&exception.name(), &exception.message())
        }
        // The library takes every exception that `open` throws for this one.
        OpenDbError::VersionZero => StoreError::Blocked {
            why: "it refuses to open a database".to_owned(),
        },
        other => StoreError::Blocked {
            why: other.to_string(),
        },
    }
}

impl From<Error> for StoreError {
    fn from(error: Error) -> Self {
        match error {
            Error::DomException(exception) => {
                let exception = web_sys::DomException::from(exception);
                Self::from_name(&exception.name(), &exception.message())
            }
            other => Self::Other {
                why: other.to_string(),
            },
        }
    }
}
