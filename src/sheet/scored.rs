use crate::marking::{Marking as Outcome, mark_in};
use crate::records::SealParts;
use crate::rubric::{Entry, Rubric, Slot};

use super::award::{notices, verdict, why};
use super::criteria::criteria_table;
use super::document::{Block, Document, Fact, Notice, Weight};
use super::notes::{
    cautions, charged_once, comments, faults_and_practice, other_readings, time_facts,
};
use super::seal::seal_blocks;
use super::specification::piece_facts;
use super::words::{capital, entry_name, join, with_shoe};

/// One marking with its records, its rubric and what it comes to.
#[derive(Debug)]
pub struct Scored<'a> {
    /// The records.
    pub parts: SealParts<'a>,
    /// The rubric, read from the text in the records.
    pub rubric: &'a Rubric,
    /// What the facts come to.
    pub outcome: Outcome,
    pub(super) entries: Vec<Entry<'a>>,
    pub(super) slots: Vec<Slot<'a>>,
}

impl<'a> Scored<'a> {
    /// Marks the facts in `parts` by `rubric`, which is that of the records' text.
    pub fn of(parts: SealParts<'a>, rubric: &'a Rubric) -> Self {
        let marking = parts.marking;
        Self {
            parts,
            rubric,
            outcome: mark_in(rubric, &marking.facts, marking.unit),
            entries: rubric.entries(),
            slots: rubric.slots(),
        }
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

    /// What an entry or reading is called by its id.
    pub fn name_of(&self, id: &str) -> String {
        if let Some(entry) = self.entries.iter().find(|entry| entry.id == id) {
            return entry_name(entry);
        }
        let slot = self.slots.iter().find(|slot| slot.id == id);
        slot.map_or_else(|| id.to_owned(), |slot| with_shoe(&slot.name, slot.shoe))
    }
}

/// The scored sheet of one piece: what was asked for, each criterion with reading,
/// tolerance, marks and reason, faults with what to practise, the award and the seal.
pub fn scored_sheet(scored: &Scored<'_>) -> Document {
    let about = match &scored.parts.marking.seal {
        Some(seal) => format!("Scored sheet, sealed {}", seal.at),
        None => "Scored sheet. Draft, not sealed".to_owned(),
    };
    let mut blocks = Vec::new();
    if scored.parts.marking.seal.is_none() {
        blocks.push(notice(
            Weight::Warn,
            "Draft, not sealed. Marks may still change.",
            Vec::new(),
        ));
    }
    blocks.push(Block::Facts(who_and_when(scored)));
    blocks.push(Block::Verdict(verdict(scored)));
    blocks.extend(notices(scored));
    blocks.extend(why(scored));
    blocks.push(heading("The piece asked for"));
    blocks.push(Block::Facts(piece_facts(
        scored.rubric,
        scored.parts.marking.unit,
    )));
    blocks.push(heading("Criteria"));
    blocks.push(Block::Table(criteria_table(scored)));
    blocks.extend(other_readings(scored));
    blocks.extend(time_facts(scored));
    blocks.extend(charged_once(scored));
    blocks.extend(faults_and_practice(scored));
    blocks.extend(comments(scored));
    blocks.extend(seal_blocks(scored));
    blocks.extend(cautions(scored));
    let chief = scored
        .outcome
        .stops
        .iter()
        .any(|stop| stop.lifted.is_some());
    let mut signs = vec!["Examiner, date".to_owned(), "Learner, date".to_owned()];
    if chief {
        signs.insert(1, "Chief examiner, date".to_owned());
    }
    blocks.push(Block::Signatures(signs));
    Document {
        title: scored.rubric.title.clone(),
        about,
        language: "en-GB",
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

fn who_and_when(scored: &Scored<'_>) -> Vec<Fact> {
    let parts = &scored.parts;
    let (marking, piece, sitting) = (parts.marking, parts.piece, parts.sitting);
    let mut facts = Vec::new();
    let mut push = |label, value: String| {
        if !value.is_empty() {
            facts.push(Fact { label, value });
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
    push("Examiner", parts.examiner.name.clone());
    push("Marking", capital(marking.role.word()));
    if scored.names_learner() {
        push("Attempt", piece.attempt.to_string());
    }
    let ended = piece.ended.map_or("not said", crate::records::Ended::word);
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
    facts
}
<<<<<<< HEAD
=======

fn verdict(scored: &Scored<'_>) -> Verdict {
    let outcome = &scored.outcome;
    let (marks, pass) = (outcome.marks, outcome.pass_mark);
    let out_of = if outcome.complete {
        format!("of {}", outcome.out_of)
    } else {
        format!(
            "of {} so far, {} in all",
            outcome.marked_out_of, outcome.out_of
        )
    };
    let away = if outcome.complete {
        let off = marks.minus(pass).unwrap_or(marks);
        match off.0 {
            zero if zero.is_zero() => "exactly reached".to_owned(),
            under if under.is_negative() => {
                format!(
                    "{} short",
                    marks_words(crate::quantity::Marks(under.size()))
                )
            }
            _ => format!("{} over", marks_words(off)),
        }
    } else {
        format!("{} without marks", outcome.missing.len())
    };
    let grade = outcome.grade.as_ref().map(|grade| format!("grade {grade}"));
    let rest = join(
        [
            format!("{pass} to pass"),
            away,
            percent(outcome.percent),
            grade.unwrap_or_default(),
        ],
        "; ",
    );
    Verdict {
        award: capital(outcome.award.word()),
        marks: marks.to_string(),
        out_of,
        rest,
        ruler: total(&Total {
            marks: marks.0.to_f64(),
            pass: pass.0.to_f64(),
            out_of: outcome.out_of.0.to_f64(),
            pass_words: format!("pass {pass}"),
            title: format!("{marks} of {}; the pass mark is {pass}", outcome.out_of),
        }),
    }
}

/// Per cent to 0.1, ties away from zero (ISO 80000-1, annex B, rule B).
fn percent(percent: Exact) -> String {
    format!("{} %", print_decimal(percent, 1))
}

/// What must not be overlooked: stops, warnings, what has no marks, what cannot be
/// used.
fn notices(scored: &Scored<'_>) -> Vec<Block> {
    let outcome = &scored.outcome;
    let mut blocks = Vec::new();
    let (lifted, standing): (Vec<_>, Vec<_>) =
        outcome.stops.iter().partition(|stop| stop.lifted.is_some());
    let said =
        |stop: &&crate::marking::Stop| format!("{}: {}", scored.name_of(&stop.entry), stop.why);
    if !standing.is_empty() {
        let items = standing.iter().map(said).collect();
        blocks.push(notice(Weight::Stop, "Stopped by", items));
    }
    if !lifted.is_empty() {
        let items = lifted.iter().map(|stop| {
            let who = stop.lifted.as_ref();
            let who = who.map(|(by, why)| format!("lifted by {by}: {why}"));
            format!("{}; {}", said(stop), who.unwrap_or_default())
        });
        blocks.push(notice(
            Weight::Warn,
            "Stops lifted by the chief examiner",
            items.collect(),
        ));
    }
    if !outcome.warnings.is_empty() {
        let text = format!(
            "{} of {} warnings that stop the award",
            outcome.warnings.len(),
            scored.rubric.award.warnings_to_stop
        );
        let items = outcome.warnings.iter().map(|id| scored.name_of(id));
        blocks.push(notice(Weight::Warn, text, items.collect()));
    }
    if !outcome.missing.is_empty() {
        let items = outcome.missing.iter().map(|id| scored.name_of(id));
        blocks.push(notice(
            Weight::Warn,
            "Incomplete: these have no marks",
            items.collect(),
        ));
    }
    if !outcome.problems.is_empty() {
        let said = outcome
            .problems
            .iter()
            .map(|problem| join([scored.name_of(&problem.id), problem.message.clone()], ": "));
        blocks.push(notice(Weight::Warn, "Typed and not used", said.collect()));
    }
    blocks
}

fn why(scored: &Scored<'_>) -> Vec<Block> {
    let outcome = &scored.outcome;
    let rounding = format!(
        "{} of {} is {}: per cent is rounded to 0.1, halves away from zero; the award \
         compares exact marks",
        outcome.marks,
        outcome.out_of,
        percent(outcome.percent)
    );
    let reasons = outcome.award_reasons.iter().map(|reason| capital(reason));
    let word = match outcome.award {
        Award::Pass => "Why it passes",
        Award::NotYet => "Why not yet",
        Award::Undecided => "Why it is undecided",
        Award::Incomplete => "Why it is incomplete",
    };
    let items = reasons.chain([rounding]).map(Item::plain).collect();
    vec![heading(word), Block::Items(items)]
}
>>>>>>> main
