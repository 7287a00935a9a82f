//! A shoe measured from one photograph on a sheet of known size.
//!
//! *What:* a [`Camera`] says where a point of the world appears and where a pixel lies on a
//! plane above the sheet; a [`Homography`] takes the sheet to the picture, and
//! [`camera_that_sees`] it so is found from that.
//!
//! *Invariant.* Nothing here knows a browser, a file or a clock. Lengths are in mm, angles in
//! radians, pixels have their centres at whole numbers. What cannot be told is nothing, never
//! a guess.

mod camera;
mod feature;
pub mod features;
mod grid;
mod homography;
mod mask;
mod picture;
mod pose;
mod refused;
pub mod sheet;
mod shoe;
mod spread;
pub mod steel;
mod view;

pub use camera::Camera;
pub use feature::Feature;
pub use grid::Grid;
pub use homography::Homography;
pub use picture::{Picture, brightness};
pub use pose::{camera_that_sees, focal_told_by};
pub use refused::Refused;
pub use shoe::{Ask, Found, Stage, Warning, look};
pub use spread::Estimates;
pub use view::View;
