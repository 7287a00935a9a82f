use std::collections::{BTreeMap, BTreeSet};

use thiserror::Error;

use super::batch::Batch;
use super::error::StoreError;
use crate::command::{Command, CommandError, Made, apply};
use crate::records::{Ledger, PictureBytes, Record, RecordKey, Stamp};

/// A ledger could not be taken over while a batch is being stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("a batch is being stored; take the fresh ledger over once it is saved or has failed")]
pub struct BatchInFlight;

/// A command that is not stored yet, and the records that it touched.
#[derive(Debug, Clone)]
struct Pending {
    command: Command,
    stamp: Stamp,
    touched: Vec<RecordKey>,
    relied: Vec<RecordKey>,
    bytes: BTreeMap<String, PictureBytes>,
}

/// A batch that is being stored.
#[derive(Debug, Clone)]
struct Flight {
    batch: Batch,
    commands: usize,
    ledger: Ledger,
}

/// One tab's work: what is known to be stored, and the commands since.
///
/// Commands show at once in [`Desk::ledger`] and are stored in the background,
/// one batch at a time; what came while one was under way goes into the next, so
/// that the newest state wins and each record is written once a batch. The page
/// drives it:
///
/// 1. [`Desk::perform`] each command.
/// 2. While [`Desk::take_batch`] gives one, commit it; then [`Desk::batch_saved`]
///    or [`Desk::batch_failed`].
/// 3. On [`StoreError::Changed`] or [`StoreError::TimedOut`], after
///    [`Desk::batch_failed`], load and [`Desk::rebase`]; show the commands that
///    it gives back; go on with 2.
#[derive(Debug, Clone, Default)]
pub struct Desk {
    confirmed: Ledger,
    wanted: Ledger,
    pending: Vec<Pending>,
    flight: Option<Flight>,
    // Batches of which it is not known whether they are stored, oldest first.
    doubtful: Vec<Flight>,
}

impl Desk {
    /// A desk over what a store holds.
    pub fn new(stored: Ledger) -> Self {
        Self {
            wanted: stored.clone(),
            confirmed: stored,
            ..Self::default()
        }
    }

    /// The ledger with every command in it, stored or not.
    pub fn ledger(&self) -> &Ledger {
        &self.wanted
    }

    /// The bytes of a picture that is not stored yet.
    pub fn picture(&self, digest: &str) -> Option<PictureBytes> {
        let mut pending = self.pending.iter();
        pending.find_map(|pending| pending.bytes.get(digest).cloned())
    }

    /// Whether everything is stored.
    pub fn is_saved(&self) -> bool {
        self.pending.is_empty()
    }

    /// Whether a batch is being stored.
    pub fn is_saving(&self) -> bool {
        self.flight.is_some()
    }

    /// Carries a command out and remembers to store it.
    ///
    /// *Errors:* [`CommandError`]; then nothing has changed.
    pub fn perform(&mut self, command: Command, stamp: Stamp) -> Result<Made, CommandError> {
        let change = apply(&self.wanted, command.clone(), &stamp)?;
        if !change.is_empty() {
            self.wanted.make(&change);
            let puts = change.puts.iter().map(Record::key);
            self.pending.push(Pending {
                command,
                stamp,
                touched: puts.chain(change.deletes).collect(),
                relied: change.relies_on,
                bytes: change.bytes,
            });
        }
        Ok(change.made)
    }

    /// What to store next; `None` while a batch is being stored or there is
    /// nothing to store.
    pub fn take_batch(&mut self) -> Option<Batch> {
        if self.flight.is_some() || self.pending.is_empty() {
            return None;
        }
        let all = |keys: fn(&Pending) -> &Vec<RecordKey>| -> BTreeSet<RecordKey> {
            self.pending.iter().flat_map(keys).cloned().collect()
        };
        let touched = all(|pending| &pending.touched);
        let relied = all(|pending| &pending.relied);
        let bytes = self.pending.iter().flat_map(|pending| &pending.bytes);
        let bytes: BTreeMap<_, _> = bytes
            .map(|(digest, bytes)| (digest.clone(), bytes.clone()))
            .collect();
        let batch = Batch::between(&self.confirmed, &self.wanted, touched, relied, bytes);
        if batch.change.is_empty() {
            // Made and deleted again before it was ever stored.
            self.pending.clear();
            return None;
        }
        self.flight = Some(Flight {
            batch: batch.clone(),
            commands: self.pending.len(),
            ledger: self.wanted.clone(),
        });
        Some(batch)
    }

    /// The batch that was taken is stored.
    pub fn batch_saved(&mut self) {
        if let Some(flight) = self.flight.take() {
            self.doubtful.clear();
            self.settle(flight);
        }
    }

    /// The batch that was taken is not stored, or not known to be. Its commands
    /// stay pending: the next batch holds them too.
    pub fn batch_failed(&mut self, error: &StoreError) {
        let flight = self.flight.take();
        if *error == StoreError::TimedOut {
            self.doubtful.extend(flight);
        }
    }

    /// Applies the pending commands again on what the store holds now. Gives
    /// back those that no longer apply, with the reason, for the page to show.
    ///
    /// *Errors:* [`BatchInFlight`]; then nothing has changed.
    pub fn rebase(
        &mut self,
        stored: Ledger,
    ) -> Result<Vec<(Command, CommandError)>, BatchInFlight> {
        if self.flight.is_some() {
            return Err(BatchInFlight);
        }
        let mut doubtful = std::mem::take(&mut self.doubtful).into_iter().rev();
        if let Some(flight) = doubtful.find(|flight| flight.batch.is_in(&stored)) {
            self.settle(flight);
        }
        self.confirmed = stored;
        let pending = std::mem::take(&mut self.pending);
        Ok(self.start_over(pending))
    }

    /// Takes back every pending command that writes the record under `key`, and
    /// what no longer applies without it. For
    /// [`StoreError::Unreadable`], which would keep all else from being stored.
    ///
    /// *Errors:* [`BatchInFlight`]; then nothing has changed.
    pub fn give_up(
        &mut self,
        key: &RecordKey,
    ) -> Result<Vec<(Command, CommandError)>, BatchInFlight> {
        if self.flight.is_some() {
            return Err(BatchInFlight);
        }
        let (given_up, kept): (Vec<_>, Vec<_>) = std::mem::take(&mut self.pending)
            .into_iter()
            .partition(|pending| pending.touched.contains(key));
        let mut refused: Vec<_> = given_up
            .into_iter()
            .map(|pending| {
                let error = CommandError::Missing { key: key.clone() };
                (pending.command, error)
            })
            .collect();
        refused.extend(self.start_over(kept));
        Ok(refused)
    }

    /// Applies `pending` on what is confirmed; gives back what no longer applies.
    fn start_over(&mut self, pending: Vec<Pending>) -> Vec<(Command, CommandError)> {
        self.wanted = self.confirmed.clone();
        let mut refused = Vec::new();
        for Pending { command, stamp, .. } in pending {
            if let Err(error) = self.perform(command.clone(), stamp) {
                refused.push((command, error));
            }
        }
        refused
    }

    fn settle(&mut self, flight: Flight) {
        self.confirmed = flight.ledger;
        let done = flight.commands.min(self.pending.len());
        self.pending.drain(..done);
    }
}
