use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::batch::compare;
use super::{Batch, Loaded, Store, StoreError};
use crate::records::{Kind, PictureBytes, Record};

/// A store that forgets when the program ends: for tests, and for a browser that
/// keeps nothing.
#[derive(Debug, Default)]
pub struct MemoryStore {
    inside: Mutex<Inside>,
}

#[derive(Debug, Default)]
struct Inside {
    texts: BTreeMap<String, String>,
    pictures: BTreeMap<String, PictureBytes>,
    refusal: Option<StoreError>,
}

impl MemoryStore {
    /// A store that holds these texts by their keys, readable or not.
    pub fn holding(texts: impl IntoIterator<Item = (String, String)>) -> Self {
        let store = Self::default();
        store.inside().texts = texts.into_iter().collect();
        store
    }

    /// Every stored text by its key.
    pub fn texts(&self) -> BTreeMap<String, String> {
        self.inside().texts.clone()
    }

    /// Makes the next commit fail with `error`. As in a browser, one that timed
    /// out is stored all the same.
    pub fn refuse_next(&self, error: StoreError) {
        self.inside().refusal = Some(error);
    }

    fn inside(&self) -> MutexGuard<'_, Inside> {
        // Nothing is done under the lock that could leave it half done.
        self.inside.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn commit_now(&self, batch: &Batch) -> Result<(), StoreError> {
        let mut inside = self.inside();
        let refusal = inside.refusal.take();
        if let Some(error) = refusal
            .clone()
            .filter(|error| *error != StoreError::TimedOut)
        {
            return Err(error);
        }
        for (key, base) in &batch.base {
            let stored = inside.texts.get(&key.to_string());
            compare(key, stored.map(String::as_str), base.as_ref())?;
        }
        let puts = batch.change.puts.iter();
        let texts: Vec<_> = puts
            .map(|record| Ok((record.key().to_string(), Record::write(record)?)))
            .collect::<Result<_, StoreError>>()?;
        for key in &batch.change.deletes {
            inside.texts.remove(&key.to_string());
            if key.kind == Kind::Picture {
                inside.pictures.remove(&key.id);
            }
        }
        inside.pictures.extend(batch.change.bytes.clone());
        inside.texts.extend(texts);
        refusal.map_or(Ok(()), Err)
    }
}

impl Store for MemoryStore {
    async fn load(&self) -> Result<Loaded, StoreError> {
        Ok(Loaded::read(self.texts()))
    }

    async fn picture(&self, digest: &str) -> Result<Option<PictureBytes>, StoreError> {
        Ok(self.inside().pictures.get(digest).cloned())
    }

    async fn commit(&self, batch: &Batch) -> Result<(), StoreError> {
        self.commit_now(batch)
    }
}
