//! How sure a marking is: what the uncertainty of measuring means for marks and award.
//!
//! After JCGM 100:2008 (GUM) and JCGM 106:2012. A reading is a best estimate with a part
//! that is its own and parts that it shares with other readings by the same instrument.
//! *Invariant.* Marks given never change by what is worked out here: they are those of the
//! best estimate. Floats stand for lengths and probabilities only, marks stay exact. The
//! same facts and rubric give the same numbers, draws included: their seed is fixed.

mod apart;
mod axes;
mod certainty;
mod chain;
mod cluster;
mod column;
mod compare;
mod counted;
mod counts;
mod decide;
mod draws;
mod entry;
mod formula;
mod key;
mod key_map;
mod lattice;
mod node;
mod normal;
mod quadrature;
mod repeats;
mod scales;
mod settle;
mod solve;
mod spread;
mod tail;
mod total;
mod units;
mod value;
mod variable;
mod weigh;
mod weighing;

pub use certainty::{
    AwardCertainty, Certainty, CriterionCertainty, MarksChance, Method, SectionCertainty, Settle,
};
pub use compare::en_score;
pub use decide::{chance_words, decide, decided, mark_and_decide};
pub use repeats::{Repeats, repeats};
pub use value::{Uncertain, measured_values};
pub use variable::reading_uncertainty;
pub use weigh::{NotWeighed, PassChance, pass_chance, weigh};
