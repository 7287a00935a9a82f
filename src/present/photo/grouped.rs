use crate::gauge::{Measured, Shown};
use crate::piece::Feature;

/// What was measured of one feature, in turn where a shoe has several of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Group<'s> {
    /// The feature.
    pub feature: Feature,
    /// Its values; never none.
    pub each: &'s [Measured],
}

/// What was measured, by feature, in the order in which rows and numbers stand.
pub fn grouped(shown: &Shown) -> impl Iterator<Item = Group<'_>> {
    let groups = shown
        .measured
        .chunk_by(|one, other| one.feature == other.feature);
    groups.filter_map(|each| {
        let feature = Feature::from_word(&each.first()?.feature)?;
        Some(Group { feature, each })
    })
}
