use std::collections::BTreeMap;

use crate::conformity::{Certainty, Uncertain, mark_and_decide, measured_values};
use crate::marking::{Facts, Marking as Outcome};
use crate::records::{Ended, Lack, Ledger, Marking, Role, SealParts};
use crate::rubric::{Entry, Rubric, Slot};

use super::agreed::{AgreedParts, agreed_blocks};
use super::award::{notices, verdict, why};
use super::criteria::{CRITERIA, criteria_table};
use super::document::{Block, Document, Fact, Notice, Weight};
use super::handed::{Handed, handed_facts, held_blocks};
use super::impression::impression_sentence;
use super::kin::{self, Kin, kin_blocks};
use super::making::making;
use super::notes::{
    cautions, charged_once, comments, faults_and_practice, how_measured, time_facts,
};
use super::photos::photos;
use super::seal::{altered_blocks, checked, seal_blocks};
use super::specification::{piece_drawings, piece_facts};
use super::sure::decisive;
use super::words::{capital, join};

/// One marking with its records, its rubric and what it comes to.
#[derive(Debug)]
pub struct Scored<'a> {
    /// The records.
    pub parts: SealParts<'a>,
    /// The rubric, read from the text in the records.
    pub rubric: &'a Rubric,
    /// What the facts come to.
    pub outcome: Outcome,
    /// The marking that this one takes the place of, where it is known.
    pub before: Option<Kin>,
    /// The sealed marking that takes the place of this one, where it is known.
    pub after: Option<Kin>,
    pub(super) entries: Vec<Entry<'a>>,
    pub(super) slots: Vec<Slot<'a>>,
    /// How it came about, where it is the agreed one.
    pub(super) agreed: Option<AgreedParts<'a>>,
    /// What keeps it from giving the piece a result.
    pub lack: Option<Lack>,
    /// What each measured entry comes to, with its uncertainty.
    pub(super) uncertain: BTreeMap<String, Uncertain>,
    /// How sure it all is, once that is worked out.
    pub(super) certainty: Option<&'a Certainty>,
    /// How far it has come to the learner, where it is one of a ledger.
    pub(super) handed: Option<Handed>,
}

impl<'a> Scored<'a> {
    /// A marking of `ledger` by `rubric`, which is that of its text, with the award that
    /// the piece can have by it; `None` where a record is missing.
    pub fn in_ledger(ledger: &'a Ledger, marking: &'a Marking, rubric: &'a Rubric) -> Option<Self> {
        let parts = ledger.seal_parts(marking)?;
        Some(Self {
            agreed: AgreedParts::of(ledger, marking, rubric),
            lack: ledger.lack(marking, rubric),
            before: kin::before(ledger, marking),
            after: kin::after(ledger, marking),
            handed: Handed::of(ledger, marking),
            ..Self::with(parts, rubric, ledger.outcome(marking, rubric))
        })
    }

    /// Marks the facts in `parts` by `rubric`, which is that of the records' text, whoever
    /// else has marked the piece.
    pub fn of(parts: SealParts<'a>, rubric: &'a Rubric) -> Self {
        let marking = parts.marking;
        let outcome = mark_and_decide(rubric, &marking.facts, marking.unit);
        Self::with(parts, rubric, outcome)
    }

    fn with(parts: SealParts<'a>, rubric: &'a Rubric, outcome: Outcome) -> Self {
        Self {
            uncertain: measured_values(rubric, &parts.marking.facts),
            parts,
            rubric,
            outcome,
            before: None,
            after: None,
            entries: rubric.entries(),
            slots: rubric.slots(),
            agreed: None,
            lack: None,
            certainty: None,
            handed: None,
        }
    }

    /// The same with how sure it is.
    pub fn weighed(self, certainty: &'a Certainty) -> Self {
        Self {
            certainty: Some(certainty),
            ..self
        }
    }

    /// What was seen and measured.
    pub(super) fn facts(&self) -> &'a Facts {
        &self.parts.marking.facts
    }

    /// What the facts come to by themselves, whatever the piece still lacks.
    pub(super) fn plain(&self) -> Outcome {
        let marking = self.parts.marking;
        mark_and_decide(self.rubric, &marking.facts, marking.unit)
    }

    /// Whether the piece may be tied to its learner here: not while the name waits
    /// for the seal.
    pub fn names_learner(&self) -> bool {
        !self.parts.piece.hidden_until_sealed || self.parts.marking.seal.is_some()
    }

    /// The learner's name, where it may be said and is known.
    pub fn learner(&self) -> Option<&'a str> {
        let learner = self.parts.learner.filter(|_| self.names_learner());
        learner.map(|learner| learner.name.as_str())
    }

    /// Whether the maker marks.
    pub fn is_own(&self) -> bool {
        self.parts.marking.role == Role::Own
    }

    /// Who marks, as far as that may be said.
    pub fn examiner(&self) -> &'a str {
        if self.is_own() && !self.names_learner() {
            "the maker"
        } else {
            &self.parts.examiner.name
        }
    }

    /// What an entry or reading is called by its id.
    pub fn name_of(&self, id: &str) -> String {
        if let Some(entry) = self.entries.iter().find(|entry| entry.id == id) {
            return entry.name();
        }
        let slot = self.slots.iter().find(|slot| slot.id == id);
        slot.map_or_else(|| id.to_owned(), |slot| slot.full_name())
    }
}

/// The scored sheet of one piece: what was asked for, each criterion with reading,
/// tolerance, marks and reason, faults with what to practise, the award and the seal.
pub fn scored_sheet(scored: &Scored<'_>) -> Document {
    let kind = if scored.is_own() {
        "The maker’s own sheet"
    } else if scored.agreed.is_some() {
        "Agreed sheet"
    } else {
        "Scored sheet"
    };
    let about = match &scored.parts.marking.seal {
        Some(seal) => format!("{kind}, sealed {}", seal.at),
        None => format!("{kind}. Draft, not sealed"),
    };
    let checked = checked(scored);
    let mut blocks = altered_blocks(&checked, "This marking");
    blocks.extend(kin_blocks(scored));
    blocks.extend(held_blocks(scored));
    if scored.parts.marking.seal.is_none() {
        blocks.push(notice(
            Weight::Warn,
            "Draft, not sealed. Marks may still change.",
            Vec::new(),
        ));
    }
    blocks.push(Block::Facts(who_and_when(scored)));
    blocks.push(Block::Verdict(verdict(scored)));
    blocks.extend(impression_sentence(scored).map(Block::Paragraph));
    blocks.extend(
        scored
            .certainty
            .and_then(|certainty| decisive(scored, certainty)),
    );
    blocks.extend(notices(scored));
    blocks.extend(why(scored));
    blocks.push(heading("The piece asked for"));
    blocks.push(Block::Facts(piece_facts(
        scored.rubric,
        scored.parts.marking.unit,
    )));
    blocks.extend(piece_drawings(scored.rubric, scored.parts.marking.unit));
    blocks.push(heading(CRITERIA));
    blocks.push(Block::Table(criteria_table(scored)));
    blocks.extend(agreed_blocks(scored));
    blocks.extend(how_measured(scored));
    blocks.extend(time_facts(scored));
    blocks.extend(making(scored));
    blocks.extend(charged_once(scored));
    blocks.extend(faults_and_practice(scored));
    blocks.extend(comments(scored));
    blocks.extend(photos(scored));
    blocks.extend(seal_blocks(scored, &checked));
    blocks.extend(cautions(scored));
    let chief = scored
        .outcome
        .stops
        .iter()
        .any(|stop| stop.lifted.is_some());
    let mut signs = vec!["Learner, date".to_owned()];
    if !scored.is_own() {
        signs.insert(0, "Examiner, date".to_owned());
    }
    if chief {
        signs.insert(signs.len() - 1, "Chief examiner, date".to_owned());
    }
    blocks.push(Block::Signatures(signs));
    Document {
        title: scored.rubric.title.clone(),
        about,
        language: "en-GB".into(),
        most_pages: Some(3),
        blocks,
    }
}

pub(super) fn heading(text: &str) -> Block {
    Block::Heading {
        level: 2,
        text: text.to_owned(),
    }
}

pub(super) fn notice(weight: Weight, text: impl Into<String>, items: Vec<String>) -> Block {
    Block::Notice(Notice {
        weight,
        text: text.into(),
        items,
    })
}

pub(super) fn who_and_when(scored: &Scored<'_>) -> Vec<Fact> {
    let parts = &scored.parts;
    let (marking, piece, sitting) = (parts.marking, parts.piece, parts.sitting);
    let mut facts = Vec::new();
    let mut push = |label: &'static str, value: String| {
        if !value.is_empty() {
            facts.push(Fact {
                label: label.into(),
                value,
            });
        }
    };
    let number = parts
        .learner
        .filter(|_| scored.names_learner())
        .and_then(|learner| learner.given_number.clone());
    let learner = match scored.learner() {
        Some(name) => join([name.to_owned(), number.unwrap_or_default()], ", "),
        None if piece.hidden_until_sealed && marking.seal.is_none() => {
            "not named before the seal".to_owned()
        }
        None if piece.learner.is_some() => "name no longer in this ledger".to_owned(),
        None => String::new(),
    };
    push("Learner", learner);
    push("Ticket", piece.ticket.clone().unwrap_or_default());
    let kind = capital(sitting.kind.word());
    push("Sitting", join([kind, sitting.name.clone()], ", "));
    push("Date", format!("{} {}", sitting.day.weekday(), sitting.day));
    if scored.is_own() {
        push("Marked by", scored.examiner().to_owned());
        push("Marking", "Own, by the maker".to_owned());
    } else {
        push("Examiner", scored.examiner().to_owned());
        push("Marking", capital(marking.role.word()));
    }
    if let Some(typist) = &marking.typist {
        push("Typed in from paper by", typist.clone());
    }
    if scored.names_learner() {
        push("Attempt", piece.attempt.to_string());
    }
    let ended = piece.ended.or_else(|| {
        let log = &marking.facts.heat_log;
        Ended::by_log(log).filter(|_| marking.seal.is_none())
    });
    let ended = ended.map_or("not said", Ended::word);
    push("Ended", capital(ended));
    push(
        "Rubric",
        format!(
            "{}, version {}",
            parts.rubric.rubric_id, parts.rubric.version
        ),
    );
    if let Some(qualification) = &scored.rubric.qualification {
        let named = [qualification.code.as_str(), qualification.title.as_str()];
        push("Qualification", join(named, ", "));
    }
    if let Some(replaces) = &marking.replaces {
        push("Stands for marking", replaces.marking.to_string());
        push("Because", replaces.reason.clone());
    }
    facts.extend(handed_facts(scored));
    facts
}
