//! Instruments of the ledger: adding them, their figures, and setting them aside.

use std::collections::BTreeMap;

use super::apply::{missing, put, same_name, tidy};
use super::learner::{spaced, tidy_text, write};
use super::{Change, CommandError};
use crate::marking::{Figure, InstrumentFact, InstrumentFault};
use crate::records::{Kind, Ledger, OwnInstrument, Record, Stamp};
use crate::rubric::{is_id, read_rubric};

/// All that a person says of an instrument.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InstrumentDetails {
    /// What it is and how wrong it can be, as typed.
    pub fact: InstrumentFact,
    /// No longer used.
    pub retired: bool,
}

impl InstrumentDetails {
    /// What is said of `instrument`.
    pub fn of(instrument: &OwnInstrument) -> Self {
        Self {
            fact: instrument.fact.clone(),
            retired: instrument.retired,
        }
    }

    /// Without needless spaces and empty figures.
    fn tidy(self) -> Self {
        let fact = self.fact;
        Self {
            fact: InstrumentFact {
                name: spaced(&fact.name),
                measures: fact.measures,
                half_width: tidy_text(fact.half_width),
                shape: fact.shape,
                level_share: tidy_text(fact.level_share),
                standard_uncertainty: tidy_text(fact.standard_uncertainty),
                repeatability: tidy_text(fact.repeatability),
                shared: tidy_text(fact.shared),
                source: spaced(&fact.source),
            },
            retired: self.retired,
        }
    }
}

/// Adds the instrument `id` where nothing stood `before`. Else three-way: what does not
/// differ between `before` and `after` stays as it is now, another tab may have written it
/// since.
pub(super) fn set(
    ledger: &Ledger,
    id: &str,
    before: Option<InstrumentDetails>,
    after: InstrumentDetails,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let after = after.tidy();
    match (before, ledger.instrument(id)) {
        (None, None) => add(ledger, id, after, stamp),
        (None, Some(here)) if InstrumentDetails::of(here) == after => Ok(Change::default()),
        (None, Some(here)) => Err(CommandError::InstrumentTaken {
            id: id.to_owned(),
            name: here.fact.name.clone(),
        }),
        (Some(_), None) => Err(missing(Kind::Instrument, id)),
        (Some(before), Some(here)) => change(ledger, here, before.tidy(), after, stamp),
    }
}

fn add(
    ledger: &Ledger,
    id: &str,
    after: InstrumentDetails,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    if !is_id(id) {
        return Err(CommandError::InstrumentId { id: id.to_owned() });
    }
    let new = OwnInstrument {
        id: id.to_owned(),
        stamp: stamp.clone(),
        fact: after.fact,
        retired: after.retired,
    };
    refuse(ledger, &new)?;
    Ok(put(new))
}

fn change(
    ledger: &Ledger,
    here: &OwnInstrument,
    before: InstrumentDetails,
    after: InstrumentDetails,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    let mut new = here.clone();
    let (now, old, wanted) = (&mut new.fact, before.fact, after.fact);
    write(&mut now.name, &old.name, wanted.name);
    write(&mut now.measures, &old.measures, wanted.measures);
    write(&mut now.half_width, &old.half_width, wanted.half_width);
    write(&mut now.shape, &old.shape, wanted.shape);
    write(&mut now.level_share, &old.level_share, wanted.level_share);
    write(
        &mut now.standard_uncertainty,
        &old.standard_uncertainty,
        wanted.standard_uncertainty,
    );
    write(
        &mut now.repeatability,
        &old.repeatability,
        wanted.repeatability,
    );
    write(&mut now.shared, &old.shared, wanted.shared);
    write(&mut now.source, &old.source, wanted.source);
    write(&mut new.retired, &before.retired, after.retired);
    if new == *here {
        return Ok(Change::default());
    }
    // What a file brought may be wrong; that hinders nobody from setting it aside.
    if new.fact != here.fact {
        refuse(ledger, &new)?;
    }
    new.stamp = stamp.after(&here.stamp);
    Ok(put(new))
}

fn refuse(ledger: &Ledger, new: &OwnInstrument) -> Result<(), CommandError> {
    let name = tidy(&new.fact.name, "the instrument")?;
    let is_other = |one: &&OwnInstrument| one.id != new.id && same_name(&one.fact.name, &name);
    if ledger.instruments().any(|one| is_other(&one)) {
        return Err(CommandError::NameTaken { name });
    }
    let refused = |fault: InstrumentFault| CommandError::InstrumentRefused {
        name: name.clone(),
        fault,
    };
    new.fact.read(&new.id).map_err(refused)?;
    if new.fact.source.is_empty() {
        let why = "write where the figures come from, such as a certificate and its date, or \
                   `common practice, no source`";
        return Err(refused(InstrumentFault {
            figure: Some(Figure::Source),
            why: why.to_owned(),
        }));
    }
    Ok(())
}

/// The ledger's instruments that take the place of those of the rubric with this digest,
/// which `ledger` has or `change` brings. A rubric that cannot be read names none.
pub(super) fn in_place_of_the_rubrics(
    ledger: &Ledger,
    change: &Change,
    digest: &str,
) -> BTreeMap<String, InstrumentFact> {
    let used: Vec<&OwnInstrument> = ledger.instruments().filter(|one| !one.retired).collect();
    // Reading a rubric takes a while, and most ledgers have no instruments.
    if used.is_empty() {
        return BTreeMap::new();
    }
    let brought = change.puts.iter().find_map(|record| match record {
        Record::Rubric(rubric) if rubric.digest == digest => Some(rubric.text.as_str()),
        _ => None,
    });
    let kept = ledger.rubric(digest).map(|rubric| rubric.text.as_str());
    let rubric = kept.or(brought).and_then(|text| read_rubric(text).rubric);
    let Some(rubric) = rubric else {
        return BTreeMap::new();
    };
    let named = |one: &&OwnInstrument| rubric.instrument(&one.id).is_some();
    let named = used.into_iter().filter(named);
    named
        .map(|one| (one.id.clone(), one.fact.clone()))
        .collect()
}
