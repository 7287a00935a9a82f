use std::collections::BTreeMap;

use crate::marking::heat_log::{Afterwards, PlannedPart, TakenOver, Tap};
use crate::marking::{
    CutFact, Facts, InstrumentFact, Lift, OutlineFact, Pause, ReadingFact, Settled, StateFact,
};
use crate::records::{Marking, MarkingId, Photo, Unit};

/// One change to a draft. An entry is a criterion's or reading's id, with the
/// shoe before it where a piece has several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Repeats of a reading or members of a series; none clears them.
    SetReadings {
        /// Which entry.
        entry: String,
        /// All of them, in order.
        readings: Vec<ReadingFact>,
    },
    /// What readings are taken with, as one step; those typed later keep it.
    SetInstrument {
        /// Which entries.
        entries: Vec<String>,
        /// Its short name; `None` is each entry's usual one.
        instrument: Option<String>,
        /// Its figures, where neither the rubric nor the facts have it yet.
        own: Option<InstrumentFact>,
    },
    /// Readings of several entries with the instruments that they name, and the outline that
    /// they were read off, as one step to undo: what was taken there before goes.
    TakeReadings {
        /// By entry, those of it in turn.
        readings: BTreeMap<String, Vec<ReadingFact>>,
        /// By short name; each takes the place of one of that name.
        instruments: BTreeMap<String, InstrumentFact>,
        /// Takes the place of one of the same shoe.
        outline: Option<OutlineFact>,
    },
    /// A level or a number on a scale.
    SetLevel {
        /// Which entry.
        entry: String,
        /// `None` clears it.
        level: Option<String>,
    },
    /// A count or a duration.
    SetTally {
        /// Which entry.
        entry: String,
        /// `None` clears it.
        tally: Option<String>,
    },
    /// Faults noted.
    SetFaults {
        /// Which entry.
        entry: String,
        /// `None` is "not looked at", an empty list "looked for, none found".
        faults: Option<Vec<String>>,
    },
    /// Faults of many entries at once, as one step to undo.
    SetFaultsOnMany {
        /// By entry, as in [`Edit::SetFaults`].
        faults: BTreeMap<String, Option<Vec<String>>>,
    },
    /// A state other than valued or missing.
    SetState {
        /// Which entry.
        entry: String,
        /// `None` clears it.
        state: Option<StateFact>,
    },
    /// What the examiner writes.
    SetComment {
        /// Which entry; `None` is the whole piece.
        entry: Option<String>,
        /// `None` or nothing but spaces clears it.
        comment: Option<String>,
    },
    /// A photo of the piece; one that is there already stays as it is.
    AddPhoto {
        /// The photo, whose picture is kept first.
        photo: Photo,
    },
    /// What a photo shows.
    SetPhotoNote {
        /// Digest of its picture.
        picture: String,
        /// In words; may be empty.
        note: String,
    },
    /// Takes a photo off, and the outline that was measured in it; the picture stays kept, so
    /// that this can be undone.
    RemovePhoto {
        /// Digest of its picture.
        picture: String,
    },
    /// Who types it in from a sheet that was filled in by hand.
    SetTypist {
        /// Their name; `None` where the examiner enters it.
        name: Option<String>,
    },
    /// What a bare number means from now on; readings keep the unit they have.
    SetUnit {
        /// The unit.
        unit: Unit,
    },
    /// Times when the clock stood.
    SetPauses {
        /// All of them.
        pauses: Vec<Pause>,
    },
    /// Time added by arrangement.
    SetExtraTime {
        /// `None` is none.
        extra_time: Option<Pause>,
    },
    /// Stops set aside by a chief examiner.
    SetLifts {
        /// All of them.
        lifts: Vec<Lift>,
    },
    /// What people settled one entry of an agreed marking on.
    Settle {
        /// Which entry.
        entry: String,
        /// `None` clears it.
        settled: Option<Settled<MarkingId>>,
    },
    /// A tap while the piece is made; one of a fault notes the fault at its entry too.
    /// Refused where it makes no sense after those before it, whatever the clock says.
    Tap {
        /// The tap.
        tap: Tap,
    },
    /// Takes the last tap back, and the fault that it noted. Refused where it is not the last.
    TakeBackTap {
        /// Its place among the taps, from 0.
        index: usize,
    },
    /// Takes the taps of another examiner's log over, but for faults and notes. Refused where
    /// there are taps.
    TakeOverLog {
        /// Where they come from.
        from: TakenOver,
        /// The taps.
        taps: Vec<Tap>,
    },
    /// Takes out again what was taken over. Refused where something was tapped since.
    GiveBackLog,
    /// The plan of heats as it is changed for this piece.
    SetHeatPlan {
        /// `None` is the rubric's.
        plan: Option<Vec<PlannedPart>>,
    },
    /// Heats and times where nobody tapped.
    SetAfterwards {
        /// `None`, or nothing entered, clears them.
        afterwards: Option<Afterwards>,
    },
    /// What the bar was cut to.
    SetCut {
        /// `None`, or nothing but spaces, clears it.
        cut: Option<CutFact>,
    },
    /// Undo: what a step changed becomes what it was before, unless something else
    /// has been written there since. A first impression that is locked by now stays.
    TakeBack {
        /// What stood before the step.
        before: Box<Entered>,
        /// What stood after it.
        after: Box<Entered>,
    },
    /// What was thought at a first look: a number, or the level of the criterion that the
    /// rubric counts it as. Refused once it is locked. An agreed marking has none.
    SetImpression {
        /// `None` takes it away.
        impression: Option<String>,
    },
}

/// All that a person enters on a mark sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entered {
    /// What was seen and measured.
    pub facts: Facts,
    /// All comments by entry.
    pub comments: BTreeMap<String, String>,
    /// The comment on the whole.
    pub overall: Option<String>,
    /// Photos.
    pub photos: Vec<Photo>,
    /// Who typed it in.
    pub typist: Option<String>,
    /// What a bare number means from now on.
    pub unit: Unit,
}

impl Entered {
    /// What is entered in `marking`.
    pub fn of(marking: &Marking) -> Self {
        Self {
            facts: marking.facts.clone(),
            comments: marking.comments.clone(),
            overall: marking.overall.clone(),
            photos: marking.photos.clone(),
            typist: marking.typist.clone(),
            unit: marking.unit,
        }
    }
}
