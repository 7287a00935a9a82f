use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Display;
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::quantity::{Dimension, Exact, Length, Marks, Quantity, Unit, read_exact, read_quantity};
use crate::rubric::diagnostic::{Diagnostic, Severity};
use crate::rubric::model::Threshold;

/// What an id looks like, for messages.
pub const ID_RULE: &str =
    "use small letters, digits and hyphens, starting with a letter, at most 60";

/// Whether `text` may name something in rubrics and facts.
pub fn is_id(text: &str) -> bool {
    let is_part = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    text.len() <= 60
        && text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.chars().all(is_part)
}

/// The text that is read, and what was found wrong so far.
pub(super) struct Source<'t> {
    pub text: &'t str,
    pub bare_length: Unit,
    pub diagnostics: RefCell<Vec<Diagnostic>>,
    /// Where each key of each table stands, for what is checked afterwards.
    pub places: RefCell<BTreeMap<(String, String), Range<usize>>>,
}

/// Past this many a person mends the first ones anyway.
const MOST_DIAGNOSTICS: usize = 200;

impl Source<'_> {
    pub fn error(&self, span: Range<usize>, what: impl Into<String>, remedy: impl Into<String>) {
        self.report(Severity::Error, span, what, remedy);
    }

    pub fn warn(&self, span: Range<usize>, what: impl Into<String>, remedy: impl Into<String>) {
        self.report(Severity::Warning, span, what, remedy);
    }

    /// Whether nothing stands against using the file so far.
    pub fn has_no_errors(&self) -> bool {
        let found = self.diagnostics.borrow();
        found.iter().all(|found| found.severity != Severity::Error)
    }

    /// Where `key` of the table called `name` stands; the table itself where the
    /// key is missing.
    pub fn place(&self, name: &str, key: &str) -> Range<usize> {
        let places = self.places.borrow();
        let of = |key: &str| places.get(&(name.to_owned(), key.to_owned())).cloned();
        of(key).or_else(|| of("")).unwrap_or(0..0)
    }

    fn report(
        &self,
        severity: Severity,
        span: Range<usize>,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        let mut found = self.diagnostics.borrow_mut();
        if found.len() < MOST_DIAGNOSTICS {
            found.push(Diagnostic::new(severity, self.text, span, what, remedy));
        }
    }
}

/// One table of the file. Every key that is asked for counts as known; what is
/// left at the end is an error.
pub(super) struct Table<'s> {
    pub source: &'s Source<'s>,
    pub span: Range<usize>,
    name: String,
    entries: &'s DeTable<'s>,
    known: RefCell<BTreeSet<&'static str>>,
}

impl<'s> Table<'s> {
    pub fn new(
        source: &'s Source<'s>,
        entries: &'s DeTable<'s>,
        span: Range<usize>,
        name: impl Into<String>,
    ) -> Self {
        let known = RefCell::new(BTreeSet::new());
        Self {
            source,
            span,
            name: name.into(),
            entries,
            known,
        }
    }

    pub fn value(&self, key: &'static str) -> Option<&'s Spanned<DeValue<'s>>> {
        self.known.borrow_mut().insert(key);
        self.entries.get(key)
    }

    pub fn has(&self, key: &'static str) -> bool {
        self.value(key).is_some()
    }

    /// Where `key` stands, or the table where it is missing.
    pub fn span_of(&self, key: &'static str) -> Range<usize> {
        self.value(key)
            .map_or_else(|| self.span.clone(), Spanned::span)
    }

    pub fn error(&self, key: &'static str, what: impl Display, remedy: impl Into<String>) {
        let what = format!("{what} (`{key}` of {})", self.name);
        self.source.error(self.span_of(key), what, remedy);
    }

    pub fn missing(&self, key: &'static str, remedy: impl Into<String>) {
        let what = format!("{} has no `{key}`", self.name);
        self.source.error(self.span.clone(), what, remedy);
    }

    pub fn text(&self, key: &'static str) -> Option<String> {
        let value = self.value(key)?;
        let text = value.get_ref().as_str().map(|text| text.trim().to_owned());
        if text.is_none() {
            let found = with_article(value.get_ref().type_str());
            self.error(key, format!("this is {found}"), "write a text in quotes");
        }
        text
    }

    pub fn text_or_empty(&self, key: &'static str) -> String {
        self.text(key).unwrap_or_default()
    }

    pub fn needed_text(&self, key: &'static str) -> String {
        if !self.has(key) {
            self.missing(key, format!("add a line such as {key} = \"…\""));
            return String::new();
        }
        let text = self.text(key);
        if text.as_deref() == Some("") {
            self.error(key, "this text is empty", "write what people should read");
        }
        text.unwrap_or_default()
    }

    /// An id: letters, digits, `-` and `_`, starting with a small letter.
    pub fn id(&self, key: &'static str) -> Option<String> {
        let id = self.text(key)?;
        if is_id(&id) {
            return Some(id);
        }
        self.error(key, format!("`{id}` is not an id"), ID_RULE);
        None
    }

    pub fn needed_id(&self) -> String {
        if !self.has("id") {
            self.missing("id", "add a line such as id = \"bar-width\"");
        }
        self.id("id").unwrap_or_default()
    }

    /// A text, or a number taken as it is written.
    pub fn number_text(&self, key: &'static str) -> Option<String> {
        let value = self.value(key)?;
        let found = number_text_of(value.get_ref());
        if found.is_none() {
            let found = with_article(value.get_ref().type_str());
            self.error(
                key,
                format!("this is {found}"),
                "write a number, or a text in quotes",
            );
        }
        found
    }

    /// Reads a number's text with `read`; a fault becomes an error here.
    pub fn read<T, E: Display>(
        &self,
        key: &'static str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let text = self.number_text(key)?;
        match read(&text) {
            Ok(value) => Some(value),
            Err(fault) => {
                let (what, remedy) = split_message(&fault.to_string());
                self.error(key, what, remedy);
                None
            }
        }
    }

    pub fn exact(&self, key: &'static str) -> Option<Exact> {
        self.read(key, read_exact)
    }

    pub fn marks(&self, key: &'static str) -> Option<Marks> {
        self.exact(key).map(Marks)
    }

    pub fn needed_marks(&self, key: &'static str) -> Marks {
        if !self.has(key) {
            self.missing(key, format!("add a line such as {key} = 4"));
        }
        self.marks(key).unwrap_or(Marks::ZERO)
    }

    /// Marks that may not be below zero.
    pub fn positive_marks(&self, key: &'static str) -> Option<Marks> {
        let marks = self.marks(key)?;
        if marks.0.is_negative() {
            self.error(key, "marks below zero", "write zero or more");
        }
        Some(marks)
    }

    pub fn count(&self, key: &'static str) -> Option<u32> {
        let value = self.exact(key)?;
        let count = (value.denominator() == 1).then(|| u32::try_from(value.numerator()).ok());
        let count = count.flatten().filter(|count| *count <= 1000);
        if count.is_none() {
            self.error(
                key,
                format!("{value} is no count"),
                "write a whole number from 0 to 1000",
            );
        }
        count
    }

    /// A count of at least one.
    pub fn positive_count(&self, key: &'static str) -> Option<u32> {
        let count = self.count(key)?;
        if count == 0 {
            self.error(key, "this may not be zero", "write 1 or more");
            return None;
        }
        Some(count)
    }

    pub fn quantity(&self, key: &'static str, dimension: Dimension) -> Option<Quantity> {
        self.read(key, |text| {
            read_quantity(text, dimension, self.bare_unit(dimension))
        })
    }

    pub fn bare_unit(&self, dimension: Dimension) -> Unit {
        self.source.bare_length.or_usual(dimension)
    }

    /// A quantity that may not be below zero.
    pub fn positive(&self, key: &'static str, dimension: Dimension) -> Option<Quantity> {
        let quantity = self.quantity(key, dimension)?;
        if quantity.base.is_negative() {
            let what = format!("this {} is below zero", dimension.word());
            self.error(key, what, "write zero or more");
            return None;
        }
        Some(quantity)
    }

    pub fn length(&self, key: &'static str) -> Option<Length> {
        self.positive(key, Dimension::Length)
            .and_then(Length::nearest)
    }

    pub fn needed_length(&self, key: &'static str) -> Length {
        if !self.has(key) {
            self.missing(key, format!("add a line such as {key} = \"22 mm\""));
        }
        self.length(key).unwrap_or(Length::from_base(0))
    }

    pub fn threshold(&self, key: &'static str) -> Option<Threshold> {
        let text = self.number_text(key)?;
        if text.ends_with('%') {
            return self.percent(key).map(Threshold::Percent);
        }
        self.positive_marks(key).map(Threshold::Marks)
    }

    /// A share from 0 to 100 %, with or without its sign.
    pub fn percent(&self, key: &'static str) -> Option<Exact> {
        let percent = self.read(key, |text| read_exact(text.trim_end_matches('%')))?;
        if percent.is_negative() || percent > Exact::HUNDRED {
            self.error(
                key,
                "a share outside 0 to 100 %",
                "write a share such as \"65 %\"",
            );
            return None;
        }
        Some(percent)
    }

    /// One of a list of words.
    pub fn word<T: Copy>(&self, key: &'static str, words: &[(&'static str, T)]) -> Option<T> {
        let text = self.text(key)?;
        let found = words
            .iter()
            .find(|(word, _)| *word == text)
            .map(|(_, value)| *value);
        if found.is_none() {
            let all: Vec<_> = words
                .iter()
                .map(|(word, _)| format!("\"{word}\""))
                .collect();
            let what = format!("`{text}` is not known here");
            self.error(key, what, format!("use one of {}", all.join(", ")));
        }
        found
    }

    pub fn flag(&self, key: &'static str) -> bool {
        let Some(value) = self.value(key) else {
            return false;
        };
        let flag = value.get_ref().as_bool();
        if flag.is_none() {
            self.error(key, "this is neither true nor false", "write true or false");
        }
        flag.unwrap_or(false)
    }

    /// A list of texts or numbers, with their places.
    pub fn texts(&self, key: &'static str) -> Vec<(String, Range<usize>)> {
        let Some(value) = self.value(key) else {
            return Vec::new();
        };
        let Some(items) = value.get_ref().as_array() else {
            self.error(
                key,
                "this is no list",
                format!("write {key} = [\"…\", \"…\"]"),
            );
            return Vec::new();
        };
        let texts: Vec<_> = items
            .iter()
            .filter_map(|item| Some((number_text_of(item.get_ref())?, item.span())))
            .collect();
        if texts.len() < items.len() {
            self.error(
                key,
                "a member is neither text nor number",
                "write texts in quotes",
            );
        }
        texts
    }

    pub fn table(&self, key: &'static str) -> Option<Table<'s>> {
        let value = self.value(key)?;
        let Some(entries) = value.get_ref().as_table() else {
            self.error(
                key,
                "this is no table",
                format!("write {key} = {{ … }} or [{key}]"),
            );
            return None;
        };
        Some(Table::new(
            self.source,
            entries,
            value.span(),
            format!("`{key}`"),
        ))
    }

    /// A list of tables; each is named after its id where it has one.
    pub fn tables(&self, key: &'static str, one: &str) -> Vec<Table<'s>> {
        let Some(value) = self.value(key) else {
            return Vec::new();
        };
        let Some(items) = value.get_ref().as_array() else {
            self.error(key, "this is no list of tables", format!("write [[{key}]]"));
            return Vec::new();
        };
        let mut tables = Vec::new();
        for (index, item) in items.iter().enumerate() {
            let Some(entries) = item.get_ref().as_table() else {
                let what = format!("member {} of `{key}` is no table", index + 1);
                self.source
                    .error(item.span(), what, "write { … } with keys and values");
                continue;
            };
            let id = entries.get("id").and_then(|id| id.get_ref().as_str());
            let name = match id {
                Some(id) => format!("{one} `{id}`"),
                None => format!("{one} number {}", index + 1),
            };
            tables.push(Table::new(self.source, entries, item.span(), name));
        }
        tables
    }

    /// The number or text at a dotted path below this table.
    pub fn number_at(&self, path: &str) -> Option<String> {
        let mut keys = path.split('.');
        let mut value = self.entries.get(keys.next()?)?;
        for key in keys {
            value = value.get_ref().as_table()?.get(key)?;
        }
        number_text_of(value.get_ref())
    }

    /// Ends reading this table: every key that nobody asked for is an error.
    pub fn finish(self) {
        self.refuse_unknown();
    }

    /// Reports every key that nobody asked for.
    pub fn refuse_unknown(&self) {
        let known = self.known.borrow();
        let mut places = self.source.places.borrow_mut();
        places.insert((self.name.clone(), String::new()), self.span.clone());
        for (key, value) in self.entries {
            let written: &str = key.get_ref();
            places.insert((self.name.clone(), written.to_owned()), value.span());
            if known.contains(written) {
                continue;
            }
            let remedy = match known.iter().find(|known| is_near(known, written)) {
                Some(near) => format!("did you mean `{near}`?"),
                None => {
                    let all: Vec<_> = known.iter().copied().collect();
                    format!("known here: {}", all.join(", "))
                }
            };
            let what = format!("{} has no key `{written}`", self.name);
            self.source.error(key.span(), what, remedy);
        }
    }
}

/// Ids of one kind must differ; `what` is "a criterion" and the like.
pub(super) struct Ids<'s> {
    source: &'s Source<'s>,
    what: &'static str,
    seen: BTreeSet<String>,
}

impl<'s> Ids<'s> {
    pub fn new(source: &'s Source<'s>, what: &'static str) -> Self {
        Self {
            source,
            what,
            seen: BTreeSet::new(),
        }
    }

    pub fn add(&mut self, id: &str, span: Range<usize>) {
        if !id.is_empty() && !self.seen.insert(id.to_owned()) {
            let what = format!("{} with the id `{id}` stands here a second time", self.what);
            self.source.error(span, what, "give each an id of its own");
        }
    }
}

fn number_text_of(value: &DeValue<'_>) -> Option<String> {
    match value {
        DeValue::String(text) => Some(text.trim().to_owned()),
        DeValue::Integer(number) if number.radix() == 10 => Some(number.as_str().to_owned()),
        DeValue::Float(number) => Some(number.as_str().to_owned()),
        _ => None,
    }
}

fn with_article(word: &str) -> String {
    let article = if word.starts_with(['a', 'i']) {
        "an"
    } else {
        "a"
    };
    format!("{article} {word}")
}

/// "what; what to do" in two parts.
pub(super) fn split_message(message: &str) -> (String, String) {
    match message.split_once("; ") {
        Some((what, remedy)) => (what.to_owned(), remedy.to_owned()),
        None => (message.to_owned(), "see rubrics/README.md".to_owned()),
    }
}

/// Whether one slip of the hand turns one word into the other: a letter
/// missing, extra or wrong, two changed about, or a hyphen for an underscore.
fn is_near(known: &str, written: &str) -> bool {
    let plain = |text: &str| text.to_lowercase().replace(['-', ' '], "_");
    let (a, b): (Vec<char>, Vec<char>) = (
        plain(known).chars().collect(),
        plain(written).chars().collect(),
    );
    let (long, short) = if a.len() >= b.len() { (a, b) } else { (b, a) };
    let same_start = long.iter().zip(&short).take_while(|(x, y)| x == y).count();
    let same_end = long
        .iter()
        .rev()
        .zip(short.iter().rev())
        .take_while(|(x, y)| x == y)
        .count();
    let changed_about = long.get(same_start) == short.get(same_start + 1)
        && long.get(same_start + 1) == short.get(same_start);
    let slip = if changed_about { 2 } else { 1 };
    match long.len() - short.len() {
        0 => same_start + same_end + slip >= long.len() && long.len() > 2,
        1 => same_start + same_end >= short.len() && short.len() > 2,
        _ => false,
    }
}
