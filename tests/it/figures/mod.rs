//! Figures held against published worked examples and against other programs' results.

mod near;
mod share;
mod trend;
