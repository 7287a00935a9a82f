//! A shoe measured from one photograph on a sheet of known size.
//!
//! *What:* a [`Camera`] says where a point of the world appears and where a pixel lies on a
//! plane above the sheet; a [`Homography`] takes the sheet to the picture, and
//! [`camera_that_sees`] it so is found from that. [`decode`](mod@decode) reads the photo.
//!
//! *Invariant.* Nothing here knows a browser, a file or a clock. Lengths are in mm, angles in
//! radians, pixels have their centres at whole numbers. What cannot be told is nothing, never
//! a guess.

mod camera;
pub mod decode;
mod homography;
mod pose;

pub use camera::Camera;
pub use homography::Homography;
pub use pose::{camera_that_sees, focal_told_by};
