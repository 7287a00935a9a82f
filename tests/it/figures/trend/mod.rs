//! How pieces go on, held against published values and SciPy's.

mod control;
mod curve;
mod line;
mod next;
mod props;
mod rank;
