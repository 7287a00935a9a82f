use thiserror::Error;

use super::IssueTickets;
use crate::marking::heat_log::Refusal;
use crate::marking::{InstrumentFault, OutlineFault};

use crate::records::{
    ColumnFault, Day, Milestone, Moment, PictureError, RecordKey, Role, SealError, SittingKind,
    StudyFault,
};
use crate::rubric::ID_RULE;

/// Why a command is not carried out, and what to do instead.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CommandError {
    /// A name with nothing in it.
    #[error("{what} has no name; write one")]
    NoName {
        /// Whose name it is.
        what: &'static str,
    },
    /// A name and number that somebody has already.
    #[error("`{name}` is here already; choose that one, or add a number that tells the two apart")]
    NameTaken {
        /// The name as written.
        name: String,
    },
    /// A training that would end before it begins.
    #[error(
        "the planned end, {planned_end}, lies before the start, {started}; correct one of the two \
         dates"
    )]
    EndBeforeStart {
        /// When it began.
        started: Day,
        /// When it is to end.
        planned_end: Day,
    },
    /// A milestone that says nothing.
    #[error("a milestone says what it was; write it in a line")]
    MilestoneEmpty,
    /// A milestone that is no short note.
    #[error(
        "a milestone is one line of at most {most} characters, and this has {chars}; shorten it",
        most = Milestone::MOST_CHARS
    )]
    MilestoneTooLong {
        /// How many it has.
        chars: usize,
    },
    /// A name that several have.
    #[error("{count} learners are called `{name}`; choose one of them from the list")]
    NameOfMany {
        /// The name as written.
        name: String,
        /// How many have it.
        count: usize,
    },
    /// A ticket that another piece of the sitting has.
    #[error(
        "ticket {ticket} is in this sitting already; open that piece to mark it, or say first \
         that it was broken or restarted"
    )]
    TicketTaken {
        /// The ticket as written.
        ticket: String,
    },
    /// A ticket that stands twice in a list.
    #[error("ticket {ticket} stands twice in the list; give each piece a number of its own")]
    TicketTwice {
        /// The ticket as written.
        ticket: String,
    },
    /// A list of no tickets.
    #[error("there is no ticket in the list; write one a line, or how many there are to be")]
    NoTickets,
    /// More tickets than are issued at once.
    #[error("at most {most} tickets are issued at once; issue the rest after these", most = IssueTickets::MOST)]
    TooManyTickets,
    /// A piece that is known by its learner alone.
    #[error("this piece has no ticket, so nobody else can be said to have made it")]
    WithoutTicket,
    /// What no instrument study can have.
    #[error("{0}")]
    Study(StudyFault),
    /// Columns that no table can have.
    #[error("{0}")]
    Column(ColumnFault),
    /// A short name that no instrument can have.
    #[error("`{id}` is no short name of an instrument; {ID_RULE}")]
    InstrumentId {
        /// The name as written.
        id: String,
    },
    /// A short name that another instrument has.
    #[error(
        "`{id}` is the short name of {name} already; change that one, or give this one another"
    )]
    InstrumentTaken {
        /// The short name.
        id: String,
        /// What has it.
        name: String,
    },
    /// An instrument whose figures cannot be used.
    #[error("{name}: {fault}")]
    InstrumentRefused {
        /// What it is called.
        name: String,
        /// Which figure, and how to mend it.
        fault: InstrumentFault,
    },
    /// An outline that cannot be kept.
    #[error("{0}")]
    OutlineRefused(OutlineFault),
    /// A tap that makes no sense after those before it.
    #[error("{0}")]
    TapRefused(Refusal),
    /// A tap that is taken back and is not the last.
    #[error(
        "this tap is not the last any more, perhaps because of another tab; look at the log and \
         take back what is last"
    )]
    TapNotLast,
    /// A heat log that is to take another's taps over and has its own.
    #[error(
        "this heat log has taps of its own, perhaps from another tab; take them back first, or \
         go on with them"
    )]
    LogNotEmpty,
    /// Something that is not in the ledger.
    #[error(
        "{key} is not in this ledger: it was deleted, perhaps in another tab, or it could not \
         be read; if you still need it, enter it anew"
    )]
    Missing {
        /// What was looked for.
        key: RecordKey,
    },
    /// A marking, or the piece of one, that no longer changes.
    #[error(
        "this marking was sealed on {at} and no longer changes; to correct it, open its sheet and \
         choose Correct this marking"
    )]
    Sealed {
        /// When it was sealed.
        at: Moment,
    },
    /// A sealed marking that cannot be corrected.
    #[error("this marking cannot be corrected: {why}")]
    AmendRefused {
        /// Why, and what to do.
        why: &'static str,
    },
    /// A correction that nobody could understand later.
    #[error("a correction needs a reason, which both sheets say; write one")]
    NoReason,
    /// Comments of a draft.
    #[error("this marking is a draft; clear its comments on the mark sheet")]
    EraseDraft,
    /// A learner whose pieces are being marked.
    #[error(
        "{count} of this learner’s markings {} not sealed; seal or delete {} first",
        if *count == 1 { "is" } else { "are" }, if *count == 1 { "it" } else { "them" }
    )]
    EraseWithDrafts {
        /// How many.
        count: usize,
    },
    /// Somebody of whom nothing is known any more.
    #[error("this learner’s name was erased; add the learner anew")]
    NameErased,
    /// A piece that cannot be marked once more in this way.
    #[error("this piece cannot get a {} marking: {why}", .role.word())]
    RoleRefused {
        /// What the marking was to count as.
        role: Role,
        /// Why, and what to do.
        why: &'static str,
    },
    /// An agreed marking that is not agreed in all.
    #[error(
        "{count} of the criteria that the examiners marked differently are not settled yet; settle \
         each, with a reason where one is asked for"
    )]
    NotSettled {
        /// How many are open.
        count: usize,
    },
    /// Two texts under one digest.
    #[error(
        "the ledger holds another text of rubric `{title}` under the same digest; \
         reload the page, then choose the rubric again"
    )]
    RubricDiffers {
        /// The rubric's title.
        title: String,
    },
    /// A version that stands for another text already.
    #[error(
        "version {version} of `{rubric_id}` is kept already and says something else; \
         give this one another version"
    )]
    VersionTaken {
        /// The rubric's own id.
        rubric_id: String,
        /// Its version.
        version: String,
    },
    /// The id of a rubric that comes with the program.
    #[error(
        "`{rubric_id}` is the id of a rubric that comes with Evenshod; give yours an id of its own"
    )]
    IdOfShipped {
        /// The id as written.
        rubric_id: String,
    },
    /// A rubric that pieces were made to.
    #[error(
        "a piece was made to this rubric, so it stays; it is no longer offered once there is a \
         newer version"
    )]
    RubricInUse,
    /// A first impression that stands.
    #[error(
        "the first impression is locked: something has been measured or judged since; if that \
         was a slip, take it back with Undo"
    )]
    ImpressionLocked,
    /// A first impression that would be none.
    #[error(
        "something has been measured or judged already, so this would be no first impression; go \
         on without one"
    )]
    ImpressionLate,
    /// The part of the program that carries commands out is not there yet.
    #[error("the page is still being fetched; try again in a moment")]
    NotReady,
    /// The seal could not be made.
    #[error(transparent)]
    Seal(#[from] SealError),
    /// The picture is not kept.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// A sitting whose marks wait for nobody.
    #[error(
        "marks of a {} are released by sealing them; there is nothing to release or to hold back",
        .kind.word()
    )]
    NeedsNoRelease {
        /// What the sitting is for.
        kind: SittingKind,
    },
    /// A sitting of which examiners have sealed nothing.
    #[error("no examiner has sealed a marking of this sitting yet; seal one, then release it")]
    NothingSealed,
    /// A sitting that is still marked unseen.
    #[error(
        "of this sitting {} still open; seal every marking that is made unseen by others, or throw \
         it away, then release the sitting",
        match .count { 1 => "1 marking is".to_owned(), count => format!("{count} markings are") }
    )]
    StillOpen {
        /// How many markings.
        count: usize,
    },
    /// Feedback on marks that are held back.
    #[error("the marks of this sitting are not released yet; release them, then give feedback")]
    Held,
    /// Feedback on a piece without marks to be seen.
    #[error("no marking of this piece can be shown yet; seal it, then give feedback")]
    NothingToTell,
}
