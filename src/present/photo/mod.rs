//! Measuring a shoe in a photo: what is asked, how the work stands, what was found and which
//! readings of the rubric it fills.

mod definitions;
mod edge_points;
mod form;
mod grouped;
mod hidden;
mod holding;
mod holes;
mod moved;
mod outline;
mod overlay;
mod rows;
mod sight;
mod stands;
mod stretch;
mod taking;
mod tap;
mod typed;
mod ways;

pub use definitions::{MEASURES_BOX, MEASURES_DRAWN, definitions};
pub use edge_points::{doubtful_path, edge_point_name, next_edge_point};
pub use form::{
    PhotoField, PhotoForm, PhotoHead, SHOWS, Shows, WrongField, photo_caution, photo_head,
    photo_job,
};
pub use holding::{Hold, Mark, after_removal, beside, held, holds, nearest};
pub use holes::{HoleRow, hole_rows};
pub use moved::{Moves, ends_of, moved};
pub use outline::kept_outline;
pub use overlay::{Layer, Overlay, overlay};
pub use rows::{Fill, PhotoRow, photo_rows, photo_warnings, still_by_hand};
pub use sight::{FirstSight, LARGEST, first_sight};
pub use stands::{Advice, PhotoStands, STAGES, photo_stands};
pub use stretch::Stretch;
pub(in crate::present) use stretch::{Look, StoodOff, path, stretches};
pub use taking::{PhotoFile, Taking, photo_note, taking};
pub use tap::Tap;
pub use ways::{WAYS, Way};
