//! Figures held against published worked examples and against other programs' results.

mod agreement;
