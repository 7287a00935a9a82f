//! What a marking comes to among the others of its piece: the agreed one is made from
//! those of examiners, and there is no result before enough examiners have marked.

use std::collections::BTreeSet;

use super::ids::{MarkingId, PieceId};
use super::ledger::Ledger;
use super::marking::{Marking, Role};
use crate::conformity::decided;
use crate::marking::{self, Agreed, Award, Facts, Problem, Source, agree, mark_in};
use crate::rubric::{DecisionRule, Rubric};

/// Why a piece has no result yet although markings of it are sealed.
///
/// *Source:* common practice of end-point assessment in farriery, where at least two
/// examiners mark independently: fewer than the rubric asks for give no result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lack {
    /// Too few examiners have sealed a marking.
    Examiners {
        /// How many have.
        have: usize,
        /// How many the rubric asks for.
        need: usize,
    },
    /// The awards of two examiners differ, and the rubric asks for a third then.
    Third,
    /// All have marked, and no agreed marking of theirs is sealed.
    Agreement {
        /// How many have marked.
        have: usize,
    },
    /// The agreed marking is made from one that no longer counts.
    Replaced,
}

impl Lack {
    /// The lack in words: `one of two examiners has marked`.
    pub fn words(self) -> String {
        match self {
            Self::Examiners { have: 1, need } => {
                format!("one of {} examiners has marked", number(need))
            }
            Self::Examiners { have, need } => {
                format!("{} of {} examiners have marked", number(have), number(need))
            }
            Self::Third => "the awards of the two examiners differ, and the rubric asks for a \
                            third examiner then"
                .to_owned(),
            Self::Agreement { have } => format!(
                "{} examiners have marked, and no agreed marking of theirs is sealed yet",
                number(have)
            ),
            Self::Replaced => "a marking that it is made from was corrected since; make the \
                               agreed marking anew"
                .to_owned(),
        }
    }

    /// Takes the award from what a marking comes to.
    pub fn withhold(self, outcome: &mut marking::Marking) {
        outcome.award = Award::Incomplete;
        outcome.grade = None;
        outcome.award_reasons.insert(0, self.words());
    }
}

fn number(count: usize) -> String {
    let words = ["none", "one", "two", "three", "four", "five", "six"];
    words
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

const NOT_GUARDED: &str = "the rubric’s guarded decision is made of each examiner’s marking; \
    here the agreed marks decide by themselves";

impl Ledger {
    /// What a marking counted as before it was amended, the first time.
    pub fn first_role(&self, marking: &Marking) -> Role {
        let mut seen = BTreeSet::new();
        let mut at = marking;
        while let Some(replaces) = &at.replaces {
            // A file may hold two that name one another.
            let old = self.marking(replaces.marking);
            match old.filter(|old| seen.insert(old.id)) {
                Some(old) => at = old,
                None => break,
            }
        }
        at.role
    }

    /// The sealed markings of examiners of a piece that still count, the first examiner's
    /// first: what an agreed marking is made from. None while they may not be seen.
    pub fn examiners_markings(&self, piece: PieceId) -> Vec<&Marking> {
        let standing = self.standing(piece);
        if standing.is_unseen() {
            return Vec::new();
        }
        let mut markings = standing.by_examiners(self);
        markings.sort_by_key(|marking| (self.first_role(marking), marking.id));
        markings
    }

    /// The markings that an agreed one is made from, in its order; `None` where it is none,
    /// or one of them is not here as it was then.
    pub fn sources(&self, marking: &Marking) -> Option<Vec<&Marking>> {
        let from = &marking.agreement.as_ref()?.from;
        let found = from.iter().map(|made_from| {
            let source = self.marking(made_from.marking)?;
            let seal = source.seal.as_ref()?;
            (seal.digest == made_from.digest).then_some(source)
        });
        found.collect()
    }

    /// How an agreed marking, marked by `rubric`, comes about; `None` as
    /// [`Ledger::sources`].
    pub fn agreed(&self, marking: &Marking, rubric: &Rubric) -> Option<Agreed> {
        let sources = self.sources(marking)?;
        let sources: Vec<Source<'_, MarkingId>> = sources
            .into_iter()
            .map(|source| Source {
                id: source.id,
                who: self.examiner_name(source),
                facts: &source.facts,
                unit: source.unit,
            })
            .collect();
        let settled = &marking.agreement.as_ref()?.settled;
        Some(agree(rubric, &sources, settled, &marking.facts))
    }

    /// Who marked, or a word for somebody who is not in the ledger.
    pub fn examiner_name(&self, marking: &Marking) -> &str {
        self.examiner(marking.examiner)
            .map_or("an examiner", |examiner| &examiner.name)
    }

    /// What a marking's own facts come to by `rubric`, whoever else has marked.
    pub fn marked(&self, marking: &Marking, rubric: &Rubric) -> marking::Marking {
        if marking.agreement.is_none() {
            let outcome = mark_in(rubric, &marking.facts, marking.unit);
            return decided(outcome, rubric, &|| self.passes.of(marking, rubric));
        }
        if let Some(agreed) = self.agreed(marking, rubric) {
            let mut outcome = agreed.outcome;
            if rubric.award.decision != DecisionRule::Simple {
                outcome.award_reasons.push(NOT_GUARDED.to_owned());
            }
            return outcome;
        }
        let mut outcome = mark_in(rubric, &Facts::default(), marking.unit);
        outcome.problems.push(Problem {
            id: String::new(),
            message: "a marking that this one is made from is not in this ledger, or was \
                      changed; read the file back that holds it"
                .to_owned(),
        });
        outcome
    }

    /// What a marking comes to by `rubric`, with the award that the piece can have: none
    /// before enough examiners have marked and agreed.
    pub fn outcome(&self, marking: &Marking, rubric: &Rubric) -> marking::Marking {
        let mut outcome = self.marked(marking, rubric);
        if let Some(lack) = self.lack(marking, rubric) {
            lack.withhold(&mut outcome);
        }
        outcome
    }

    /// What keeps `marking` from giving its piece a result; a draft counts as if it were
    /// sealed. Its maker's own marking stands for nobody else's and lacks nothing.
    pub fn lack(&self, marking: &Marking, rubric: &Rubric) -> Option<Lack> {
        let standing = self.standing(marking.piece);
        let by_examiners = standing.by_examiners(self);
        if let Some(agreement) = &marking.agreement {
            let counts = |id: MarkingId| by_examiners.iter().any(|one| one.id == id);
            let all = agreement.from.iter().all(|from| counts(from.marking));
            return (!all).then_some(Lack::Replaced);
        }
        let need = usize::try_from(rubric.examiners).unwrap_or(usize::MAX);
        if !self.first_role(marking).is_examiners() || need < 2 {
            return None;
        }
        let is_new = marking.seal.is_none() && marking.replaces.is_none();
        let have = by_examiners.len() + usize::from(is_new);
        if have < need {
            return Some(Lack::Examiners { have, need });
        }
        if is_new {
            return Some(Lack::Agreement { have });
        }
        if self.asks_third(&by_examiners, rubric) {
            return Some(Lack::Third);
        }
        let agreed = standing
            .agreed()
            .and_then(|agreed| agreed.agreement.as_ref());
        let is_agreed = agreed.is_some_and(|agreement| {
            let is_in = |one: &&Marking| agreement.from.iter().any(|from| from.marking == one.id);
            by_examiners.iter().all(is_in)
        });
        (!is_agreed).then_some(Lack::Agreement { have })
    }

    /// Whether the rubric asks for a third examiner: two have marked, and their awards
    /// differ.
    pub fn asks_third(&self, by_examiners: &[&Marking], rubric: &Rubric) -> bool {
        let [one, other] = by_examiners else {
            return false;
        };
        let award = |marking: &Marking| self.marked(marking, rubric).award;
        rubric.moderation.third_examiner && award(one) != award(other)
    }
}
