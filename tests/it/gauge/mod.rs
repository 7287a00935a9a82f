//! The photo gauge, stage by stage.

mod camera;
mod decode;
pub mod features;
mod groove;
mod homography;
mod marked;
mod paint;
mod painted;
mod parts;
mod photo;
mod sheet;
