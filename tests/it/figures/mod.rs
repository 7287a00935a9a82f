//! Figures held against published worked examples and against other programs' results.

mod agreement;
mod near;
mod severity;
mod share;
mod trend;
