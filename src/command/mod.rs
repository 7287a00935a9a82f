//! The only writer: a [`Command`] and a ledger in, a [`Change`] out.
//!
//! Commands are as fine as a person's single act, so that two tabs on one draft
//! merge field by field: each tab's commands are applied again on what the other
//! stored. [`apply`] is pure; time, ids and the device's name enter with the
//! [`Stamp`](crate::records::Stamp), so the same command with the same stamp
//! makes the same ids however often it is applied.
//!
//! *Invariant.* A sealed marking, and what a seal says of its piece and sitting, are never
//! changed, but that personal text, photos and names can be erased, which the seal survives;
//! they go as a whole only where all that a device made goes. That marks are released and
//! feedback is given stands beside the seal, not under it. A command that changes nothing
//! gives an empty change, but for a picture that is kept again. A record that is written
//! carries a later stamp than the one that it replaces; one that is taken from a file
//! ([`Command::TakeOver`]) carries the stamp that it has there, and takes the place of what
//! [`Merge`](crate::records::Merge) says.

mod again;
mod agree;
mod amend;
mod apply;
mod columns;
mod edit;
mod edits;
mod erase;
mod error;
mod heat_log;
mod impression;
mod instrument;
mod learner;
mod many;
mod milestone;
mod picture;
mod release;
mod rubrics;
mod start;
mod study;
mod tickets;

use std::collections::BTreeSet;
use std::sync::Arc;

pub use apply::apply;
pub use edit::edit as edit_draft;
pub use edits::{Edit, Entered};
pub use error::CommandError;
pub use instrument::InstrumentDetails;
pub use learner::LearnerDetails;
pub use many::{Removal, removal};
pub use milestone::MilestoneDetails;

pub use crate::records::{Change, Made};

use crate::records::{
    Bundle, Day, Device, Ended, ExaminerId, Layout, LearnerId, MarkingId, MilestoneId, Moment,
    NamedColumn, PictureBytes, PieceId, Record, RecordKey, Role, RubricDraftId, SignedDigest,
    SittingId, SittingKind, StudyFacts, StudyId, Unit,
};

/// One act of a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Command {
    /// Adds a learner.
    AddLearner {
        /// As written on sheets.
        name: String,
        /// A number that tells people of one name apart.
        given_number: Option<String>,
    },
    /// Writes what is known of a learner; a field that is alike before and after stays as
    /// it is by now.
    SetLearner {
        /// Who.
        learner: LearnerId,
        /// What stood there when the person began.
        before: Box<LearnerDetails>,
        /// What is to stand there.
        after: Box<LearnerDetails>,
    },
    /// Notes something on a day of a learner's training; the learner reads it.
    AddMilestone {
        /// Whose training.
        learner: LearnerId,
        /// When it was.
        day: Day,
        /// What it was, in one line.
        text: String,
    },
    /// Writes a milestone anew, takes it back or undoes that; a field that is alike before
    /// and after stays as it is by now.
    SetMilestone {
        /// Which.
        milestone: MilestoneId,
        /// What stood there when the person began.
        before: Box<MilestoneDetails>,
        /// What is to stand there.
        after: Box<MilestoneDetails>,
    },
    /// Adds an instrument, or writes what is known of one; a field that is alike before
    /// and after stays as it is by now.
    SetInstrument {
        /// Its short name, such as `caliper`.
        id: String,
        /// What stood there when the person began; `None` adds it.
        before: Option<Box<InstrumentDetails>>,
        /// What is to stand there.
        after: Box<InstrumentDetails>,
    },
    /// Begins an instrument study; parts and people whose id is 0 get one.
    BeginStudy {
        /// What is typed of it.
        facts: Box<StudyFacts>,
    },
    /// Writes what is typed of an instrument study, down to a single reading; what is alike
    /// before and after stays as it is by now. Parts and people whose id is 0 are new.
    SetStudy {
        /// Which one.
        study: StudyId,
        /// What stood there when the person began.
        before: Box<StudyFacts>,
        /// What is to stand there; the other way round it is undone.
        after: Box<StudyFacts>,
    },
    /// Sets an instrument study aside, or brings it back.
    SetStudyAside {
        /// Which one.
        study: StudyId,
        /// Whether it is to be aside.
        set_aside: bool,
    },
    /// Writes what the columns of tables are called, which of them there are and in which
    /// order; of two tabs the later one counts as a whole.
    SetColumns {
        /// Of which tables.
        layout: Layout,
        /// The columns; none stand for the usual ones.
        columns: Vec<NamedColumn>,
    },
    /// Adds an examiner.
    AddExaminer {
        /// As written on sheets.
        name: String,
    },
    /// Begins a piece and its first marking.
    StartPiece(Box<StartPiece>),
    /// Begins a piece and its first marking for each ticket of a sitting, or nothing at all.
    IssueTickets(Box<IssueTickets>),
    /// Says whose ticket a piece has, while nothing of it is sealed.
    LinkTicket {
        /// The piece.
        piece: PieceId,
        /// Whose it is; `None` where that is not known.
        learner: Option<LearnerId>,
    },
    /// Begins one more marking of a piece that is here.
    MarkAgain(Box<MarkAgain>),
    /// Begins the marking that examiners agree on, from what they have sealed.
    Agree(Box<Agree>),
    /// Says how the making of a piece ended, or that it goes on.
    SetEnded {
        /// The piece.
        piece: PieceId,
        /// How it ended.
        ended: Option<Ended>,
    },
    /// Changes one field of a draft.
    Edit {
        /// The draft.
        marking: MarkingId,
        /// What to change.
        edit: Box<Edit>,
    },
    /// Fixes a draft for good.
    Seal {
        /// The draft.
        marking: MarkingId,
        /// Random bytes that the salts are made from; used once, kept nowhere.
        seed: [u8; 32],
        /// Now.
        at: Moment,
        /// What the key of this device says to the digest that the seal is going to have.
        /// Where it comes out another, as another tab has written meanwhile, the marking
        /// is sealed without it.
        signature: Option<Box<SignedDigest>>,
    },
    /// Begins a correction of a sealed marking, with all that is in that one.
    Amend(Box<Amend>),
    /// Erases what was written in a sealed marking: its comments, its overall comment and
    /// its photos. That cannot be undone.
    EraseText {
        /// The sealed marking.
        marking: MarkingId,
        /// Now.
        at: Moment,
    },
    /// Erases all that says who a learner is: name, details, milestones, and what was written
    /// and photographed at their pieces, which are all sealed. Marks stay. That cannot be undone.
    EraseLearner {
        /// Who.
        learner: LearnerId,
        /// Now.
        at: Moment,
    },
    /// Takes a file's records into the ledger, each as it stands in the file.
    TakeOver {
        /// The file as read.
        bundle: Arc<Bundle>,
        /// Keys under which something is stored that cannot be read: left alone.
        leave: BTreeSet<RecordKey>,
    },
    /// Throws a draft away, and its piece where nothing else hangs on it.
    DeleteDraft {
        /// The draft.
        marking: MarkingId,
    },
    /// Begins a rubric in work.
    DraftRubric {
        /// What it starts from.
        text: String,
    },
    /// Writes a rubric in work anew.
    WriteRubric {
        /// Which one.
        draft: RubricDraftId,
        /// Its whole text from now on.
        text: String,
    },
    /// Throws a rubric in work away.
    DropRubricDraft {
        /// Which one.
        draft: RubricDraftId,
    },
    /// Keeps a rubric to mark by. From then on its text never changes.
    KeepRubric {
        /// The rubric.
        rubric: Box<RubricText>,
        /// The one in work that it came from, which is then done.
        draft: Option<RubricDraftId>,
    },
    /// Removes a kept rubric that no piece was made to.
    RemoveRubric {
        /// Its digest.
        digest: String,
    },
    /// Keeps a picture. One that is here already is written again, as its bytes may have
    /// been lost.
    KeepPicture {
        /// The whole file.
        bytes: PictureBytes,
    },
    /// Throws away the pictures that nothing names any more.
    DropUnusedPictures,
    /// Takes records in as they are; what is here already stays as it is.
    Include {
        /// All of them.
        records: Vec<Record>,
    },
    /// Throws away every record that a device made, sealed or not, whoever wrote it
    /// since; see [`removal`] for what stays.
    RemoveMadeBy {
        /// The device.
        device: Device,
    },
    /// Releases to its learners what examiners gave in a mock or exam sitting.
    Release {
        /// The sitting.
        sitting: SittingId,
        /// Who releases.
        by: ExaminerId,
        /// Now.
        at: Moment,
    },
    /// Holds it back again, as people make mistakes; what was shown or printed before is
    /// not undone.
    HoldBack {
        /// The sitting.
        sitting: SittingId,
        /// Who holds back.
        by: ExaminerId,
        /// Now.
        at: Moment,
    },
    /// Notes that the learner of a piece was told what to make of its marks.
    GiveFeedback {
        /// The piece.
        piece: PieceId,
        /// Who told them.
        by: ExaminerId,
        /// Now.
        at: Moment,
    },
    /// Takes that note back.
    TakeBackFeedback {
        /// The piece.
        piece: PieceId,
    },
}

impl Command {
    /// Changes one field of a draft.
    pub fn edit(marking: MarkingId, edit: Edit) -> Self {
        Self::Edit {
            marking,
            edit: Box::new(edit),
        }
    }
}

/// Who made a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Who {
    /// A learner of the ledger.
    Learner(LearnerId),
    /// A learner by name: the one of that name, or a new one.
    Name(String),
    /// The number tied to the piece.
    Ticket {
        /// The number.
        ticket: String,
        /// Whose it is, where that is known; stays hidden until sealing.
        learner: Option<LearnerId>,
    },
}

/// A rubric as the rubric room read it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RubricText {
    /// Its digest.
    pub digest: String,
    /// Its own id.
    pub rubric_id: String,
    /// Its version.
    pub version: String,
    /// Its title.
    pub title: String,
    /// The whole file.
    pub text: String,
}

/// What is said when a piece is begun.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StartPiece {
    /// Who makes it.
    pub who: Who,
    /// What it is made to and marked by.
    pub rubric: RubricText,
    /// Why it is made.
    pub sitting: SittingKind,
    /// When.
    pub day: Day,
    /// Who marks: the examiner of that name, or a new one. Without a name an own
    /// marking is by the maker.
    pub examiner: String,
    /// What a bare number means on the sheet.
    pub unit: Unit,
    /// What the marking counts as.
    pub role: Role,
    /// The maker's own marking, begun beside that one.
    pub own: Option<OwnMarking>,
    /// Now.
    pub at: Moment,
    /// The second examiner's name, whose marking is begun beside the first one's.
    pub second: Option<String>,
}

/// What is said when tickets of a sitting are issued.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IssueTickets {
    /// In the order in which they are marked.
    pub tickets: Vec<TicketAsked>,
    /// Whether learners stay unnamed on pages until the marking is sealed.
    pub hidden: bool,
    /// What the pieces are made to and marked by.
    pub rubric: RubricText,
    /// Why they are made.
    pub sitting: SittingKind,
    /// When.
    pub day: Day,
    /// Who marks: the examiner of that name, or a new one.
    pub examiner: String,
    /// What a bare number means on their sheets.
    pub unit: Unit,
    /// Now.
    pub at: Moment,
}

impl IssueTickets {
    /// So many at once: more than work in any forge at a time, and few enough for a slip of the
    /// pen to be seen.
    pub const MOST: usize = 60;
}

/// One ticket to issue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TicketAsked {
    /// Its number.
    pub ticket: String,
    /// Whose it is: the learner of that name, or a new one. `None` where that is not known.
    pub learner: Option<String>,
}

/// A marking by the maker, begun with the examiner's.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OwnMarking {
    /// What the maker marks by; `None` is the piece's own rubric.
    pub rubric: Option<RubricText>,
}

/// What is said when a piece is marked once more: by its maker, or by another
/// examiner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MarkAgain {
    /// The piece.
    pub piece: PieceId,
    /// Who marks: the examiner of that name, or a new one. Without a name an own
    /// marking is by the maker.
    pub examiner: String,
    /// What it is marked by; `None` is the rubric that the piece is made to. Only its
    /// maker may take another.
    pub rubric: Option<RubricText>,
    /// What a bare number means on the sheet.
    pub unit: Unit,
    /// What the marking counts as: own, first, second or third, each once a piece.
    pub role: Role,
    /// Now.
    pub at: Moment,
}

/// What is said when examiners begin to agree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Agree {
    /// The piece.
    pub piece: PieceId,
    /// Who writes the agreed marking: the examiner of that name, or a new one.
    pub examiner: String,
    /// Now.
    pub at: Moment,
}

/// What is said when a sealed marking is corrected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amend {
    /// The sealed marking, which is an examiner's and which nothing replaces yet.
    pub marking: MarkingId,
    /// Who corrects: the examiner of that name, or a new one.
    pub examiner: String,
    /// Why, printed on both sheets.
    pub reason: String,
    /// Now.
    pub at: Moment,
}
