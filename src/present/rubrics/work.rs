use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use crate::command::{Command, RubricText};
use crate::marking::Facts;
use crate::quantity::counted;
use crate::records::{
    Device, ExaminerId, Marking, MarkingId, Moment, PieceId, Role, RubricDraftId, Stamp, Unit,
    sha256_hex,
};
use crate::rubric::edit::{Outline, Path};
use crate::rubric::{Rubric, Severity, read_rubric};

/// How far a rubric in work has come.
#[derive(Debug, Clone)]
pub struct Work {
    /// What stands where; `None` where the text is not TOML.
    pub outline: Option<Arc<Outline>>,
    /// Everything wrong and everything to look at, in the order of the text.
    pub troubles: Vec<Trouble>,
    /// The rubric, where nothing stands against using it.
    pub rubric: Option<Arc<Rubric>>,
}

/// Something wrong, or to look at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// Line, from 1.
    pub line: usize,
    /// The bytes that it is about.
    pub span: Range<usize>,
    /// Whether the rubric cannot be used before it is mended.
    pub is_error: bool,
    /// What is wrong and what would be right.
    pub text: String,
}

/// What stands beside the text: what goes before on its line, and what is said behind it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// The text up to the end of the line.
    pub before: String,
    /// What is wrong there.
    pub said: String,
    /// Whether it is an error.
    pub is_error: bool,
}

/// What to say of a file that is too long for a rubric; `None` where it is not.
pub fn too_long(name: &str, bytes: u64) -> Option<String> {
    // The reader of rubrics refuses more.
    (bytes > 1_000_000).then(|| {
        format!("{name} has more than a million bytes, so it is not a rubric; choose another file.")
    })
}

/// Reads `text` as far as it goes.
pub fn work(text: &str) -> Work {
    let checked = read_rubric(text);
    let troubles = checked.diagnostics.into_iter().map(|found| Trouble {
        line: found.line,
        span: found.span,
        is_error: found.severity == Severity::Error,
        text: format!("{}; {}", found.what, found.remedy),
    });
    Work {
        outline: Outline::of(text).ok().map(Arc::new),
        troubles: troubles.collect(),
        rubric: checked.rubric.map(Arc::new),
    }
}

impl Work {
    /// What is wrong with the value at `path`; nothing where it is sound or not there.
    pub fn troubles_at(&self, path: &Path) -> String {
        let span = self.outline.as_ref().and_then(|outline| outline.span(path));
        let Some(span) = span else {
            return String::new();
        };
        let own = self
            .troubles
            .iter()
            .filter(|trouble| span.start <= trouble.span.start && trouble.span.end <= span.end);
        own.map(|trouble| trouble.text.as_str())
            .collect::<Vec<_>>()
            .join(" ")
    }

    /// What is wrong with the list at `path` as a whole.
    pub fn troubles_on(&self, path: &Path) -> String {
        let span = self.outline.as_ref().and_then(|outline| outline.span(path));
        let own = self
            .troubles
            .iter()
            .filter(|trouble| Some(&trouble.span) == span.as_ref());
        own.map(|trouble| trouble.text.as_str())
            .collect::<Vec<_>>()
            .join(" ")
    }

    /// How it stands, in a line.
    pub fn words(&self) -> String {
        let errors = self.troubles.iter().filter(|trouble| trouble.is_error);
        let errors = errors.count();
        let warnings = self.troubles.len() - errors;
        let some =
            |count: usize, one: &str, many: &str| (count > 0).then(|| counted(count, one, many));
        let said: Vec<String> = [
            some(errors, "thing to mend", "things to mend"),
            some(warnings, "thing to look at", "things to look at"),
        ]
        .into_iter()
        .flatten()
        .collect();
        let ready = self.rubric.as_ref().map(|rubric| {
            let out_of = rubric.out_of();
            let out_of = out_of.map_or_else(String::new, |marks| marks.to_string());
            format!("Ready: {out_of} marks in all.")
        });
        let said = (!said.is_empty()).then(|| format!("{}.", said.join(", ")));
        let both: Vec<String> = ready.into_iter().chain(said).collect();
        both.join(" ")
    }
}

/// The text in pieces, each up to the end of a line that something is said about; what is
/// behind the last one has nothing said.
pub fn beside(text: &str, troubles: &[Trouble]) -> Vec<Beside> {
    let mut by_line: BTreeMap<usize, (String, bool)> = BTreeMap::new();
    for trouble in troubles {
        let (said, is_error) = by_line.entry(trouble.line).or_default();
        if !said.is_empty() {
            said.push_str(" · ");
        }
        said.push_str(&trouble.text);
        *is_error |= trouble.is_error;
    }
    let mut pieces = Vec::new();
    let mut before = String::new();
    for (index, line) in text.split('\n').enumerate() {
        if index > 0 {
            before.push('\n');
        }
        before.push_str(line);
        if let Some((said, is_error)) = by_line.remove(&(index + 1)) {
            pieces.push(Beside {
                before: std::mem::take(&mut before),
                said,
                is_error,
            });
        }
    }
    pieces.push(Beside {
        before,
        said: String::new(),
        is_error: false,
    });
    pieces
}

/// The command that keeps `text` to mark by.
///
/// *Errors:* in words, where it is not a rubric yet.
pub fn keep_command(text: &str, draft: Option<RubricDraftId>) -> Result<Command, String> {
    let checked = read_rubric(text);
    let first = checked.errors().next().map(ToString::to_string);
    let Some(rubric) = checked.rubric else {
        let first = first.unwrap_or_else(|| "it is empty".to_owned());
        return Err(format!("It cannot be kept yet: {first}."));
    };
    Ok(Command::KeepRubric {
        rubric: Box::new(RubricText {
            digest: sha256_hex(text.as_bytes()),
            rubric_id: rubric.id,
            version: rubric.version,
            title: rubric.title,
            text: text.to_owned(),
        }),
        draft,
    })
}

/// A marking that no ledger keeps, to try a rubric out on.
pub fn scratch(unit: Unit, at: Moment) -> Marking {
    Marking {
        id: MarkingId::LEAST,
        stamp: Stamp::first(0, Device::new("tried out", [0; 8])),
        piece: PieceId::LEAST,
        role: Role::First,
        examiner: ExaminerId::LEAST,
        order: 1,
        rubric: String::new(),
        unit,
        facts: Facts::default(),
        comments: BTreeMap::new(),
        overall: None,
        photos: Vec::new(),
        started: at,
        replaces: None,
        seal: None,
        agreement: None,
        signature: None,
        typist: None,
        erased: None,
    }
}
