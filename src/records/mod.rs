//! The facts that are kept: who, when, what was made, and what was seen on it.
//!
//! Every [`Record`] has an id, a schema number and a [`Stamp`]. A [`Ledger`] is
//! all records of one device with the look-ups that pages need; a [`Change`] is
//! what one command does to it. Records travel and rest as JSON text
//! ([`Record::write`], [`Record::read`]): older schemas are brought forward on
//! reading, newer ones refused. A [`seal()`] fixes a marking by a digest over
//! canonical JSON that stands even after personal text is erased. Of a [`Picture`] a record
//! holds what is known, and its bytes travel beside it. A [`Bundle`] is a
//! whole ledger as one file, and [`Merge`] what such a file changes in another.
//!
//! *Invariant.* Nothing here asks for the time, for randomness or for the
//! device's name: they enter in a [`Stamp`], a [`Moment`] or a seed. No text
//! makes this room panic, and results are never stored.
//!
//! ```
//! use evenshod::records::{Device, Learner, LearnerId, Ledger, Record, Stamp};
//! let stamp = Stamp::first(1_795_000_000_000, Device::new("bench tablet", [7; 8]));
//! let id = LearnerId::made_by(&stamp, 0);
//! let record = Record::from(Learner::named(id, stamp, "Ada Smith".to_owned()));
//! assert_eq!(Record::read(&record.write()?)?, record);
//! assert_eq!(Ledger::of([record]).learner(id).map(|learner| &*learner.name), Some("Ada Smith"));
//! # Ok::<(), evenshod::records::WireError>(())
//! ```

mod agreement;
mod bundle;
mod change;
mod columns;
mod ended;
mod ids;
mod instrument;
mod ledger;
mod marking;
mod merge;
mod merge_notes;
mod milestone;
mod names;
mod outcome;
mod passes;
mod people;
mod picture;
mod piece;
mod record;
mod release;
mod seal;
mod sealed_records;
mod signature;
mod skip;
mod span;
mod stamp;
mod standing;
mod study;
mod table;
mod wire;

pub use crate::quantity::{Day, Moment, TimeError, Unit};
pub use agreement::{Agreement, MadeFrom};
pub use bundle::{Bundle, BundleError, RawRecord};
pub use change::{Change, Made};
pub use columns::{ANY, ColumnFault, Layout, MARKS, NamedColumn, TableHead, column_faults};
pub use ids::{
    ExaminerId, LearnerId, MarkingId, MilestoneId, PieceId, RubricDraftId, SittingId, StudyId,
};
pub use instrument::OwnInstrument;
pub use ledger::Ledger;
pub use marking::{Marking, Photo, Replaces, Role};
pub use merge::{Counts, Merge};
pub use merge_notes::{Note, What};
pub use milestone::Milestone;
pub use outcome::Lack;
pub use people::{
    Examiner, Learner, LearnerStatus, NAME_ERASED, OutsideNumber, Sitting, SittingKind,
};
pub use picture::{
    MOST_PICTURE_BYTES, Media, Picture, PictureBytes, PictureError, no_longer_named,
    unused_pictures,
};
pub use piece::{Ended, Piece, RubricDraft, RubricVersion};
pub use record::{KeyError, Kind, Record, RecordKey};
pub use release::{Deed, Release, Whom};
pub use seal::{
    PersonalText, Salted, Seal, SealCheck, SealError, SealParts, SealedDocument, canonical_json,
    check_seal, in_groups, personal_texts, seal, sealed_document, sha256_hex, verify,
};
pub use sealed_records::{SaltedText, SealedRecords};
pub use signature::{KeyTextError, PublicKey, Signature, SignatureAlgorithm, SignedDigest};
pub use span::Span;
pub use stamp::{Device, LAST_MILLISECOND, Stamp};
pub use standing::{Standing, Unseen};
pub use study::{Place, Study, StudyFacts, StudyFault, StudyPart, StudyPerson};
pub use wire::{STEPS, Step, WireError};
