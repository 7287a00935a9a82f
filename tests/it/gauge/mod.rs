//! The photo gauge, stage by stage.

mod camera;
mod decode;
mod errors;
mod features;
mod homography;
mod marked;
mod outside;
mod paint;
mod painted;
mod parts;
mod photo;
mod sheet;
