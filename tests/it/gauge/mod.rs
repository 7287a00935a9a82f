//! The photo gauge, stage by stage.

mod camera;
mod features;
mod homography;
