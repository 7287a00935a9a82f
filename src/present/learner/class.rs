use std::collections::BTreeSet;

use super::works::works_of;
use super::{CourseAsked, learner_print, portfolio_document, practice_page};
use crate::job::Titled;
use crate::output::file_base;
use crate::present::scores::Rubrics;
use crate::records::{Day, LearnerId, Ledger, Moment, PieceId, Whom};

/// What can be handed to each learner of a class.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Handout {
    /// The learner's record.
    #[default]
    Record,
    /// The practice card.
    Card,
    /// The portfolio, with every piece.
    Portfolio,
}

impl Handout {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Record, Self::Card, Self::Portfolio];

    /// It in a word, as files are named.
    pub fn word(self) -> &'static str {
        match self {
            Self::Record => "learner-record",
            Self::Card => "practice-card",
            Self::Portfolio => "portfolio",
        }
    }

    /// That of this word; the usual one where there is none.
    pub fn from_word(word: &str) -> Self {
        let found = Self::ALL.into_iter().find(|one| one.word() == word);
        found.unwrap_or_default()
    }

    /// What a choice of it says: word, title, note.
    pub fn choice(self) -> (&'static str, &'static str, &'static str) {
        let (title, note) = match self {
            Self::Record => ("Learner’s record", "How it goes, on a page or two"),
            Self::Card => ("Practice card", "What to practise next, for the pocket"),
            Self::Portfolio => ("Portfolio", "What every piece is evidence for"),
        };
        (self.word(), title, note)
    }
}

/// What is handed to one learner; `None` where there is nothing to hand over yet.
///
/// It holds what is released, as all that is for learners does.
pub fn handout(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    what: Handout,
    now: Moment,
) -> Option<Titled> {
    let learner = ledger.learner(id)?;
    let works = works_of(ledger, id, Whom::Learner);
    let released = works.sealed.iter().filter(|work| work.marking.is_some());
    let released: BTreeSet<PieceId> = released.map(|work| work.piece.id).collect();
    if released.is_empty() {
        return None;
    }
    let document = match what {
        Handout::Record => learner_print(ledger, rubrics, id, &CourseAsked::default(), now),
        Handout::Card => practice_page(ledger, rubrics, id, now).map(|shown| shown.card),
        Handout::Portfolio => portfolio_document(ledger, rubrics, id, &released, now),
    };
    Some(Titled {
        base: file_base(now.day(), &learner.name, what.word()),
        document: document?,
    })
}

/// What a file with those of a class is called, without an ending, and inside.
pub fn class_title(what: Handout, day: Day) -> (String, String) {
    let (_, title, _) = what.choice();
    (
        file_base(day, "class", what.word()),
        format!("{title}s of a class, {day}"),
    )
}
