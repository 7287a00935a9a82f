//! Documents as PDF, read again by other programs: qpdf and poppler's tools.

mod boxes;
mod look;
mod many;
mod paging;
mod paths;
mod pictures;
mod props;
mod reading;
pub mod sample;
mod tools;
mod true_size;
