//! The photo gauge, stage by stage.

mod camera;
mod decode;
mod errors;
pub mod features;
mod groove;
mod hidden;
mod homography;
mod loops;
mod marked;
mod outside;
pub mod over;
mod overhang;
mod paint;
mod painted;
mod parts;
mod photo;
mod pinned;
mod sheet;
mod simulated;
mod thin;
mod ways;
