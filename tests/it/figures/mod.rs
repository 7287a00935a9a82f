//! Figures held against published worked examples and against other programs' results.

mod near;
mod severity;
mod share;
mod trend;
