//! Which measure of a photo fills a reading: those that fit what the text says of it.

use std::sync::LazyLock;

use super::fields::READING;
use super::form::{FieldKind, FormField, FormPart};
use super::plan::{dom, fields, part};
use crate::piece::Feature;
use crate::quantity::Dimension;
use crate::rubric::edit::{Outline, Path};

type Words = Vec<(&'static str, &'static str)>;

/// What a photo is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Asked {
    /// One reading, at several places where the text says so.
    Reading,
    /// A left and a right reading.
    Pair,
    /// A series of readings.
    Series,
}

/// The field of the reading at `at`. There is none where no measure fits and none is written.
pub(super) fn photo_field(outline: &Outline, at: &Path, asked: Asked) -> Option<FormField> {
    let path = at.key("photo");
    let words = fitting(outline, at, asked);
    (!words.is_empty() || outline.has(&path)).then_some(FormField {
        path,
        label: "From a photo",
        hint: "Only where the note asks for the very same.",
        kind: FieldKind::Perhaps(words),
    })
}

/// The readings that criteria name, where the text has any.
pub(super) fn readings(outline: &Outline) -> Option<FormPart> {
    let list = Path::root().key("readings");
    let count = outline.count(&list);
    let one = |index| {
        let at = list.at(index);
        let photo = photo_field(outline, &at, Asked::Reading);
        let found = fields(&at, READING).into_iter().chain(photo).collect();
        FormPart {
            name: Some(at.key("name")),
            ..part(&dom(&at), "Reading", found)
        }
    };
    (count > 0).then(|| FormPart {
        parts: (0..count).map(one).collect(),
        ..part("readings", "Readings that criteria name", Vec::new())
    })
}

fn fitting(outline: &Outline, at: &Path, asked: Asked) -> &'static [(&'static str, &'static str)] {
    let measures = outline.text(&at.key("measures"));
    let is_angle = match measures.as_deref() {
        None => false,
        Some(word) if word == Dimension::Length.word() => false,
        Some(word) if word == Dimension::Angle.word() => true,
        Some(_) => return &[],
    };
    let several = outline.text(&at.key("several_places")).as_deref() == Some("true");
    match (asked, is_angle) {
        (Asked::Reading, true) => &ANGLES,
        (Asked::Reading, false) if several => &LENGTHS,
        (Asked::Reading, false) => &SINGLE_LENGTHS,
        (Asked::Pair, false) => &PAIRS,
        (Asked::Series, false) => &SERIES,
        // No angle of a photo is one of a pair, or of a series.
        (Asked::Pair | Asked::Series, true) => &[],
    }
}

static ANGLES: LazyLock<Words> = LazyLock::new(|| those(Feature::is_angle));
static LENGTHS: LazyLock<Words> = LazyLock::new(|| those(|one| !one.is_angle()));
static SINGLE_LENGTHS: LazyLock<Words> =
    LazyLock::new(|| those(|one| !one.is_angle() && !one.is_many()));
static SERIES: LazyLock<Words> = LazyLock::new(|| those(|one| !one.is_angle() && one.is_many()));
static PAIRS: LazyLock<Words> = LazyLock::new(|| {
    let words = Feature::ALL.into_iter().map(Feature::word);
    let stems = words.filter_map(|word| word.strip_suffix(" left"));
    stems.map(|stem| (stem, stem)).collect()
});

fn those(fits: impl Fn(Feature) -> bool) -> Words {
    let all = Feature::ALL.into_iter().filter(|one| fits(*one));
    all.map(|one| (one.word(), one.word())).collect()
}
