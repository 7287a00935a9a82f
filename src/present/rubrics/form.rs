use crate::rubric::edit::{Edit, Path, Step, Written};

/// The forms of a rubric in work. They hold places and words, no values, so that a form
/// stays as it is while somebody types in it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FormPlan {
    /// Its parts in the order of the file.
    pub parts: Vec<FormPart>,
    /// What can be added at its end.
    pub adds: Vec<Add>,
}

/// Fields under one heading, with parts of their own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormPart {
    /// Id of the document.
    pub dom: String,
    /// What it is called where it has no name of its own.
    pub title: String,
    /// Where its own name stands.
    pub name: Option<Path>,
    /// Its fields.
    pub fields: Vec<FormField>,
    /// Its lists, each item a row of fields.
    pub tables: Vec<FormTable>,
    /// Parts in it.
    pub parts: Vec<FormPart>,
    /// What can be added to it.
    pub adds: Vec<Add>,
    /// Moving it up, moving it down, taking it out; each where it can be.
    pub changes: Vec<Add>,
}

/// A list of tables, each a row of fields.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormTable {
    /// What it is called.
    pub title: &'static str,
    /// Where it stands.
    pub path: Path,
    /// Its rows.
    pub rows: Vec<FormRow>,
    /// What adds one.
    pub add: Add,
}

/// One item of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormRow {
    /// Its fields.
    pub fields: Vec<FormField>,
    /// What takes it out.
    pub remove: Add,
}

/// A button and what it does to the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Add {
    /// What it says.
    pub words: String,
    /// What it does.
    pub edit: Edit,
}

/// One field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormField {
    /// Where its value stands.
    pub path: Path,
    /// What it is called.
    pub label: &'static str,
    /// How to fill it in; may be empty.
    pub hint: &'static str,
    /// What it takes.
    pub kind: FieldKind,
}

/// What a field takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldKind {
    /// A line of text.
    Line,
    /// Several lines.
    Lines,
    /// A number, or an amount with its unit.
    Amount,
    /// One of these: word of the file and name for people.
    Choice(&'static [(&'static str, &'static str)]),
    /// One of these or none: word of the file and name for people.
    Perhaps(&'static [(&'static str, &'static str)]),
    /// True or false.
    Flag,
    /// A picture, written as its digest.
    Picture,
}

impl FieldKind {
    /// What there is to choose from: word of the file and name for people; `None` where it
    /// is typed.
    pub fn choices(self) -> Option<&'static [(&'static str, &'static str)]> {
        match self {
            Self::Choice(words) | Self::Perhaps(words) => Some(words),
            Self::Flag => Some(&[("true", "yes"), ("false", "no")]),
            Self::Line | Self::Lines | Self::Amount | Self::Picture => None,
        }
    }

    /// What is said of a choice where nothing is chosen.
    pub fn unchosen(self) -> &'static str {
        match self {
            Self::Perhaps(_) => "none",
            _ => "as usual",
        }
    }
}

impl FormField {
    /// Id of the document: alike for one place whatever else is added.
    pub fn dom(&self) -> String {
        format!("f-{}", self.path.to_string().replace('.', "-"))
    }
}

/// Keys that a rubric cannot be without, and limits of bands, whose fields would go with
/// them: emptied, they stay and say so.
const NEEDED: [&str; 13] = [
    "id", "version", "title", "name", "pass", "marks", "within", "under", "over", "at_most",
    "at_least", "from", "to",
];

/// What typing `text` into `field` does to the rubric's text: an emptied key goes, so
/// that its default holds.
pub fn field_edit(field: &FormField, text: &str) -> Edit {
    let at = field.path.clone();
    let key = match at.steps().last() {
        Some(Step::Key(key)) => key.as_str(),
        _ => "",
    };
    if text.trim().is_empty() && !NEEDED.contains(&key) {
        return Edit::Remove { at };
    }
    let text = text.to_owned();
    let to = match field.kind {
        FieldKind::Amount => Written::Amount(text),
        FieldKind::Flag => Written::Flag(text == "true"),
        FieldKind::Line
        | FieldKind::Lines
        | FieldKind::Choice(_)
        | FieldKind::Perhaps(_)
        | FieldKind::Picture => Written::Text(text),
    };
    Edit::Set { at, to }
}
