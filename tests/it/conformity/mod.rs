//! How sure marks are: against published examples, another program and simulation.

mod smoke;
