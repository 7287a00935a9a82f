//! The key that this browser signs with, in a database of its own: the ledger's is opened
//! before the first screen, and no key may come into a ledger file.

use indexed_db_futures::database::Database;
use indexed_db_futures::error::{Error, OpenDbError};
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::TransactionMode;
use wasm_bindgen::JsValue;

use super::StoreError;
use super::indexed_db::{answer, on_open, within_limit};

const DATABASE: &str = "evenshod-keys";
const VERSION: u32 = 1;
const KEYS: &str = "keys";
/// The one key of this browser profile.
const DEVICE: &str = "device";

/// The key pair that is kept, as the browser stores it; `None` where there is none.
///
/// *Errors:* [`StoreError`].
pub async fn load() -> Result<Option<JsValue>, StoreError> {
    let database = open().await?;
    let found = read(&database).await;
    database.close();
    found
}

/// Keeps `pair`, and gives what is kept from now on: another tab's, where that came first.
///
/// *Errors:* [`StoreError`].
pub async fn keep(pair: JsValue) -> Result<JsValue, StoreError> {
    let database = open().await?;
    let kept = match read(&database).await {
        Ok(Some(there)) => Ok(there),
        Ok(None) => add(&database, pair).await,
        Err(error) => Err(error),
    };
    database.close();
    kept
}

async fn open() -> Result<Database, StoreError> {
    let request = Database::open(DATABASE)
        .with_version(VERSION)
        .with_on_upgrade_needed(|_, database| {
            if !database.object_store_names().any(|name| name == KEYS) {
                database.create_object_store(KEYS).build()?;
            }
            Ok(())
        })
        .build()
        .map_err(on_open)?;
    match within_limit(request.into_future()).await {
        Some(opened) => opened.map_err(|error: OpenDbError| on_open(error)),
        None => Err(StoreError::TimedOut),
    }
}

async fn read(database: &Database) -> Result<Option<JsValue>, StoreError> {
    let transaction = database.transaction(KEYS).build()?;
    let store = transaction.object_store(KEYS)?;
    answer(store.get::<JsValue, _, _>(DEVICE).primitive()?).await
}

async fn add(database: &Database, pair: JsValue) -> Result<JsValue, StoreError> {
    let write = async {
        let transaction = database
            .transaction(KEYS)
            .with_mode(TransactionMode::Readwrite)
            .build()?;
        let store = transaction.object_store(KEYS)?;
        store
            .add(pair.clone())
            .with_key(DEVICE)
            .without_key_type()
            .primitive()?
            .await?;
        transaction.commit().await?;
        Ok::<(), Error>(())
    };
    let written = within_limit(write).await;
    match written {
        Some(Ok(())) => Ok(pair),
        // Another tab was first: theirs counts.
        Some(Err(error)) => read(database).await?.ok_or_else(|| error.into()),
        None => Err(StoreError::TimedOut),
    }
}
