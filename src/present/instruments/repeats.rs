use super::form::MEASURED;
use crate::conformity::repeats;
use crate::quantity::{Dimension, Exact, Quantity, Unit, read_quantity};
use crate::sheet::{amount_words, two_digits};

/// Fewer repeats than this say little about how far readings scatter.
const FEW: usize = 5;
/// Places of the unit that are told at least.
const PLACES: usize = 3;

/// What repeats of one place come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RepeatsSaid {
    /// In words.
    pub words: String,
    /// The standard deviation as the form's repeatability takes it; `None` where all
    /// repeats are alike, which says nothing.
    pub repeatability: Option<String>,
}

/// Reads repeats of one place, with a semicolon between them: what an instrument of this
/// `dimension`, a word of [`Dimension`], repeats to. `None` while nothing is written.
/// *Errors:* what cannot be read, and how to mend it.
pub fn repeats_said(text: &str, dimension: &str) -> Option<Result<RepeatsSaid, String>> {
    let written: Vec<&str> = text.split(';').map(str::trim).collect();
    let written: Vec<&str> = written.into_iter().filter(|one| !one.is_empty()).collect();
    if written.is_empty() {
        return None;
    }
    let known = MEASURED.into_iter().map(|(known, ..)| known);
    let dimension = { known }.find(|known| known.word() == dimension);
    Some(said(&written, dimension.unwrap_or(Dimension::Length)))
}

fn said(written: &[&str], dimension: Dimension) -> Result<RepeatsSaid, String> {
    let unit = Unit::Millimetre.or_usual(dimension);
    let read = |text: &&str| {
        let read = read_quantity(text, dimension, Unit::Millimetre);
        read.map_err(|why| format!("{why}; write a semicolon between two readings"))
    };
    let read: Vec<Quantity> = written.iter().map(read).collect::<Result<_, _>>()?;
    let values: Vec<Exact> = read.into_iter().map(|quantity| quantity.base).collect();
    let Some(found) = repeats(&values) else {
        return Err("at least two readings of the same place are needed".to_owned());
    };
    // A spread that is smaller than these places shows is told all the same.
    let places = match found.of_mean > 0.0 {
        true => PLACES.max(two_digits(found.of_mean, unit)),
        false => PLACES,
    };
    let say = |base: f64| amount_words(base, unit, places);
    let mut words = format!(
        "{} readings: mean {}, standard deviation {}, of the mean {}.",
        values.len(),
        say(found.mean),
        say(found.deviation),
        say(found.of_mean),
    );
    if found.deviation <= 0.0 {
        words.push_str(" All are alike: the instrument is read too coarsely to tell.");
    } else if values.len() < FEW {
        words.push_str(" So few say little: take ten.");
    }
    Ok(RepeatsSaid {
        words,
        repeatability: (found.deviation > 0.0).then(|| say(found.deviation)),
    })
}
