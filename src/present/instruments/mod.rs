//! The page of the ledger's instruments: the list, the form for one, the usual ones.

mod form;
mod repeats;
mod usual;

use crate::command::{Command, InstrumentDetails};
use crate::quantity::{Dimension, Unit};
use crate::records::{Ledger, OwnInstrument};
use crate::sheet::{capital, figures_words};

pub use form::{InstrumentErrors, InstrumentForm, MEASURED, SHAPES, UNCERTAINTIES};
pub use repeats::{RepeatsSaid, repeats_said};
pub use usual::usual_instruments;

/// An instrument in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InstrumentRow {
    /// Its short name.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it measures.
    pub measures: String,
    /// Its figures in words and where they come from, or what is wrong with them.
    pub figures: String,
    /// No longer used.
    pub retired: bool,
    /// Whether a study of it can be begun: it measures lengths and is in use.
    pub can_study: bool,
}

/// The list.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct InstrumentsPage {
    /// How many there are.
    pub counted: String,
    /// Those in use.
    pub used: Vec<InstrumentRow>,
    /// Those that are not.
    pub retired: Vec<InstrumentRow>,
    /// Whether one of the usual ones is not here.
    pub lacks_usual: bool,
}

/// What the two ways to say an uncertainty mean.
pub const WHAT_FIGURES_MEAN: [&str; 4] = [
    "Half-width: the most that one reading can be off, either way. A rule read to the nearest \
     millimetre is off by at most 0.5 mm.",
    "Shape of a half-width: how errors are spread between its ends. Where nothing else is known \
     all are alike (rectangular). Small errors are likelier where two alike sources add up \
     (triangular, or a trapezoid where one is larger); errors near the ends are where something \
     swings between them, such as a temperature (U-shaped).",
    "Standard uncertainty: what a calibration certificate states, at one standard deviation. If \
     it gives an expanded uncertainty, divide by its coverage factor k, mostly 2.",
    "Repeatability: how far one person’s readings of the same place scatter, as a standard \
     deviation. The shared part, such as a zero error, is the same in all readings and does not \
     grow smaller by measuring again.",
];

/// The list of `ledger`.
pub fn instruments_page(ledger: &Ledger) -> InstrumentsPage {
    let (retired, used): (Vec<_>, Vec<_>) =
        ledger.instruments().map(row).partition(|row| row.retired);
    InstrumentsPage {
        counted: match used.len() {
            0 => "none of your own: the figures of each rubric count".to_owned(),
            1 => "1 in use".to_owned(),
            count => format!("{count} in use"),
        },
        lacks_usual: !usual_commands(ledger).is_empty(),
        used,
        retired,
    }
}

fn row(own: &OwnInstrument) -> InstrumentRow {
    let figures = match own.fact.read(&own.id) {
        Ok(read) => capital(&figures_words(&read, Unit::Millimetre)),
        Err(why) => format!("Its figures cannot be used: {why}"),
    };
    InstrumentRow {
        id: own.id.clone(),
        name: own.fact.name.clone(),
        measures: format!("{}, measures {}", own.id, measured_words(own.fact.measures)),
        figures: format!("{figures}."),
        retired: own.retired,
        can_study: own.fact.measures == Dimension::Length && !own.retired,
    }
}

fn measured_words(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "lengths",
        Dimension::Angle => "angles",
        Dimension::Mass => "masses",
        Dimension::Duration => "times",
        Dimension::Count => "counts",
    }
}

/// Adds those of the usual instruments whose short name is free.
pub fn usual_commands(ledger: &Ledger) -> Vec<Command> {
    let missing = usual_instruments()
        .into_iter()
        .filter(|(id, _)| ledger.instrument(id).is_none());
    let add = |(id, fact)| Command::SetInstrument {
        id,
        before: None,
        after: Box::new(InstrumentDetails {
            fact,
            retired: false,
        }),
    };
    missing.map(add).collect()
}

/// Sets an instrument aside, or brings it back; `None` where it is not here.
pub fn retire_command(ledger: &Ledger, id: &str, retired: bool) -> Option<Command> {
    let before = InstrumentDetails::of(ledger.instrument(id)?);
    let after = InstrumentDetails {
        retired,
        ..before.clone()
    };
    Some(Command::SetInstrument {
        id: id.to_owned(),
        before: Some(Box::new(before)),
        after: Box::new(after),
    })
}
