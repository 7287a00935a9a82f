//! A shoe, or a drawn outline of one, measured from one photograph or scan.
//!
//! *What:* [`decode()`] makes a picture of a file; the stages of [`look`] find what has a known
//! size ([`Scale`]; a sheet or a card by [`sheet`]) and with it the camera, the upper edge of the
//! steel ([`steel`]) or the drawn lines, what is to be
//! measured of it ([`features`]), the fuller and the nail holes in it, with one covariance matrix over all ([`Estimates`]).
//!
//! *Invariant.* Nothing here knows a browser, a file system or a clock. Lengths are in mm,
//! angles in radians, pixels have their centres at whole numbers. What cannot be told is
//! [`Refused`] with what to do, or left out; it is never a guess.

mod camera;
pub mod decode;
mod doubt;
mod drawn;
mod feature;
pub mod features;
mod fuller_measures;
mod grid;
pub mod groove;
mod ground;
mod hidden;
pub mod holes;
mod homography;
mod lie;
mod mask;
mod nail_hole;
mod network;
pub mod over;
mod overhang;
mod parts;
mod picture;
mod plane;
mod polygon;
mod pose;
mod refused;
pub mod scale;
pub mod sheet;
mod shoe;
mod shown;
mod shown_holes;
mod spread;
pub mod steel;
mod thin;
mod view;

pub use camera::Camera;
pub use doubt::Doubt;
pub use drawn::Unclear;
pub use feature::{is_raised_by_noise, value_of};
pub use grid::Grid;
pub use hidden::Hidden;
pub use homography::Homography;
pub use nail_hole::NailHole;
pub use overhang::Overhang;
pub use parts::Parts;
pub use picture::{Picture, brightness};
pub use plane::{Level, Plane};
pub use pose::{camera_that_sees, focal_told_by};
pub use refused::{Refused, Spot};
pub use scale::Scale;
pub use shoe::{Ask, Face, Found, Stage, Warning, look};
pub use shown::{Dot, Measured, Shown, ShownHole, Traced, shown};
pub use shown_holes::{HoleMark, hole_measures, holes_at};
pub use spread::{ALL_OFF, Basis, Estimates, estimates};
pub use thin::thinned;
pub use view::View;
