use crate::piece::{Feature, Foot};
use crate::quantity::{Dimension, Exact, Marks};

use super::Expression;
use super::model::{
    AppliesTo, Criterion, FirstImpression, Judged, Kind, Limit, Limits, Rubric, Section, SeenFrom,
    Shoe, Threshold, When,
};

/// One line of the mark sheet: a criterion, for one shoe or for the piece.
#[derive(Debug, Clone)]
pub struct Entry<'r> {
    /// `width`, or `near.width` where the piece has several shoes.
    pub id: String,
    /// The shoe, where the piece has several.
    pub shoe: Option<&'r Shoe>,
    /// Its section.
    pub section: &'r Section,
    /// Its criterion.
    pub criterion: &'r Criterion,
}

/// One thing to measure.
#[derive(Debug, Clone)]
pub struct Slot<'r> {
    /// Key of the readings: `thickness`, or `near.thickness`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// How it is taken.
    pub note: &'r str,
    /// The shoe, where the piece has several.
    pub shoe: Option<&'r Shoe>,
    /// What is measured.
    pub dimension: Dimension,
    /// Usual instrument.
    pub instrument: Option<&'r str>,
    /// How many members a series has; 1 for a single reading with its repeats.
    pub members: u32,
    /// Whether its readings are taken at several places and may differ.
    pub several_places: bool,
    /// Measure of a photo that fills it.
    pub photo: Option<Feature>,
    /// From where it is seen.
    pub seen_from: SeenFrom,
    /// When it is looked at.
    pub when: When,
    /// Whether it is a reading of `[[readings]]`, taken and not marked itself.
    pub is_named: bool,
    /// The entry that asks for it, the first of those that measure it; `None` for a named one.
    pub asked_by: Option<String>,
}

impl Entry<'_> {
    /// The criterion's name, with the shoe's where the piece has several.
    pub fn name(&self) -> String {
        with_shoe(&self.criterion.name, self.shoe)
    }
}

impl Slot<'_> {
    /// Its name, with the shoe's where the piece has several.
    pub fn full_name(&self) -> String {
        with_shoe(&self.name, self.shoe)
    }
}

fn with_shoe(name: &str, shoe: Option<&Shoe>) -> String {
    match shoe {
        Some(shoe) => format!("{name} ({})", shoe.name),
        None => name.to_owned(),
    }
}

impl Criterion {
    /// Most marks that the criterion can give, its weight counted; `None` on
    /// overflow.
    pub fn out_of(&self) -> Option<Marks> {
        self.most_unweighted().times(self.weight)
    }

    /// `marks` as they count, the weight applied; as they are where that overflows,
    /// which no rubric that was read without error can bring about.
    pub fn weighted(&self, marks: Marks) -> Marks {
        marks.times(self.weight).unwrap_or(marks)
    }

    /// Most marks before the weight.
    pub fn most_unweighted(&self) -> Marks {
        self.possible_marks()
            .into_iter()
            .max()
            .unwrap_or(Marks::ZERO)
    }

    /// Every number of marks that bands, levels or numbers name, before faults
    /// and weight.
    pub fn possible_marks(&self) -> Vec<Marks> {
        let of_scale = |scale: &super::model::Scale| {
            let bands = scale.bands.iter().map(|band| band.marks);
            bands.chain([scale.beyond]).collect()
        };
        match &self.kind {
            Kind::Toleranced(kind) => of_scale(&kind.scale),
            Kind::Paired(kind) => of_scale(&kind.scale),
            Kind::Spread(kind) => of_scale(&kind.scale),
            Kind::Tally(tally) => vec![tally.marks],
            Kind::Judged(Judged::Levels(levels)) => levels.iter().map(|l| l.marks).collect(),
            Kind::Judged(Judged::Numbers { allowed, .. }) => allowed.clone(),
            Kind::Faults(list) => vec![list.marks],
        }
    }

    /// The bands, of a measured criterion.
    pub fn scale(&self) -> Option<&super::model::Scale> {
        match &self.kind {
            Kind::Toleranced(kind) => Some(&kind.scale),
            Kind::Paired(kind) => Some(&kind.scale),
            Kind::Spread(kind) => Some(&kind.scale),
            _ => None,
        }
    }

    /// Id of its usual instrument, of a measured criterion that names one.
    pub fn instrument(&self) -> Option<&str> {
        match &self.kind {
            Kind::Toleranced(kind) => kind.instrument.as_deref(),
            Kind::Paired(kind) => kind.instrument.as_deref(),
            Kind::Spread(kind) => kind.instrument.as_deref(),
            _ => None,
        }
    }

    /// Ids of the readings that the criterion measures, as written.
    pub fn measured(&self) -> Vec<&str> {
        match &self.kind {
            Kind::Toleranced(kind) => vec![&kind.reading],
            Kind::Paired(kind) => vec![&kind.left, &kind.right],
            Kind::Spread(kind) => vec![&kind.reading],
            _ => Vec::new(),
        }
    }
}

impl Judged {
    /// Which level or number of the scale was given, from 0 in the order of the scale, and of
    /// how many; `None` of a text that is not on it.
    pub fn place_of(&self, given: &str) -> Option<(usize, usize)> {
        match self {
            Self::Levels(levels) => {
                let at = levels.iter().position(|level| level.id == given)?;
                Some((at, levels.len()))
            }
            Self::Numbers { allowed, .. } => {
                let given: Marks = given.parse().ok()?;
                let at = allowed.iter().position(|number| *number == given)?;
                Some((at, allowed.len()))
            }
        }
    }
}

impl Limits {
    /// The one or two limits.
    pub fn parts(&self) -> Vec<&Limit> {
        match self {
            Self::Around { under, over } => vec![under, over],
            Self::AtMost(limit) | Self::AtLeast(limit) => vec![limit],
            Self::Between(from, to) => vec![from, to],
        }
    }

    /// The limits that are worked out.
    pub fn expressions(&self) -> impl Iterator<Item = &Expression> {
        self.parts().into_iter().filter_map(|limit| match limit {
            Limit::Amount(expression) => Some(expression),
            Limit::Percent(_) => None,
        })
    }
}

impl Threshold {
    /// The marks that reach this threshold of `out_of`; `None` on overflow.
    pub fn of(self, out_of: Marks) -> Option<Marks> {
        match self {
            Self::Marks(marks) => Some(marks),
            Self::Percent(percent) => out_of.times(percent.over(Exact::HUNDRED)?),
        }
    }
}

impl Shoe {
    /// Name and foot in words.
    pub fn label(&self) -> String {
        match self.foot.map(Foot::word) {
            Some(foot) if foot != self.name => format!("{}, {foot}", self.name),
            _ => self.name.clone(),
        }
    }
}

impl Rubric {
    /// Every line of the mark sheet, in the rubric's order.
    pub fn entries(&self) -> Vec<Entry<'_>> {
        let lines = self.sections.iter().flat_map(|section| {
            section
                .criteria
                .iter()
                .map(move |criterion| (section, criterion))
        });
        lines
            .flat_map(|(section, criterion)| {
                self.places(&criterion.applies_to, &criterion.id)
                    .into_iter()
                    .map(move |(id, shoe)| Entry {
                        id,
                        shoe,
                        section,
                        criterion,
                    })
            })
            .collect()
    }

    /// The entry whose level is the first impression, where the rubric counts that.
    pub fn counted_impression(&self) -> Option<Entry<'_>> {
        let Some(FirstImpression::Counts { criterion }) = &self.first_impression else {
            return None;
        };
        let mut entries = self.entries().into_iter();
        entries.find(|entry| &entry.criterion.id == criterion)
    }

    /// Every reading that is taken, named ones first.
    pub fn slots(&self) -> Vec<Slot<'_>> {
        let mut slots: Vec<Slot<'_>> = Vec::new();
        for reading in &self.readings {
            for (id, shoe) in self.places(&reading.applies_to, &reading.id) {
                slots.push(Slot {
                    id,
                    name: reading.name.clone(),
                    note: &reading.note,
                    shoe,
                    dimension: reading.dimension,
                    instrument: reading.instrument.as_deref(),
                    members: 1,
                    several_places: reading.several_places,
                    photo: reading.photo,
                    seen_from: reading.seen_from,
                    when: reading.when,
                    is_named: true,
                    asked_by: None,
                });
            }
        }
        for entry in self.entries() {
            for (reading, side) in own_readings(entry.criterion) {
                let id = self.slot_id(&entry, reading);
                if !slots.iter().any(|slot| slot.id == id) {
                    slots.push(own_slot(&entry, id, side));
                }
            }
        }
        slots
    }

    /// The key of a reading that `entry` names: itself where it holds a dot,
    /// else of the entry's shoe, else of the piece.
    pub fn slot_id(&self, entry: &Entry<'_>, reading: &str) -> String {
        let of_piece = self
            .readings
            .iter()
            .any(|named| named.id == reading && named.applies_to == AppliesTo::Piece);
        match entry.shoe {
            Some(shoe) if !reading.contains('.') && !of_piece => format!("{}.{reading}", shoe.id),
            _ => reading.to_owned(),
        }
    }

    fn places(&self, applies_to: &AppliesTo, id: &str) -> Vec<(String, Option<&Shoe>)> {
        if let [_] = self.shoes.as_slice() {
            return vec![(id.to_owned(), None)];
        }
        let of = |shoe: &Shoe| format!("{}.{id}", shoe.id);
        match applies_to {
            AppliesTo::Piece => vec![(id.to_owned(), None)],
            AppliesTo::EachShoe => self
                .shoes
                .iter()
                .map(|shoe| (of(shoe), Some(shoe)))
                .collect(),
            AppliesTo::Shoe(wanted) => {
                let shoe = self.shoes.iter().find(|shoe| &shoe.id == wanted);
                shoe.map(|shoe| (of(shoe), Some(shoe)))
                    .into_iter()
                    .collect()
            }
        }
    }

    /// The instrument with this id.
    pub fn instrument(&self, id: &str) -> Option<&super::model::Instrument> {
        self.instruments
            .iter()
            .find(|instrument| instrument.id == id)
    }

    /// The making step with this id.
    pub fn step(&self, id: &str) -> Option<&super::model::Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// Heats planned in all, and the weld heats among them.
    pub fn planned_heats(&self) -> (u32, u32) {
        let count = |weld_only: bool| {
            let counted = self.heats.iter().filter(|heats| heats.weld || !weld_only);
            counted.fold(0, |sum: u32, heats| sum.saturating_add(heats.count))
        };
        (count(false), count(true))
    }
}

/// Readings of a criterion with the side of a pair.
fn own_readings(criterion: &Criterion) -> Vec<(&str, &'static str)> {
    let sides: &[&'static str] = if matches!(criterion.kind, Kind::Paired(_)) {
        &["left", "right"]
    } else {
        &[""]
    };
    criterion
        .measured()
        .into_iter()
        .zip(sides.iter().copied())
        .collect()
}

fn own_slot<'r>(entry: &Entry<'r>, id: String, side: &str) -> Slot<'r> {
    let criterion = entry.criterion;
    let (dimension, instrument, members) = match &criterion.kind {
        Kind::Toleranced(kind) => (kind.scale.dimension, kind.instrument.as_deref(), 1),
        Kind::Paired(kind) => (kind.scale.dimension, kind.instrument.as_deref(), 1),
        Kind::Spread(kind) => (kind.scale.dimension, kind.instrument.as_deref(), kind.count),
        _ => (Dimension::Count, None, 1),
    };
    let name = match side {
        "" => criterion.name.clone(),
        side => format!("{}, {side}", criterion.name),
    };
    Slot {
        id,
        name,
        note: &criterion.note,
        shoe: entry.shoe,
        dimension,
        instrument,
        members,
        several_places: matches!(&criterion.kind, Kind::Toleranced(kind) if kind.several_places),
        photo: photo_of(&criterion.kind, side),
        seen_from: criterion.seen_from,
        when: criterion.when,
        is_named: false,
        asked_by: Some(entry.id.clone()),
    }
}

/// The measure of a photo that fills a criterion's reading on this side.
fn photo_of(kind: &Kind, side: &str) -> Option<Feature> {
    match kind {
        Kind::Toleranced(kind) => kind.photo,
        Kind::Paired(kind) => {
            let [left, right] = kind.photo?;
            Some(if side == "left" { left } else { right })
        }
        Kind::Spread(kind) => kind.photo,
        _ => None,
    }
}
