use std::collections::BTreeSet;
use std::sync::Arc;

use super::change::Change;
use super::columns::{Layout, NamedColumn, TableHead};
use super::ids::{
    ExaminerId, LearnerId, MarkingId, MilestoneId, PieceId, RubricDraftId, SittingId, StudyId,
};
use super::instrument::OwnInstrument;
use super::marking::Marking;
use super::milestone::Milestone;
use super::passes::Passes;
use super::people::{Examiner, Learner, Sitting, SittingKind};
use super::picture::Picture;
use super::piece::{Piece, RubricDraft, RubricVersion};
use super::record::{Kind, Record, RecordKey};
use super::seal::SealParts;
use super::stamp::Stamp;
use super::study::Study;
use super::table::{Table, relink};
use crate::quantity::Day;

/// All records of one device.
///
/// *What is guaranteed:* there is one record to a key, the one with the latest
/// stamp; look-ups agree with the records. A record may name another that is not
/// here (unreadable, or not yet merged), so every look-up may come back empty.
/// *Cost:* a clone copies a few pointers; a change to a clone copies the tables
/// that it touches, never a record.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Ledger {
    learners: Table<LearnerId, Learner>,
    examiners: Table<ExaminerId, Examiner>,
    milestones: Table<MilestoneId, Milestone>,
    sittings: Table<SittingId, Sitting>,
    instruments: Table<String, OwnInstrument>,
    studies: Table<StudyId, Study>,
    table_heads: Table<Layout, TableHead>,
    pictures: Table<String, Picture>,
    rubrics: Table<String, RubricVersion>,
    rubric_drafts: Table<RubricDraftId, RubricDraft>,
    pieces: Table<PieceId, Piece>,
    markings: Table<MarkingId, Marking>,
    milestones_of: Arc<BTreeSet<(LearnerId, MilestoneId)>>,
    pieces_of: Arc<BTreeSet<(LearnerId, PieceId)>>,
    markings_of: Arc<BTreeSet<(PieceId, MarkingId)>>,
    drafts: Arc<BTreeSet<MarkingId>>,
    latest: Option<Stamp>,
    pub(super) passes: Passes,
}

impl Ledger {
    /// The ledger of these records; of two under one key the later stamp stays.
    pub fn of(records: impl IntoIterator<Item = Record>) -> Self {
        let mut ledger = Self::default();
        for record in records {
            let older = ledger
                .get(&record.key())
                .is_none_or(|kept| kept.stamp() <= record.stamp());
            if older {
                ledger.put(record);
            }
        }
        ledger
    }

    /// This ledger after `change`.
    #[must_use]
    pub fn with(&self, change: &Change) -> Self {
        let mut ledger = self.clone();
        ledger.make(change);
        ledger
    }

    /// Makes `change` here.
    pub fn make(&mut self, change: &Change) {
        for key in &change.deletes {
            self.delete(key);
        }
        for record in &change.puts {
            self.put(record.clone());
        }
    }

    /// The latest stamp that was ever put here: where the next one starts from.
    pub fn latest(&self) -> Option<&Stamp> {
        self.latest.as_ref()
    }

    /// The record under `key`.
    pub fn get(&self, key: &RecordKey) -> Option<Record> {
        let id = key.id.as_str();
        match key.kind {
            Kind::Learner => self.learners.arc(&id.parse().ok()?).map(Record::Learner),
            Kind::Examiner => self.examiners.arc(&id.parse().ok()?).map(Record::Examiner),
            Kind::Milestone => self
                .milestones
                .arc(&id.parse().ok()?)
                .map(Record::Milestone),
            Kind::Sitting => self.sittings.arc(&id.parse().ok()?).map(Record::Sitting),
            Kind::Instrument => self.instruments.arc(id).map(Record::Instrument),
            Kind::Study => self.studies.arc(&id.parse().ok()?).map(Record::Study),
            Kind::TableHead => self
                .table_heads
                .arc(&Layout::from_word(id)?)
                .map(Record::TableHead),
            Kind::Picture => self.pictures.arc(id).map(Record::Picture),
            Kind::Rubric => self.rubrics.arc(id).map(Record::Rubric),
            Kind::RubricDraft => self
                .rubric_drafts
                .arc(&id.parse().ok()?)
                .map(Record::RubricDraft),
            Kind::Piece => self.pieces.arc(&id.parse().ok()?).map(Record::Piece),
            Kind::Marking => self.markings.arc(&id.parse().ok()?).map(Record::Marking),
        }
    }

    /// Every record; what a record names comes before it.
    pub fn records(&self) -> impl Iterator<Item = Record> {
        let learners = self.learners.arcs().map(Record::Learner);
        let examiners = self.examiners.arcs().map(Record::Examiner);
        let milestones = self.milestones.arcs().map(Record::Milestone);
        let sittings = self.sittings.arcs().map(Record::Sitting);
        let instruments = self.instruments.arcs().map(Record::Instrument);
        let studies = self.studies.arcs().map(Record::Study);
        let table_heads = self.table_heads.arcs().map(Record::TableHead);
        let pictures = self.pictures.arcs().map(Record::Picture);
        let rubrics = self.rubrics.arcs().map(Record::Rubric);
        let rubric_drafts = self.rubric_drafts.arcs().map(Record::RubricDraft);
        let pieces = self.pieces.arcs().map(Record::Piece);
        let markings = self.markings.arcs().map(Record::Marking);
        learners
            .chain(examiners)
            .chain(milestones)
            .chain(sittings)
            .chain(instruments)
            .chain(studies)
            .chain(table_heads)
            .chain(pictures)
            .chain(rubrics)
            .chain(rubric_drafts)
            .chain(pieces)
            .chain(markings)
    }

    /// One learner.
    pub fn learner(&self, id: LearnerId) -> Option<&Learner> {
        self.learners.get(&id)
    }

    /// Every learner, as added.
    pub fn learners(&self) -> impl DoubleEndedIterator<Item = &Learner> {
        self.learners.iter()
    }

    /// One examiner.
    pub fn examiner(&self, id: ExaminerId) -> Option<&Examiner> {
        self.examiners.get(&id)
    }

    /// Every examiner, as added.
    pub fn examiners(&self) -> impl DoubleEndedIterator<Item = &Examiner> {
        self.examiners.iter()
    }

    /// One milestone.
    pub fn milestone(&self, id: MilestoneId) -> Option<&Milestone> {
        self.milestones.get(&id)
    }

    /// Every milestone, as added.
    pub fn milestones(&self) -> impl Iterator<Item = &Milestone> {
        self.milestones.iter()
    }

    /// A learner's milestones, taken back ones too, as added.
    pub fn milestones_of(&self, learner: LearnerId) -> impl Iterator<Item = &Milestone> {
        self.milestones_of
            .range((learner, MilestoneId::LEAST)..=(learner, MilestoneId::MOST))
            .filter_map(|(_, milestone)| self.milestone(*milestone))
    }

    /// One sitting.
    pub fn sitting(&self, id: SittingId) -> Option<&Sitting> {
        self.sittings.get(&id)
    }

    /// Every sitting, as added.
    pub fn sittings(&self) -> impl DoubleEndedIterator<Item = &Sitting> {
        self.sittings.iter()
    }

    /// The first unnamed sitting of this kind on this day.
    pub fn sitting_on(&self, kind: SittingKind, day: Day) -> Option<&Sitting> {
        self.sittings()
            .find(|sitting| sitting.kind == kind && sitting.day == day && sitting.name.is_empty())
    }

    /// The instrument with this short name.
    pub fn instrument(&self, id: &str) -> Option<&OwnInstrument> {
        self.instruments.get(id)
    }

    /// Every instrument, retired ones too, by short name.
    pub fn instruments(&self) -> impl Iterator<Item = &OwnInstrument> {
        self.instruments.iter()
    }

    /// One instrument study.
    pub fn study(&self, id: StudyId) -> Option<&Study> {
        self.studies.get(&id)
    }

    /// Every instrument study, those set aside too, the latest begun first.
    pub fn studies(&self) -> impl Iterator<Item = &Study> {
        self.studies.iter().rev()
    }

    /// What the columns of `layout` are called; none where they have their usual names.
    pub fn columns(&self, layout: Layout) -> &[NamedColumn] {
        let head = self.table_heads.get(&layout);
        head.map_or(&[], |head| &head.columns)
    }

    /// Every head of a table that somebody has changed.
    pub fn table_heads(&self) -> impl Iterator<Item = &TableHead> {
        self.table_heads.iter()
    }

    /// The picture with this digest.
    pub fn picture(&self, digest: &str) -> Option<&Picture> {
        self.pictures.get(digest)
    }

    /// Every picture that is kept, by digest.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.pictures.iter()
    }

    /// The rubric text with this digest.
    pub fn rubric(&self, digest: &str) -> Option<&RubricVersion> {
        self.rubrics.get(digest)
    }

    /// Every rubric text that is kept: own ones, and those that pieces were marked by.
    pub fn rubrics(&self) -> impl Iterator<Item = &RubricVersion> {
        self.rubrics.iter()
    }

    /// One rubric in work.
    pub fn rubric_draft(&self, id: RubricDraftId) -> Option<&RubricDraft> {
        self.rubric_drafts.get(&id)
    }

    /// Every rubric in work, the latest begun first.
    pub fn rubric_drafts(&self) -> impl Iterator<Item = &RubricDraft> {
        self.rubric_drafts.iter().rev()
    }

    /// Every piece made to the rubric text with this digest, newest first.
    pub fn pieces_by<'a>(&'a self, digest: &'a str) -> impl Iterator<Item = &'a Piece> {
        self.pieces().filter(move |piece| piece.rubric == digest)
    }

    /// One piece.
    pub fn piece(&self, id: PieceId) -> Option<&Piece> {
        self.pieces.get(&id)
    }

    /// Every piece, newest first.
    pub fn pieces(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().rev()
    }

    /// A learner's pieces, newest first.
    pub fn pieces_of(&self, learner: LearnerId) -> impl Iterator<Item = &Piece> {
        self.pieces_of
            .range((learner, PieceId::LEAST)..=(learner, PieceId::MOST))
            .rev()
            .filter_map(|(_, piece)| self.piece(*piece))
    }

    /// One marking.
    pub fn marking(&self, id: MarkingId) -> Option<&Marking> {
        self.markings.get(&id)
    }

    /// Every marking, newest first.
    pub fn markings(&self) -> impl Iterator<Item = &Marking> {
        self.markings.iter().rev()
    }

    /// A piece's markings, oldest first.
    pub fn markings_of(&self, piece: PieceId) -> impl Iterator<Item = &Marking> {
        self.markings_of
            .range((piece, MarkingId::LEAST)..=(piece, MarkingId::MOST))
            .filter_map(|(_, marking)| self.marking(*marking))
    }

    /// Whether `other` has the same pieces of a learner: with the same markings, made at the
    /// same sittings, none of them written since.
    pub fn has_same_pieces(&self, other: &Self, learner: LearnerId) -> bool {
        let is_untouched = self.pieces.is_same(&other.pieces)
            && self.markings.is_same(&other.markings)
            && self.sittings.is_same(&other.sittings);
        is_untouched || self.written_of(learner).eq(other.written_of(learner))
    }

    /// When each record of a learner's pieces was written last.
    fn written_of(&self, learner: LearnerId) -> impl Iterator<Item = Option<&Stamp>> {
        self.pieces_of(learner).flat_map(|piece| {
            let sitting = self.sitting(piece.sitting).map(|sitting| &sitting.stamp);
            let markings = self.markings_of(piece.id);
            let markings = markings.map(|marking| Some(&marking.stamp));
            [Some(&piece.stamp), sitting].into_iter().chain(markings)
        })
    }

    /// Markings that are not sealed, newest first.
    pub fn drafts(&self) -> impl Iterator<Item = &Marking> {
        self.drafts.iter().rev().filter_map(|id| self.marking(*id))
    }

    /// What a marking's seal covers; `None` where a record that it names is not
    /// here (a learner may be missing).
    pub fn seal_parts<'a>(&'a self, marking: &'a Marking) -> Option<SealParts<'a>> {
        let piece = self.piece(marking.piece)?;
        Some(SealParts {
            marking,
            piece,
            sitting: self.sitting(piece.sitting)?,
            rubric: self.rubric(&marking.rubric)?,
            examiner: self.examiner(marking.examiner)?,
            learner: piece.learner.and_then(|id| self.learner(id)),
        })
    }

    fn put(&mut self, record: Record) {
        self.latest = self.latest.take().max(Some(record.stamp().clone()));
        match record {
            Record::Learner(learner) => self.learners.put(learner.id, learner),
            Record::Examiner(examiner) => self.examiners.put(examiner.id, examiner),
            Record::Milestone(milestone) => {
                self.link_milestone(milestone.id, Some(&milestone));
                self.milestones.put(milestone.id, milestone);
            }
            Record::Sitting(sitting) => self.sittings.put(sitting.id, sitting),
            Record::Instrument(instrument) => {
                self.instruments.put(instrument.id.clone(), instrument);
            }
            Record::Study(study) => self.studies.put(study.id, study),
            Record::TableHead(head) => self.table_heads.put(head.layout, head),
            Record::Picture(picture) => self.pictures.put(picture.digest.clone(), picture),
            Record::Rubric(rubric) => self.rubrics.put(rubric.digest.clone(), rubric),
            Record::RubricDraft(draft) => self.rubric_drafts.put(draft.id, draft),
            Record::Piece(piece) => {
                self.link_piece(piece.id, Some(&piece));
                self.pieces.put(piece.id, piece);
            }
            Record::Marking(marking) => {
                self.link_marking(marking.id, Some(&marking));
                self.markings.put(marking.id, marking);
            }
        }
    }

    fn delete(&mut self, key: &RecordKey) {
        match self.get(key) {
            None => {}
            Some(Record::Learner(learner)) => self.learners.remove(&learner.id),
            Some(Record::Examiner(examiner)) => self.examiners.remove(&examiner.id),
            Some(Record::Milestone(milestone)) => {
                self.link_milestone(milestone.id, None);
                self.milestones.remove(&milestone.id);
            }
            Some(Record::Sitting(sitting)) => self.sittings.remove(&sitting.id),
            Some(Record::Instrument(instrument)) => self.instruments.remove(&instrument.id),
            Some(Record::Study(study)) => self.studies.remove(&study.id),
            Some(Record::TableHead(head)) => self.table_heads.remove(&head.layout),
            Some(Record::Picture(picture)) => self.pictures.remove(&picture.digest),
            Some(Record::Rubric(rubric)) => self.rubrics.remove(&rubric.digest),
            Some(Record::RubricDraft(draft)) => self.rubric_drafts.remove(&draft.id),
            Some(Record::Piece(piece)) => {
                self.link_piece(piece.id, None);
                self.pieces.remove(&piece.id);
            }
            Some(Record::Marking(marking)) => {
                self.link_marking(marking.id, None);
                self.markings.remove(&marking.id);
            }
        }
    }

    fn link_milestone(&mut self, id: MilestoneId, new: Option<&Milestone>) {
        let link = |milestone: &Milestone| (milestone.learner, id);
        let old = self.milestones.get(&id).map(link);
        relink(&mut self.milestones_of, old, new.map(link));
    }

    fn link_piece(&mut self, id: PieceId, new: Option<&Piece>) {
        let link = |piece: &Piece| piece.learner.map(|learner| (learner, id));
        let old = self.pieces.get(&id).and_then(link);
        relink(&mut self.pieces_of, old, new.and_then(link));
    }

    fn link_marking(&mut self, id: MarkingId, new: Option<&Marking>) {
        let old = self.markings.arc(&id);
        let link = |marking: &Marking| (marking.piece, id);
        let draft = |marking: &Marking| marking.seal.is_none().then_some(id);
        let before = old.as_deref().map(link);
        relink(&mut self.markings_of, before, new.map(link));
        let before = old.as_deref().and_then(draft);
        relink(&mut self.drafts, before, new.and_then(draft));
    }
}
