use super::Outcome;
use super::signature::{SignatureFound, Signed};
use crate::output::json::SealedFile;
use crate::records::{Moment, PersonalText};
use crate::rubric::read_rubric;
use crate::sheet::{Document, Scored, text_lines, verified};

/// What the file of one sealed marking turned out to be.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkingFound {
    /// How far it can be relied on.
    pub outcome: Outcome,
    /// The verdict in a few words.
    pub verdict: String,
    /// What it means, sentence by sentence.
    pub says: Vec<String>,
    /// What became of each personal text, a line each.
    pub texts: Vec<String>,
    /// What the marking says; `None` where its rubric cannot be read.
    pub document: Option<Document>,
    /// The digest of the document in the file, as 64 hex letters.
    pub digest: String,
    /// Its signature to be checked, or what is known without that.
    pub signed: Result<Signed, SignatureFound>,
}

const INTACT: &str = "All readings, levels, faults, states, the occasion and the rubric have the \
    digest that the file states. Compare that digest with the printed sheet: it tells that the \
    file is of that sheet.";
const ALTERED: &str = "What the file holds does not have the digest that it states. A digest tells \
    that something was changed, not what: compare the marks with the printed sheet, or ask for \
    another copy.";
const RUBRIC: &str = "The rubric’s text is not the one that its own digest names.";

const UNFIT: &str = "The signature does not fit";

impl MarkingFound {
    /// How far it can be relied on with what checking its signature found, and the verdict
    /// in a few words. A file that was changed may state a new digest that fits; a
    /// signature that does not fit tells of it.
    pub fn with_signature(&self, found: &SignatureFound) -> (Outcome, &str) {
        match found {
            SignatureFound::DoesNotFit | SignatureFound::Unreadable
                if self.outcome != Outcome::Altered =>
            {
                (Outcome::Altered, UNFIT)
            }
            _ => (self.outcome, &self.verdict),
        }
    }

    /// What `file` turned out to be.
    pub fn of(file: &SealedFile) -> Self {
        let records = &file.records;
        // Read anew: no text of a file may stand for one of the ledger.
        let rubric = read_rubric(&records.rubric.text).rubric;
        let scored = rubric
            .as_ref()
            .map(|rubric| Scored::of(records.parts(), rubric));
        let texts = scored
            .as_ref()
            .map(|scored| text_lines(scored, &file.personal));
        let outcome = outcome(file);
        let mut says = vec![if file.is_intact() { INTACT } else { ALTERED }.to_owned()];
        if !file.has_its_rubric() {
            says.push(RUBRIC.to_owned());
        }
        if scored.is_none() {
            says.push(
                "This version cannot read the rubric in it, so marks are not worked out; use a \
                 newer version."
                    .to_owned(),
            );
        }
        let agreement = records.marking.agreement.as_ref();
        let sources = agreement.map(|agreement| {
            let digests = agreement.from.iter().map(|from| from.digest.as_str());
            digests.collect::<Vec<_>>().join(", ")
        });
        says.extend(sources.iter().map(|digests| {
            format!(
                "It is an agreed marking: its marks are worked out from the markings with these \
                 digests, whose files are verified each by itself: {digests}"
            )
        }));
        Self {
            outcome,
            verdict: verdict(file, outcome, records.marking.erased),
            says,
            texts: texts.unwrap_or_default(),
            document: scored
                .as_ref()
                .filter(|_| sources.is_none())
                .map(|scored| verified(scored, &file.found)),
            digest: file.found.clone(),
            signed: Signed::of(records.marking.signature.as_ref(), &file.found),
        }
    }
}

fn outcome(file: &SealedFile) -> Outcome {
    let mut texts = file.personal.values();
    if !file.is_intact() {
        Outcome::Altered
    } else if texts.all(|text| *text == PersonalText::Same) {
        Outcome::Intact
    } else {
        Outcome::Partly
    }
}

fn verdict(file: &SealedFile, outcome: Outcome, erased: Option<Moment>) -> String {
    let has = |which: PersonalText| file.personal.values().any(|text| *text == which);
    match outcome {
        Outcome::Altered => "Altered since sealing".to_owned(),
        Outcome::Intact => "Intact: as it was sealed".to_owned(),
        Outcome::Partly if has(PersonalText::Changed) || has(PersonalText::Added) => {
            "Marks intact, but names or comments are not as they were sealed".to_owned()
        }
        Outcome::Partly => match erased {
            Some(at) => format!("Marks intact, personal text erased on {at}"),
            None => "Marks intact, personal text erased".to_owned(),
        },
    }
}
