//! Which measure of a photo fills a reading.

use super::table::{Source, Table};
use crate::piece::Feature;
use crate::quantity::Dimension;
use crate::rubric::model::{Kind, Rubric};

/// `photo` of one reading, which measures this, at several places or at one.
pub(super) fn read_photo(
    table: &Table<'_>,
    dimension: Dimension,
    several_places: bool,
) -> Option<Feature> {
    let words = Feature::ALL.map(|feature| (feature.word(), feature));
    let feature = table.word("photo", &words)?;
    if feature.is_many() && !several_places {
        let what = format!("a photo has several of `{feature}`, and this is one reading");
        table.error(
            "photo",
            what,
            "write several_places = true, or another word",
        );
        return None;
    }
    measures_alike(table, feature, dimension).then_some(feature)
}

/// `photo` of a series, which measures this.
pub(super) fn read_photo_series(table: &Table<'_>, dimension: Dimension) -> Option<Feature> {
    let many = Feature::ALL.into_iter().filter(|feature| feature.is_many());
    let words: Vec<(&'static str, Feature)> =
        many.map(|feature| (feature.word(), feature)).collect();
    let feature = table.word("photo", &words)?;
    measures_alike(table, feature, dimension).then_some(feature)
}

/// `photo` of a left and a right reading: a word without its side.
pub(super) fn read_photo_pair(table: &Table<'_>, dimension: Dimension) -> Option<[Feature; 2]> {
    let stems = Feature::ALL
        .iter()
        .filter_map(|feature| feature.word().strip_suffix(" left"));
    let words: Vec<(&'static str, [Feature; 2])> = stems
        .filter_map(|stem| Some((stem, Feature::pair(stem)?)))
        .collect();
    let pair = table.word("photo", &words)?;
    pair.iter()
        .all(|feature| measures_alike(table, *feature, dimension))
        .then_some(pair)
}

fn measures_alike(table: &Table<'_>, feature: Feature, dimension: Dimension) -> bool {
    let (asked, article) = match feature.is_angle() {
        true => (Dimension::Angle, "an"),
        false => (Dimension::Length, "a"),
    };
    if dimension == asked {
        return true;
    }
    let word = asked.word();
    let what = format!(
        "`{feature}` of a photo is {article} {word}, and this measures {}",
        dimension.word()
    );
    let remedy = format!("write measures = \"{word}\", or another word");
    table.error("photo", what, remedy);
    false
}

/// A reading is described where it first stands: `photo` of a criterion that marks one
/// described elsewhere would say nothing.
pub(super) fn check_photos(source: &Source<'_>, rubric: &Rubric) {
    let slots = rubric.slots();
    for entry in rubric.entries() {
        let photos = match &entry.criterion.kind {
            Kind::Toleranced(kind) => vec![kind.photo],
            Kind::Paired(kind) => match kind.photo {
                Some([left, right]) => vec![Some(left), Some(right)],
                None => Vec::new(),
            },
            Kind::Spread(kind) => vec![kind.photo],
            _ => Vec::new(),
        };
        for (reading, photo) in entry.criterion.measured().into_iter().zip(photos) {
            let id = rubric.slot_id(&entry, reading);
            let described = slots.iter().find(|slot| slot.id == id);
            if photo.is_some() && described.is_some_and(|slot| slot.photo != photo) {
                let place = source.place(&format!("criterion `{}`", entry.criterion.id), "photo");
                let what = format!("the reading `{reading}` is described elsewhere");
                source.error(place, what, "write photo there, and leave it out here");
            }
        }
    }
}
