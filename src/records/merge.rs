//! What a file changes in a ledger, worked out before anything is changed.
//!
//! Each record is one thing under one key, and of two that differ one stays:
//!
//! - a sealed marking before a draft, and what a seal covers (its piece and its
//!   sitting) before what none does;
//! - of two drafts, names, pieces or sittings the later stamp, but a name that is erased
//!   before one that is not;
//! - of two of one seal the one whose personal text is erased, then the later stamp;
//! - of two that are sealed and differ otherwise nothing is taken: it is told;
//! - of two milestones the later stamp, and its text goes where either was erased or where
//!   the learner is: it goes with the learner alone, so both come to the same.
//!
//! A rubric's text has its digest for a key, so two that differ are told too; one
//! text stored on two devices keeps the earlier stamp, and so does a picture, whose bytes
//! come along where it is written. A picture that nothing names is not taken, and one that
//! nothing names any longer goes: its marking was erased on the other device.
//!
//! *Invariant.* But for what is told as differing, merging is commutative,
//! associative and idempotent, however many files are read in whatever order.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::bundle::Bundle;
use super::change::Change;
use super::ids::{PieceId, SittingId};
use super::ledger::Ledger;
use super::marking::Marking;
use super::merge_notes::{Note, What, doubles};
use super::milestone::Milestone;
use super::picture::{named_pictures, no_longer_named};
use super::piece::Piece;
use super::record::{Kind, Record, RecordKey};
use crate::quantity::Moment;

/// What taking a file over does to a ledger.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Merge {
    /// The change itself.
    pub change: Change,
    /// How many records of each kind the file has, by what becomes of them.
    pub counts: BTreeMap<Kind, Counts>,
    /// What a person has to know.
    pub notes: Vec<Note>,
}

/// Records of one kind in a file, by what becomes of them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    /// Not here yet: added.
    pub new: usize,
    /// The file's takes the place of the one here.
    pub newer: usize,
    /// The one here stays.
    pub older: usize,
    /// Alike on both sides.
    pub same: usize,
    /// Left out and told of: neither may take the other's place.
    pub left: usize,
}

/// Which of two records under one key stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stays {
    Here,
    File,
    /// Alike for people; whether the file's is written all the same.
    Alike(bool),
    /// Neither: a person has to know.
    Neither(What),
}

impl Merge {
    /// What taking `bundle` over does to `here`. Records under the keys of `leave`
    /// are left out and told of: what is stored there cannot be read.
    pub fn of(here: &Ledger, bundle: &Bundle, leave: &BTreeSet<RecordKey>) -> Self {
        let there = Ledger::of(bundle.records().iter().cloned());
        let sides = Sides {
            here: Covered::by(here),
            file: Covered::by(&there),
        };
        let mut merge = Self::default();
        let is_picture = |record: &Record| record.kind() == Kind::Picture;
        let (pictures, others): (Vec<_>, Vec<_>) = there.records().partition(is_picture);
        for record in others {
            merge.take(here, &sides, leave, record);
        }
        let mut merged = here.with(&merge.change);
        merge.erase_milestones(here, &there, &mut merged);
        let named = named_pictures(&merged);
        for record in pictures {
            // A photo that was erased here does not come back.
            if named.contains(record.key().id.as_str()) {
                merge.take_picture(here, &sides, leave, record, bundle);
            }
        }
        // One that was erased in the file goes here too.
        merge.change.deletes = no_longer_named(here, &merged);
        merge.notes.extend(doubles(here, &there));
        merge
    }

    /// How many records are added or replaced.
    pub fn changes(&self) -> usize {
        let counts = self.counts.values();
        counts.map(|counts| counts.new + counts.newer).sum()
    }

    /// Takes the text out of every milestone whose learner is erased in `merged` or that was
    /// erased on either side, so that no file brings it back.
    fn erase_milestones(&mut self, here: &Ledger, there: &Ledger, merged: &mut Ledger) {
        let erased = |milestone: &Milestone| {
            let sides = [here, there].map(|side| side.milestone(milestone.id)?.erased);
            let at = sides.into_iter().max().flatten();
            let at = erased_with(merged, milestone).or(at)?;
            let erased = milestone.wordless(at);
            (erased != *milestone).then(|| (RecordKey::new(Kind::Milestone, erased.id), erased))
        };
        let erased: BTreeMap<_, _> = merged.milestones().filter_map(erased).collect();
        if erased.is_empty() {
            return;
        }
        self.change
            .puts
            .retain(|put| !erased.contains_key(&put.key()));
        for (about, milestone) in erased {
            if there
                .milestone(milestone.id)
                .is_some_and(|one| one.erased.is_none())
                && erased_with(here, &milestone).is_some()
            {
                let what = What::ErasedHere;
                self.notes.push(Note { about, what });
            }
            if here.milestone(milestone.id) != Some(&milestone) {
                self.change.puts.push(milestone.into());
            }
        }
        *merged = here.with(&self.change);
    }

    fn take_picture(
        &mut self,
        here: &Ledger,
        sides: &Sides,
        leave: &BTreeSet<RecordKey>,
        record: Record,
        bundle: &Bundle,
    ) {
        let digest = record.key().id;
        let before = self.change.puts.len();
        self.take(here, sides, leave, record);
        if self.change.puts.len() > before
            && let Some(bytes) = bundle.picture(&digest)
        {
            self.change.bytes.insert(digest, Arc::clone(bytes));
        }
    }

    fn take(&mut self, here: &Ledger, sides: &Sides, leave: &BTreeSet<RecordKey>, record: Record) {
        let key = record.key();
        let counts = self.counts.entry(key.kind).or_default();
        if leave.contains(&key) {
            counts.left += 1;
            self.notes.push(Note {
                about: key,
                what: What::UnreadableHere,
            });
            return;
        }
        let Some(own) = here.get(&key) else {
            counts.new += 1;
            self.change.puts.push(record);
            return;
        };
        match sides.judge(&own, &record) {
            Stays::Alike(is_written) => {
                counts.same += 1;
                self.change.puts.extend(is_written.then_some(record));
            }
            Stays::Here => {
                counts.older += 1;
                let what = if is_erased(&own) && !is_erased(&record) {
                    Some(What::ErasedHere)
                } else {
                    (own.stamp() < record.stamp()).then_some(What::SealedHere)
                };
                let about = key;
                self.notes.extend(what.map(|what| Note { about, what }));
            }
            Stays::Neither(what) => {
                counts.left += 1;
                self.notes.push(Note { about: key, what });
            }
            Stays::File => {
                counts.newer += 1;
                if let Record::Piece(piece) = &own {
                    // None of its markings may be sealed meanwhile.
                    let markings = here.markings_of(piece.id);
                    let keys = markings.map(|marking| RecordKey::new(Kind::Marking, marking.id));
                    self.change.relies_on.extend(keys);
                }
                let what = if is_erased(&record) && (is_sealed(&own) || key.kind != Kind::Marking) {
                    (!is_erased(&own)).then_some(What::ErasedInFile)
                } else if own.stamp() > record.stamp() {
                    Some(What::SealedInFile)
                } else if key.kind == Kind::Marking {
                    Some(What::DraftReplaced)
                } else {
                    None
                };
                let about = key;
                self.notes.extend(what.map(|what| Note { about, what }));
                self.change.puts.push(record);
            }
        }
    }
}

fn is_sealed(record: &Record) -> bool {
    matches!(record, Record::Marking(marking) if marking.seal.is_some())
}

fn is_erased(record: &Record) -> bool {
    match record {
        Record::Marking(marking) => marking.erased.is_some(),
        Record::Milestone(milestone) => milestone.erased.is_some(),
        Record::Learner(learner) => learner.erased.is_some(),
        Record::Examiner(examiner) => examiner.erased.is_some(),
        Record::Study(study) => study.erased.is_some(),
        _ => false,
    }
}

/// When the learner of a milestone was erased, if that was done in `ledger`.
fn erased_with(ledger: &Ledger, milestone: &Milestone) -> Option<Moment> {
    ledger.learner(milestone.learner)?.erased
}

/// What the seals of a ledger cover.
struct Covered {
    /// With whether a seal names the learner.
    pieces: BTreeMap<PieceId, bool>,
    sittings: BTreeSet<SittingId>,
}

impl Covered {
    fn by(ledger: &Ledger) -> Self {
        let mut covered = Self {
            pieces: BTreeMap::new(),
            sittings: BTreeSet::new(),
        };
        for marking in ledger.markings() {
            let Some(seal) = &marking.seal else { continue };
            let names = covered.pieces.entry(marking.piece).or_default();
            *names |= seal.personal.contains_key("learner");
            let piece = ledger.piece(marking.piece);
            covered.sittings.extend(piece.map(|piece| piece.sitting));
        }
        covered
    }
}

struct Sides {
    here: Covered,
    file: Covered,
}

impl Sides {
    /// Which of two records under one key stays.
    fn judge(&self, own: &Record, other: &Record) -> Stays {
        if own == other {
            return Stays::Alike(false);
        }
        match (own, other) {
            (Record::Marking(one), Record::Marking(two)) => {
                if is_one_seal(one, two) {
                    // Where nothing was erased, a comment was altered.
                    return by_erasing(own, other).unwrap_or(Stays::Neither(What::SealedTwice));
                }
                let sealed = |marking: &Marking| marking.seal.is_some();
                by_seal(own, other, [sealed(one), sealed(two)], None)
                    .unwrap_or(Stays::Neither(What::SealedTwice))
            }
            (Record::Piece(one), Record::Piece(two)) => {
                let (here, file) = (self.here.pieces.get(&one.id), self.file.pieces.get(&two.id));
                let names = here == Some(&true) || file == Some(&true);
                let alike = sealed_part(one, names) == sealed_part(two, names);
                let covered = [here.is_some(), file.is_some()];
                by_seal(own, other, covered, Some(alike))
                    .unwrap_or(Stays::Neither(What::SealedPiece))
            }
            (Record::Sitting(one), Record::Sitting(two)) => {
                let alike = (one.kind, one.day) == (two.kind, two.day);
                let covered = [
                    self.here.sittings.contains(&one.id),
                    self.file.sittings.contains(&two.id),
                ];
                by_seal(own, other, covered, Some(alike))
                    .unwrap_or(Stays::Neither(What::SealedSitting))
            }
            // Its text goes afterwards, so that both devices come to one stamp.
            (Record::Milestone(one), Record::Milestone(two)) if one.stamp != two.stamp => {
                later(own, other)
            }
            (Record::Picture(one), Record::Picture(two)) => {
                // Of one digest, so of the same bytes.
                Stays::Alike(two.stamp < one.stamp)
            }
            (Record::Rubric(one), Record::Rubric(two)) => {
                let mut same = (**one).clone();
                same.stamp = two.stamp.clone();
                if same == **two {
                    Stays::Alike(two.stamp < one.stamp)
                } else {
                    Stays::Neither(What::RubricDiffers)
                }
            }
            _ => by_erasing(own, other).unwrap_or_else(|| later(own, other)),
        }
    }
}

/// Whether both are one sealed marking, of which a text may have been erased since.
fn is_one_seal(one: &Marking, two: &Marking) -> bool {
    let bare = |marking: &Marking| Marking {
        comments: BTreeMap::new(),
        overall: None,
        photos: Vec::new(),
        typist: None,
        erased: None,
        stamp: one.stamp.clone(),
        ..marking.clone()
    };
    one.seal.is_some() && bare(one) == bare(two)
}

/// What was erased on one device is erased on every one; `None` where nothing was.
fn by_erasing(own: &Record, other: &Record) -> Option<Stays> {
    match [own, other].map(is_erased) {
        [true, false] => Some(Stays::Here),
        [false, true] => Some(Stays::File),
        [true, true] => Some(later(own, other)),
        [false, false] => None,
    }
}

/// What is sealed before what is not; the later one where both or neither are and a
/// seal does not tell them apart. `None` where it does.
fn by_seal(
    own: &Record,
    other: &Record,
    [here, file]: [bool; 2],
    alike: Option<bool>,
) -> Option<Stays> {
    match (here, file) {
        (true, false) => Some(Stays::Here),
        (false, true) => Some(Stays::File),
        (true, true) if alike != Some(true) => None,
        _ => Some(later(own, other)),
    }
}

fn later(own: &Record, other: &Record) -> Stays {
    // Two of one stamp that differ are none of this program's making; the text
    // decides, so that every device comes to the same.
    let order = own
        .stamp()
        .cmp(other.stamp())
        .then_with(|| own.write().ok().cmp(&other.write().ok()));
    if order == Ordering::Less {
        Stays::File
    } else {
        Stays::Here
    }
}

/// What a seal says of a piece.
fn sealed_part(piece: &Piece, names_learner: bool) -> impl PartialEq + '_ {
    (
        piece.learner.filter(|_| names_learner),
        &piece.ticket,
        piece.sitting,
        &piece.rubric,
        piece.attempt,
        piece.ended,
    )
}
