use std::collections::{BTreeMap, BTreeSet};

use super::error::StoreError;
use crate::records::{Change, Ledger, PictureBytes, Record, RecordKey, Stamp};

/// The stamp that each record must still have in the store; `None` where there
/// must be no such record.
pub type Base = BTreeMap<RecordKey, Option<Stamp>>;

/// What is stored in one transaction.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    /// What to write; one put or delete to a record.
    pub change: Change,
    /// What it was made from.
    pub base: Base,
}

impl Batch {
    /// The batch that leads from `confirmed` to `wanted`, of whose records only
    /// `touched` differ, relying on `relied`, with the `bytes` of new pictures.
    pub(super) fn between(
        confirmed: &Ledger,
        wanted: &Ledger,
        touched: BTreeSet<RecordKey>,
        relied: BTreeSet<RecordKey>,
        bytes: BTreeMap<String, PictureBytes>,
    ) -> Self {
        let mut change = Change {
            bytes,
            ..Change::default()
        };
        for key in touched {
            let before = confirmed.get(&key);
            match wanted.get(&key) {
                after if after == before => {}
                Some(record) => change.puts.push(record),
                None => change.deletes.push(key),
            }
        }
        // Those that are gone again need no bytes.
        change
            .bytes
            .retain(|digest, _| wanted.picture(digest).is_some());
        // What this batch itself makes need not be there before.
        change.relies_on = relied
            .into_iter()
            .filter(|key| confirmed.get(key).is_some())
            .collect();
        let base = Self::base(confirmed, &change);
        Self { change, base }
    }

    /// `change` with the stamps that `ledger` has for all that it touches.
    pub fn of(ledger: &Ledger, change: Change) -> Self {
        let base = Self::base(ledger, &change);
        Self { change, base }
    }

    fn base(ledger: &Ledger, change: &Change) -> Base {
        let puts = change.puts.iter().map(Record::key);
        puts.chain(change.deletes.iter().cloned())
            .chain(change.relies_on.iter().cloned())
            .map(|key| {
                let stamp = ledger.get(&key).map(|record| record.stamp().clone());
                (key, stamp)
            })
            .collect()
    }

    /// Whether this batch is seen to be stored in `ledger`.
    pub(super) fn is_in(&self, ledger: &Ledger) -> bool {
        let put = |record: &Record| ledger.get(&record.key()).as_ref() == Some(record);
        let gone = |key: &RecordKey| ledger.get(key).is_none();
        self.change.puts.iter().all(put) && self.change.deletes.iter().all(gone)
    }
}

/// Compares what is stored under `key` with what a batch was made from.
///
/// *Errors:* [`StoreError::Changed`]; [`StoreError::Unreadable`] for a stored
/// text that this program must not overwrite.
pub(super) fn compare(
    key: &RecordKey,
    stored: Option<&str>,
    base: Option<&Stamp>,
) -> Result<(), StoreError> {
    let Some(text) = stored else {
        return match base {
            None => Ok(()),
            Some(_) => Err(StoreError::Changed { key: key.clone() }),
        };
    };
    match Record::read_at(&key.to_string(), text) {
        Err(why) => Err(StoreError::Unreadable {
            key: key.clone(),
            why,
        }),
        Ok(record) if Some(record.stamp()) == base => Ok(()),
        Ok(_) => Err(StoreError::Changed { key: key.clone() }),
    }
}
