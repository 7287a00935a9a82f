//! How well something can be measured: a gauge study of parts by operators by trials, the
//! standard uncertainty of one reading, bias and linearity against reference pieces.
//!
//! After Measurement Systems Analysis, 4th edition 2010 (AIAG), and JCGM 100:2008 (GUM).

mod anova;
mod crossed;
mod deviations;
mod linearity;
mod ranges;
mod uncertainty;

pub use anova::{Interaction, POOLING_LEVEL, VarianceStudy};
pub use crossed::Crossed;
pub use deviations::{Categories, Deviations, Shares};
pub use linearity::{Bias, Linearity, Reference, bias, linearity};
pub use ranges::{RangeMoments, RangeStudy, expected_range, range_divisor};
pub use uncertainty::{Combined, Contribution, combine, coverage, of_mean, of_means, propagated};
