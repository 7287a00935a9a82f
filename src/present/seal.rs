use super::scored::with_scored;
use super::scores::Rubrics;
use crate::command::Command;
use crate::records::{Ended, Ledger, MarkingId, Moment, PieceId};
use crate::sheet::capital;

/// What is told before a marking is sealed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealView {
    /// Marks given.
    pub marks: String,
    /// What they are of: `of 100`.
    pub out_of: String,
    /// The pass mark: `65 to pass`.
    pub pass: String,
    /// The award in a word.
    pub award: String,
    /// How many entries have no marks, empty for none: `3 entries are missing and
    /// count nothing`.
    pub missing_words: String,
    /// What the entries without marks are called.
    pub missing: Vec<String>,
    /// What was typed and cannot be used.
    pub problems: Vec<String>,
    /// Repeats that disagree.
    pub doubts: Vec<String>,
    /// Stops that stand.
    pub stops: Vec<String>,
    /// Who seals.
    pub examiner: String,
    /// How the piece ended, as [`EndedChoice::value`] has it.
    pub ended: String,
    /// Whether that may still be said: with the first seal of a piece it stands.
    pub asks_ended: bool,
    /// That another marking of the piece is still open, and what that means; empty where
    /// none is.
    pub open_words: &'static str,
}

const STILL_OPEN: &str = "Another marking of this piece is still open. What you seal now stays \
    unseen until that one is sealed too.";

/// Whether a marking of `piece` is sealed, so that the piece no longer changes.
fn is_fixed(ledger: &Ledger, piece: PieceId) -> bool {
    let mut markings = ledger.markings_of(piece);
    markings.any(|marking| marking.seal.is_some())
}

/// What sealing an incomplete marking means.
pub const SEALED_INCOMPLETE: &str = "It can be sealed as it is, as for a piece that was \
    withdrawn. It is then incomplete for good: the award says incomplete, and what is missing \
    counts nothing.";

/// What sealing does, sentence by sentence.
pub const SEALING_DOES: [&str; 3] = [
    "After sealing nothing in it can be changed. To correct it later, open its sheet: a \
     correction is a marking of its own with its reason, and both sheets stay.",
    "The whole text of the rubric is kept with it, so a later edit of the rubric changes no \
     marks.",
    "A digest (SHA-256) is printed on the sheet. Anyone can compute it again to see that nothing \
     was changed.",
];

/// A way for a piece to end, to choose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EndedChoice {
    /// What a form holds.
    pub value: &'static str,
    /// What it is called.
    pub title: Ended,
    /// What it means.
    pub note: &'static str,
}

/// Every way for a piece to end.
pub fn ended_choices() -> [EndedChoice; 6] {
    Ended::ALL.map(|title| EndedChoice {
        value: title.word(),
        title,
        note: match title {
            Ended::Finished => "handed in",
            Ended::UnfinishedAtTime => "not done when the time was up",
            Ended::Withdrawn => "given up by the maker",
            Ended::StoppedForSafety => "stopped by an examiner",
            Ended::BrokenOrRestarted => "broken, or begun again on fresh stock",
            Ended::NotPresented => "never begun",
        },
    })
}

impl EndedChoice {
    /// Its name with a capital.
    pub fn name(self) -> String {
        capital(self.title.word())
    }
}

/// What is told before `marking` is sealed; `None` where it is sealed, or it or its rubric
/// is not here or cannot be read.
pub fn seal_view(ledger: &Ledger, rubrics: &Rubrics, marking: MarkingId) -> Option<SealView> {
    let marking = ledger.marking(marking);
    let marking = marking.filter(|marking| marking.seal.is_none())?;
    let piece = marking.piece;
    let standing = ledger.standing(piece);
    let mut others = standing.drafts().iter();
    with_scored(ledger, rubrics, marking, |scored| {
        let outcome = &scored.outcome;
        let missing: Vec<String> = outcome
            .missing
            .iter()
            .map(|id| scored.name_of(id))
            .collect();
        let problems = outcome
            .problems
            .iter()
            .map(|problem| format!("{}: {}", scored.name_of(&problem.id), problem.message));
        let doubts = outcome
            .doubts
            .iter()
            .map(|doubt| format!("{}: {}", scored.name_of(&doubt.id), doubt.message));
        let stops = outcome.stops.iter().filter(|stop| stop.lifted.is_none());
        // What nobody said yet, the heat log may.
        let ended = ledger.ended(scored.parts.piece);
        let ended = ended.unwrap_or(Ended::Finished);
        SealView {
            marks: outcome.marks.to_string(),
            out_of: format!("of {}", outcome.out_of),
            pass: format!("{} to pass", outcome.pass_mark),
            award: outcome.award.word().to_owned(),
            missing_words: match missing.len() {
                0 => String::new(),
                1 => "1 entry is missing and counts nothing".to_owned(),
                count => format!("{count} entries are missing and count nothing"),
            },
            missing,
            problems: problems.collect(),
            doubts: doubts.collect(),
            stops: stops
                .map(|stop| format!("{}: {}", scored.name_of(&stop.entry), stop.why))
                .collect(),
            examiner: scored.examiner().to_owned(),
            ended: ended.word().to_owned(),
            asks_ended: !is_fixed(ledger, piece),
            open_words: if others.any(|other| other.id != marking.id) {
                STILL_OPEN
            } else {
                ""
            },
        }
    })
}

/// The commands that seal `marking` of a piece that ended so, in order; none where
/// it is not here or `ended` is no [`EndedChoice::value`].
pub fn seal_commands(
    ledger: &Ledger,
    marking: MarkingId,
    ended: &str,
    seed: [u8; 32],
    at: Moment,
) -> Vec<Command> {
    let piece = ledger
        .marking(marking)
        .and_then(|marking| ledger.piece(marking.piece));
    let ended = Ended::ALL.into_iter().find(|way| way.word() == ended);
    let (Some(piece), Some(ended)) = (piece, ended) else {
        return Vec::new();
    };
    let seal = Command::Seal {
        marking,
        seed,
        at,
        signature: None,
    };
    if piece.ended == Some(ended) || is_fixed(ledger, piece.id) {
        return vec![seal];
    }
    let set_ended = Command::SetEnded {
        piece: piece.id,
        ended: Some(ended),
    };
    vec![set_ended, seal]
}
