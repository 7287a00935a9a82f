//! The photo gauge, stage by stage.

mod camera;
mod features;
mod decode;
mod homography;
mod paint;
mod painted;
