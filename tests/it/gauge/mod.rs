//! The photo gauge, stage by stage.

mod camera;
mod decode;
mod features;
mod groove;
mod homography;
mod paint;
mod painted;
mod photo;
mod sheet;
