//! Drawings without a format: shapes with a class each, which the page renders as
//! SVG and an exporter as it likes.
//!
//! A class says what a shape *is* (`series`, `pass`, `label`), never how it looks:
//! colours and strokes are the style sheet's. Every [`Drawing`] carries a title and
//! a description in words, so that nobody has to see it to know what it says.
//!
//! *Invariant.* Nothing here knows of records, of the browser or of a file format; of
//! the trade it knows the made shoe's shape.
//! Numbers become `f64` only for placing; every figure that a person reads comes in
//! as text.

mod axis;
mod bars;
mod chances;
mod class;
mod course;
mod course_plan;
mod dates;
mod differences;
mod dots;
mod drawing;
mod flags;
mod grid;
mod heats;
mod intervals;
mod lay_on;
mod marked_bar;
mod qr;
mod row;
mod shoe;
mod sign;
mod sizes;
mod small;
mod spans;
mod svg;
mod symbol;
mod ticket;
mod tolerance;
mod total;
mod true_size;

pub use bars::{Bar, bars};
pub use chances::{Chances, chances};
pub use class::Class;
pub use course::course;
pub use course_plan::{Ahead, Axis, CourseLine, CoursePlan, CoursePoint, Level};
pub use differences::{Bound, DifferencePoint, Differences, differences};
pub use dots::{DotRow, dots};
pub use drawing::{Align, Drawing, Reading, Shape};
pub use flags::{Days, Flag, flagged};
pub use heats::{HeatLanes, StepLane, heat_lanes};
pub use intervals::{IntervalRow, intervals};
pub use lay_on::{LayOn, lay_on};
pub use marked_bar::{MarkedBar, marked_bar};
pub use qr::qr_code;
pub use shoe::{PlanPart, Side, shoe_plan};
pub use sign::bar_shoe_sign;
pub use sizes::{PlanSizes, SectionPlan, section, sized_plan};
pub use small::{SmallCourse, small_course, small_courses};
pub use spans::{Span, spans};
pub use svg::svg_inside;
pub use symbol::Symbol;
pub use ticket::{TicketText, ticket_row};
pub use tolerance::{Stretch, Tolerance, tolerance, tolerance_strip};
pub use total::{Total, total};
pub use true_size::{
    CHECKED_SIZE, OVERLAP, Tiles, check_lines, scale_words, tiles, with_check_lines,
};
