use serde::{Deserialize, Serialize};

use super::stamp::Stamp;
use crate::marking::InstrumentFact;

/// An instrument that somebody on this device measures with.
///
/// Its id is the short name that rubrics and readings name it by (`caliper`), so that a
/// marking begun later counts with these figures in place of the rubric's. A marking holds
/// its own copy: what is changed here changes none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnInstrument {
    /// Its short name; stays while its figures change.
    pub id: String,
    /// Last written.
    pub stamp: Stamp,
    /// What it is and how wrong it can be, as typed.
    pub fact: InstrumentFact,
    /// No longer used: no marking begun from now on takes it.
    pub retired: bool,
}
