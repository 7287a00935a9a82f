//! Handing marks over: to the learners of a sitting, with what to make of them to one.

use super::start::{examiners, sentence};
use crate::command::Command;
use crate::records::{ExaminerId, Ledger, Moment, PieceId, SittingId, Whom};
use crate::sheet::deed_words;

/// Something that somebody does with marks, who is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Handing {
    /// Releases those of a sitting.
    Release(SittingId),
    /// Holds them back again.
    HoldBack(SittingId),
    /// Has told the learner of a piece what to make of them.
    Feedback(PieceId),
}

impl Handing {
    /// What the way to it is called.
    pub fn button(self) -> &'static str {
        match self {
            Self::Release(_) => "Release marks",
            Self::HoldBack(_) => "Hold back",
            Self::Feedback(_) => "Give feedback",
        }
    }

    /// What is asked before.
    pub fn asks(self) -> &'static str {
        match self {
            Self::Release(_) => "Release these marks?",
            Self::HoldBack(_) => "Hold these marks back again?",
            Self::Feedback(_) => "Was feedback given?",
        }
    }

    /// What it does, sentence by sentence.
    pub fn does(self) -> &'static [&'static str] {
        match self {
            Self::Release(_) => &[
                "What examiners have sealed in this sitting is shown on its learners’ own pages \
                 from now on: marks, award, faults, what to practise. So is what they seal in it \
                 later.",
                "The sheets say when it was released and by whom. It can be held back again; what \
                 is shown or printed until then is not undone.",
            ],
            Self::HoldBack(_) => &[
                "The learners’ own pages no longer show what examiners gave in this sitting. The \
                 sheets say when it was held back and by whom.",
                "What was shown or printed before is not undone.",
            ],
            Self::Feedback(_) => &[
                "Go through the marks with the learner first: what cost them, and what to \
                 practise. Then note here that it was done.",
                "The sheet says when and by whom. A note made by mistake can be taken back.",
            ],
        }
    }

    /// What the one who does it is asked for by.
    pub fn who(self) -> &'static str {
        match self {
            Self::Release(_) => "Who releases",
            Self::HoldBack(_) => "Who holds back",
            Self::Feedback(_) => "Who gave it",
        }
    }

    /// The answer that does it.
    pub fn yes(self) -> &'static str {
        match self {
            Self::Release(_) => "Release them",
            Self::HoldBack(_) => "Hold them back",
            Self::Feedback(_) => "Note it",
        }
    }

    /// The command that the answer gives, where `chosen` is whoever does it, as
    /// [`HandingChoices`] has them.
    ///
    /// *Errors:* what to do, where nobody is chosen.
    pub fn read(self, chosen: &str, at: Moment) -> Result<Command, String> {
        let by: ExaminerId = chosen
            .parse()
            .map_err(|_| "Choose who it is: the sheets say so.".to_owned())?;
        Ok(match self {
            Self::Release(sitting) => Command::Release { sitting, by, at },
            Self::HoldBack(sitting) => Command::HoldBack { sitting, by, at },
            Self::Feedback(piece) => Command::GiveFeedback { piece, by, at },
        })
    }
}

/// Who can hand marks over.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HandingChoices {
    /// Value and name of each, before them the one that is no choice yet.
    pub options: Vec<(String, String)>,
    /// The value that is chosen at first: whoever of them has the name `last`, or the only
    /// one that there is; else none.
    pub chosen: String,
}

impl HandingChoices {
    /// Of `ledger`, where `last` is the examiner whom this device knows last.
    pub fn of(ledger: &Ledger, last: &str) -> Self {
        let known = examiners(ledger).map(|one| (one.id.to_string(), one.name.clone()));
        let known: Vec<_> = known.collect();
        let chosen = match known.as_slice() {
            [only] => Some(only),
            all => all.iter().find(|(_, name)| name == last),
        };
        Self {
            chosen: chosen.map(|(id, _)| id.clone()).unwrap_or_default(),
            options: [(String::new(), "Choose an examiner".to_owned())]
                .into_iter()
                .chain(known)
                .collect(),
        }
    }
}

/// Whether the learner of a piece was told what to make of its marks.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Feedback {
    /// When and by whom, as a sentence; empty where nobody has.
    pub given: String,
    /// The way to note it, where that can be done now.
    pub give: Option<Handing>,
}

impl Feedback {
    /// Of `piece`.
    pub fn of(ledger: &Ledger, piece: PieceId) -> Self {
        let given = ledger.piece(piece).and_then(|piece| piece.feedback);
        if let Some(deed) = given {
            let words = format!("feedback given {}", deed_words(ledger, deed));
            return Self {
                given: sentence(&words),
                give: None,
            };
        }
        let standing = ledger.standing_for(piece, Whom::Learner);
        Self {
            given: String::new(),
            give: standing.counts().map(|_| Handing::Feedback(piece)),
        }
    }
}
