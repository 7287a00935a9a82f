use std::collections::BTreeMap;

use super::Outcome;
use super::digest::read_digest;
use super::signature::{SignatureFound, Signed};
use crate::present::makers::{maker_name, piece_words};
use crate::quantity::counted;
use crate::records::{Bundle, Ledger, Marking, MarkingId, PersonalText, SealCheck, check_seal};

/// Names listed one by one.
const TOLD: usize = 200;

/// A ledger file whose sealed markings are checked one at a time, so that a page stays
/// responsive and can stop.
#[derive(Debug)]
pub struct LedgerCheck {
    ledger: Ledger,
    from: String,
    trouble: Option<String>,
    sealed: Vec<MarkingId>,
    next: usize,
    found: Tally,
}

/// What was counted so far.
#[derive(Debug, Default)]
struct Tally {
    intact: usize,
    altered: Vec<String>,
    erased: usize,
    changed: Vec<String>,
    signed: usize,
    unfit: Vec<String>,
    unchecked: usize,
    /// Markings by digest, to look one up.
    digests: BTreeMap<String, String>,
}

/// One marking further.
#[derive(Debug)]
pub enum Step {
    /// All are checked.
    Done,
    /// One more is; its signature is to be checked, and told by [`LedgerCheck::signature`].
    Checked(Option<(MarkingId, Signed)>),
}

/// What a ledger file turned out to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LedgerFound {
    /// How far it can be relied on.
    pub outcome: Outcome,
    /// The verdict in a few words.
    pub verdict: String,
    /// Counts and what else there is to say, a sentence each.
    pub says: Vec<String>,
    /// Markings that were altered, by name.
    pub altered: Vec<String>,
    /// Markings whose names or comments are not as they were sealed.
    pub changed: Vec<String>,
    /// Markings whose signature does not fit.
    pub unfit: Vec<String>,
    /// Markings by digest.
    digests: BTreeMap<String, String>,
}

impl LedgerCheck {
    /// The sealed markings of `bundle`, none of them checked yet; `trouble` is what was
    /// wrong with the file as a whole.
    pub fn of(bundle: &Bundle, trouble: Option<String>) -> Self {
        let ledger = Ledger::of(bundle.records().iter().cloned());
        let sealed = ledger.markings().filter(|marking| marking.seal.is_some());
        let device = match bundle.device() {
            "" => String::new(),
            device => format!(" on {device}"),
        };
        Self {
            sealed: sealed.map(|marking| marking.id).collect(),
            from: format!("A ledger file, saved {}{device}.", bundle.written()),
            ledger,
            trouble,
            next: 0,
            found: Tally::default(),
        }
    }

    /// How far it has come: `412 of 5000 sealed markings checked`.
    pub fn progress(&self) -> String {
        format!(
            "{} of {} checked",
            self.next,
            counted(self.sealed.len(), "sealed marking", "sealed markings")
        )
    }

    /// Checks one more.
    pub fn step(&mut self) -> Step {
        let Some(id) = self.sealed.get(self.next).copied() else {
            return Step::Done;
        };
        self.next += 1;
        let Some(marking) = self.ledger.marking(id) else {
            return Step::Checked(None);
        };
        let name = named(&self.ledger, marking);
        let parts = self.ledger.seal_parts(marking);
        let check = parts.and_then(|parts| check_seal(parts).ok());
        let found = &mut self.found;
        match check {
            Some(check) if check.intact => found.take_intact(&check, marking, name),
            _ => found.altered.push(name),
        }
        let digest = marking.seal.as_ref().map(|seal| seal.digest.as_str());
        let signed = Signed::of(marking.signature.as_ref(), digest.unwrap_or_default());
        match signed {
            Ok(signed) => Step::Checked(Some((id, signed))),
            Err(known) => {
                self.signature(id, &known);
                Step::Checked(None)
            }
        }
    }

    /// What checking the signature of `marking` found.
    pub fn signature(&mut self, marking: MarkingId, found: &SignatureFound) {
        match found {
            SignatureFound::Unsigned => {}
            SignatureFound::Fits(_) => self.found.signed += 1,
            SignatureFound::Unchecked => self.found.unchecked += 1,
            SignatureFound::DoesNotFit | SignatureFound::Unreadable => {
                let marking = self.ledger.marking(marking);
                let name = marking.map(|marking| named(&self.ledger, marking));
                self.found.unfit.extend(name);
            }
        }
    }

    /// Markings whose seal does not stand, by name, as far as they are checked.
    pub fn altered(&self) -> &[String] {
        &self.found.altered
    }

    /// What came of it, whether all are checked or not.
    pub fn found(&self) -> LedgerFound {
        let found = &self.found;
        let is_whole = self.next == self.sealed.len();
        let is_altered =
            self.trouble.is_some() || !found.altered.is_empty() || !found.unfit.is_empty();
        let is_partly = !found.changed.is_empty() || !is_whole;
        let outcome = match (is_altered, is_partly) {
            (true, _) => Outcome::Altered,
            (false, true) => Outcome::Partly,
            (false, false) => Outcome::Intact,
        };
        let verdict = match outcome {
            Outcome::Altered if self.trouble.is_some() && found.altered.is_empty() => {
                "Altered since it was saved".to_owned()
            }
            Outcome::Altered if found.altered.is_empty() => format!(
                "{} with a signature that does not fit",
                counted(found.unfit.len(), "marking", "markings")
            ),
            Outcome::Altered => format!(
                "{} altered since sealing",
                counted(found.altered.len(), "marking", "markings")
            ),
            _ if !is_whole => "Stopped before all were checked".to_owned(),
            Outcome::Partly => "Marks intact, but not all beside them".to_owned(),
            Outcome::Intact if self.sealed.is_empty() => "No sealed marking in it".to_owned(),
            Outcome::Intact => "Intact: every sealed marking is as it was sealed".to_owned(),
        };
        LedgerFound {
            outcome,
            verdict,
            says: self.says(),
            altered: listed(&found.altered),
            changed: listed(&found.changed),
            unfit: listed(&found.unfit),
            digests: found.digests.clone(),
        }
    }

    fn says(&self) -> Vec<String> {
        let found = &self.found;
        let mut says = vec![self.from.clone()];
        says.extend(self.trouble.clone());
        says.push(format!(
            "{}: {} intact, {} altered, {} with personal text erased.",
            self.progress(),
            found.intact,
            found.altered.len(),
            found.erased
        ));
        let signed = format!(
            "{} signed, {} with a signature that does not fit.",
            found.signed,
            found.unfit.len()
        );
        says.push(match found.unchecked {
            0 => signed,
            count => format!("{count} signed, which this browser does not check here."),
        });
        says
    }
}

impl Tally {
    fn take_intact(&mut self, check: &SealCheck, marking: &Marking, name: String) {
        self.intact += 1;
        let mut texts = check.personal.values();
        if texts.any(|text| *text == PersonalText::Erased) {
            self.erased += 1;
        }
        let mut texts = check.personal.values();
        if texts.any(|text| *text == PersonalText::Changed) {
            self.changed.push(name.clone());
        }
        let seal = marking.seal.as_ref();
        self.digests
            .extend(seal.map(|seal| (seal.digest.clone(), name)));
    }
}

impl LedgerFound {
    /// Whose marking the digest in `typed` is, in words.
    ///
    /// *Errors:* in words, for people, where it is no digest.
    pub fn compared(&self, typed: &str) -> Result<(bool, String), String> {
        Ok(match self.digests.get(&read_digest(typed)?) {
            Some(name) => (
                true,
                format!("The sheet’s digest is that of a marking in this file: {name}."),
            ),
            None => (
                false,
                "The sheet’s digest is not that of any intact marking in this file.".to_owned(),
            ),
        })
    }
}

fn named(ledger: &Ledger, marking: &Marking) -> String {
    let Some(piece) = ledger.piece(marking.piece) else {
        return format!("The marking {}", marking.id);
    };
    format!(
        "{}, {}, {}",
        maker_name(ledger, piece),
        piece_words(ledger, piece),
        marking.role.word()
    )
}

fn listed(names: &[String]) -> Vec<String> {
    let mut told: Vec<String> = names.iter().take(TOLD).cloned().collect();
    let more = names.len().saturating_sub(TOLD);
    if more > 0 {
        told.push(format!("And {more} more."));
    }
    told
}
