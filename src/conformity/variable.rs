use std::collections::BTreeMap;

use crate::marking::{Facts, Opened, Taken, taken_with};
use crate::rubric::{Instrument, Rubric, Slot};

use super::normal::REACH;

/// One reading, or one member of a series, as an uncertain value in base units.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Variable {
    /// Best estimate.
    pub mean: f64,
    /// Half-width of an interval reading: the value lies evenly between its ends.
    pub half: f64,
    /// Standard uncertainty of the part that is its own.
    pub own: f64,
    /// What it is off by with one standard uncertainty of each shared part, with its sign, by
    /// the part's index.
    pub shared: Vec<(usize, f64)>,
}

impl Variable {
    /// Whether it is known without any doubt.
    pub fn is_exact(&self) -> bool {
        self.half <= 0.0 && self.own <= 0.0 && self.shared.is_empty()
    }

    /// Past these it lies with less than 1e-12.
    pub fn ends(&self) -> (f64, f64) {
        let shared = self.shared.iter().map(|(_, size)| size * size);
        let normal = (self.own * self.own + shared.sum::<f64>()).sqrt();
        let reach = self.half + REACH * normal;
        (self.mean - reach, self.mean + reach)
    }

    /// Sensitivity to a shared part, times its standard uncertainty.
    pub fn part(&self, part: usize) -> f64 {
        let found = self.shared.iter().find(|(index, _)| *index == part);
        found.map_or(0.0, |(_, size)| *size)
    }
}

/// Every reading of a marking that says how large something is.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Variables {
    pub all: Vec<Variable>,
    /// Variables of each slot, in the order of its members.
    pub of_slot: BTreeMap<String, Vec<usize>>,
    /// Instruments whose readings share a part, by the part's index.
    pub parts: Vec<String>,
    /// Slots whose readings name no instrument with figures, although they are no counts.
    pub unstated: Vec<String>,
}

/// Standard uncertainties of one reading by an instrument, in base units. What it shares has
/// the sign that a reading may state.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Figures {
    reading: f64,
    repeatability: f64,
    shared: f64,
}

impl Figures {
    fn of(instrument: &Instrument) -> Self {
        let base = |quantity: &crate::quantity::Quantity| quantity.base.to_f64();
        Self {
            reading: instrument.uncertainty.standard(),
            repeatability: instrument.repeatability.as_ref().map_or(0.0, base),
            shared: instrument.shared.as_ref().map_or(0.0, base),
        }
    }
}

/// Standard uncertainty of one reading by `instrument` that lies within `half` of its middle,
/// in base units: what the instrument is off by, how its repeats scatter, what all its
/// readings share, and an even spread between the ends.
///
/// *Formula:* the root of the sum of squares (JCGM 100:2008, 5.1.2), with `half / sqrt 3` for
/// the ends (4.3.7).
pub fn reading_uncertainty(instrument: &Instrument, half: f64) -> f64 {
    let Figures {
        reading,
        repeatability,
        shared,
    } = Figures::of(instrument);
    let parts = [reading, repeatability, shared, half / 3.0_f64.sqrt()];
    parts.map(|part| part * part).iter().sum::<f64>().sqrt()
}

impl Variables {
    /// The readings of `opened`, each with what its instrument says.
    pub fn of(rubric: &Rubric, facts: &Facts, opened: &Opened<'_>, slots: &[Slot<'_>]) -> Self {
        let mut variables = Self::default();
        for slot in slots {
            let Some(taken) = opened.taken(&slot.id) else {
                continue;
            };
            let counting = opened.counting(slot);
            let with: Vec<Option<Instrument>> = counting
                .iter()
                .map(|reading| taken_with(rubric, facts, slot, reading))
                .collect();
            let is_count = slot.dimension == crate::quantity::Dimension::Count;
            if !is_count && with.iter().any(Option::is_none) {
                variables.unstated.push(slot.id.clone());
            }
            variables.add(slot, taken, &with);
        }
        variables
    }

    /// The readings without the slots that they were taken at.
    pub fn readings(&self) -> Self {
        Self {
            all: self.all.clone(),
            parts: self.parts.clone(),
            ..Self::default()
        }
    }

    fn add(&mut self, slot: &Slot<'_>, taken: &Taken, with: &[Option<Instrument>]) {
        let members: Vec<(f64, f64, &[Option<Instrument>])> = match taken {
            Taken::Mean(mean, _) => vec![(mean.to_f64(), 0.0, with)],
            Taken::Interval(from, to) => {
                let (from, to) = (from.to_f64(), to.to_f64());
                vec![(0.5 * (from + to), 0.5 * (to - from), with)]
            }
            Taken::Series(members) => {
                let members = members.iter().zip(with.chunks(1));
                members
                    .map(|(value, with)| (value.to_f64(), 0.0, with))
                    .collect()
            }
            // A gauge says on which side of a limit the value lies, not where.
            Taken::Verdict(..) => return,
        };
        let mut indices = Vec::new();
        for (mean, half, with) in members {
            indices.push(self.all.len());
            let (own, shared) = self.uncertainty(with);
            self.all.push(Variable {
                mean,
                half,
                own,
                shared,
            });
        }
        self.of_slot.insert(slot.id.clone(), indices);
    }

    /// Own part and shared parts of the mean of repeats taken `with` these: what one
    /// instrument is off by is the same for all of its repeats, so only its repeatability
    /// falls with their number. Where readings state figures of their own, so does the mean
    /// of those: what made one too long made its repeats of the same steel too long.
    pub fn uncertainty(&mut self, with: &[Option<Instrument>]) -> (f64, Vec<(usize, f64)>) {
        let count = f64::from(u32::try_from(with.len().max(1)).unwrap_or(u32::MAX));
        let mut square = 0.0;
        let mut sums: Vec<(&str, f64, f64)> = Vec::new();
        for instrument in with.iter().flatten() {
            let figures = Figures::of(instrument);
            square += (figures.repeatability / count).powi(2);
            let (reading, part) = (figures.reading / count, figures.shared / count);
            match sums.iter_mut().find(|(id, ..)| *id == instrument.id) {
                Some((_, readings, parts)) => {
                    *readings += reading;
                    *parts += part;
                }
                None => sums.push((&instrument.id, reading, part)),
            }
        }
        let mut shared = Vec::new();
        for (instrument, reading, part) in sums {
            square += reading.powi(2);
            if part != 0.0 {
                shared.push((self.part_of(instrument), part));
            }
        }
        (square.sqrt(), shared)
    }

    fn part_of(&mut self, instrument: &str) -> usize {
        match self.parts.iter().position(|part| part == instrument) {
            Some(index) => index,
            None => {
                self.parts.push(instrument.to_owned());
                self.parts.len() - 1
            }
        }
    }
}
