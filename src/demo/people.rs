//! Who learns and who marks in the invented school, and how they get on.

use crate::quantity::Unit;

/// How a learner's skill grows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Growth {
    /// Fast at first, then slower.
    Steady,
    /// Grows for a while, then no more.
    Stalls,
    /// Hardly grows for a long time, then at once.
    Surges,
}

/// One learner. Skills are in thousandths.
#[derive(Debug, Clone, Copy)]
pub(super) struct Profile {
    pub name: &'static str,
    /// How many pieces over the nine months.
    pub pieces: i64,
    /// Skill at the first piece.
    pub start: i64,
    /// What is gained up to the last.
    pub gain: i64,
    pub growth: Growth,
    /// Marks some pieces first by himself or herself.
    pub marks_own: bool,
}

impl Profile {
    /// Skill at the `piece`-th piece, from 0.
    pub fn level(&self, piece: i64) -> i64 {
        let done = 1000 * piece / (self.pieces - 1).max(1);
        let share = match self.growth {
            Growth::Steady => done * (2000 - done) / 1000,
            Growth::Stalls => done.min(250) * 4,
            Growth::Surges if done < 600 => done / 12,
            Growth::Surges => (50 + (done - 600) * 6).min(1000),
        };
        self.start + self.gain * share / 1000
    }
}

const fn learner(
    name: &'static str,
    (pieces, start, gain): (i64, i64, i64),
    growth: Growth,
    marks_own: bool,
) -> Profile {
    Profile {
        name,
        pieces,
        start,
        gain,
        growth,
        marks_own,
    }
}

/// The learner who stalls.
pub const STALLS: &str = "Bram Kuiperdal";
/// The learner who surges.
pub const SURGES: &str = "Sione Fatulele";

pub(super) const LEARNERS: [Profile; 12] = [
    learner("Nell Ashgrove", (10, 430, 380), Growth::Steady, true),
    learner(STALLS, (14, 320, 100), Growth::Stalls, false),
    learner("Ifeoma Adeyeku", (10, 520, 370), Growth::Steady, true),
    learner("Tomos Prydwen", (9, 350, 340), Growth::Steady, false),
    learner("Leila Haddarani", (10, 470, 420), Growth::Steady, true),
    learner("Jonas Lindqvar", (9, 300, 420), Growth::Steady, false),
    learner("Marisol Quintalba", (10, 560, 300), Growth::Steady, true),
    learner(SURGES, (14, 340, 500), Growth::Surges, false),
    learner("Priya Nandakarai", (9, 400, 310), Growth::Steady, false),
    learner("Callum Strathvane", (10, 280, 330), Growth::Steady, true),
    learner("Aoife Brannockly", (9, 610, 290), Growth::Steady, false),
    learner("Kenta Moriharu", (10, 450, 330), Growth::Steady, false),
];

/// One examiner.
#[derive(Debug, Clone, Copy)]
pub(super) struct Marker {
    pub name: &'static str,
    /// Added to what is judged by eye, in thousandths.
    pub kindness: i64,
    /// Writes lengths in inches and fractions.
    pub in_inches: bool,
    /// Writes decimals with a comma.
    pub with_comma: bool,
}

impl Marker {
    /// The examiners take turns.
    pub fn whose_turn(turn: usize) -> Self {
        let [one, two, three] = MARKERS;
        match turn % 3 {
            0 => one,
            1 => two,
            _ => three,
        }
    }

    /// A learner as marker of the own work: kinder than any examiner.
    pub fn own(name: &'static str) -> Self {
        Self {
            name,
            kindness: 70,
            in_inches: false,
            with_comma: false,
        }
    }

    /// What a bare number means on the sheet.
    pub fn unit(&self) -> Unit {
        if self.in_inches {
            Unit::Inch32
        } else {
            Unit::Millimetre
        }
    }
}

/// The word stands in the name, so that every sheet and file says it.
pub(super) const MARKERS: [Marker; 3] = [
    Marker {
        name: "Edda Thornwick (invented)",
        kindness: 0,
        in_inches: false,
        with_comma: false,
    },
    Marker {
        name: "Rufus Achterveld (invented)",
        kindness: -45,
        in_inches: false,
        with_comma: true,
    },
    Marker {
        name: "Wanjiru Kamothe (invented)",
        kindness: 40,
        in_inches: true,
        with_comma: false,
    },
];
