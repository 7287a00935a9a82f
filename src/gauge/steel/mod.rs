//! Where the upper edge of steel is seen, told from its wall, its shadow and the paper.

pub(super) mod blur;
mod clues;
mod led;
mod loops;
mod outline;
mod pinned;
mod rough;
mod strip;
mod track;
mod weights;

use kurbo::Point;

pub use led::through;
pub use loops::without_loops;
pub use outline::in_steps;
pub(super) use outline::outward;
pub use pinned::{Pin, of_lines, pins};
pub(super) use rough::DARK;
pub use track::{Followed, Pass, follow};

use super::ground::Ground;
use super::refused::Refused;
use super::view::View;

/// First over a wide range for what is steel at all, as deep inside as a dark shadow is wide.
const WIDE: Pass = Pass {
    range: (-13.0, 8.0),
    bevelled: 0.0,
    spacing: 1.0,
    step: 0.2,
    stiff: 0.3,
    most: 8,
};
/// Nearer, about what that found.
pub const NEARER: Pass = Pass {
    range: (-9.0, 6.0),
    bevelled: 0.0,
    spacing: 1.0,
    step: 0.2,
    stiff: 1.6,
    most: 6,
};
/// The same once more, about what that found, from more places.
const AGAIN: Pass = Pass {
    range: (-4.0, 3.0),
    spacing: 0.5,
    stiff: 8.0,
    most: 3,
    ..NEARER
};
/// And for the last time, where it lies for certain.
pub const LAST: Pass = Pass {
    range: (-2.0, 2.0),
    bevelled: 0.0,
    spacing: 0.5,
    step: 0.1,
    stiff: 6.0,
    most: 3,
};
/// From place to place of the lines that are found, in mm.
pub(super) const SPACING: f64 = LAST.spacing;
/// At a toe that may be bevelled the upper edge may lie so much deeper inside, in mm.
const BEVELLED: f64 = 4.0;

/// A hand-made edge waves over longer ways than this, in mm; what is shorter is noise.
const WAVES: f64 = 1.2;

/// A line without noise from place to place.
pub fn evened(line: &[Point]) -> Vec<Point> {
    blur::evened(line, WAVES / LAST.spacing)
}

/// The lines of the shoe's upper edge on the view's plane, the outer one first; the toe is
/// where `toe` says of the outer line found so far and of whether there is a hole. Pixels
/// `by_hand` are places of the edge that a person put right.
///
/// # Errors
///
/// One of those places lies far from everything that may be the shoe.
pub fn edges<T: Fn(Point) -> f64>(
    view: &View<'_>,
    ground: &Ground,
    by_hand: &[Point],
    toe: impl Fn(&[Point], bool) -> T,
) -> Result<Vec<Followed>, Refused> {
    let nowhere = |_: Point| 0.0;
    let lines = rough::lines(view, ground);
    if lines.is_empty() {
        return Ok(Vec::new());
    }
    let pins = of_lines(&pins(view, by_hand), &lines)
        .map_err(|stray| Refused::Stray(view.pixel(stray.at).unwrap_or_default()))?;
    let mut found = Vec::new();
    for (place, (line, pins)) in lines.iter().zip(&pins).enumerate() {
        let is_hole = place > 0;
        // Where the shoe may hang over the edge of the ground it is led over it.
        let along = |line: &[Point], pass: Pass, toe: &dyn Fn(Point) -> f64| {
            ground.led_edge(follow(view, line, is_hole, pass, pins, &toe))
        };
        let wide = without_loops(along(line, WIDE, &nowhere).line);
        // At corners the way out of the line is right only now.
        let nearer = without_loops(along(&wide, NEARER, &nowhere).line);
        let nearer = without_loops(along(&nearer, AGAIN, &nowhere).line);
        let last = if is_hole {
            along(&nearer, LAST, &nowhere)
        } else {
            let pass = Pass {
                bevelled: BEVELLED,
                ..LAST
            };
            let toe = toe(&nearer, lines.len() > 1);
            along(&nearer, pass, &toe)
        };
        found.push(Followed {
            line: evened(&last.line),
            ..last
        });
    }
    Ok(found)
}
