//! Where the upper edge of steel is seen, told from its wall, its shadow and the paper.

pub(super) mod blur;
mod clues;
mod loops;
mod outline;
mod rough;
mod strip;
mod track;
mod weights;

use kurbo::Point;

pub use loops::without_loops;
pub use outline::in_steps;
pub(super) use outline::outward;
pub(super) use rough::DARK;
pub use track::Followed;

use self::track::{Pass, follow};
use super::ground::Ground;
use super::view::View;

/// First over a wide range for what is steel at all, as deep inside as a dark shadow is wide;
/// then nearer.
const WIDE: Pass = Pass {
    range: (-13.0, 8.0),
    spacing: 1.0,
    step: 0.2,
    stiff: 0.3,
    most: 8,
};
const NEARER: Pass = Pass {
    range: (-9.0, 6.0),
    spacing: 1.0,
    step: 0.1,
    stiff: 0.4,
    most: 8,
};
/// The same once more, about what that found, from more places.
const AGAIN: Pass = Pass {
    range: (-4.0, 3.0),
    spacing: 0.5,
    stiff: 2.0,
    most: 5,
    ..NEARER
};
const LAST: Pass = Pass {
    range: (-2.0, 2.0),
    spacing: 0.5,
    step: 0.1,
    stiff: 6.0,
    most: 3,
};
/// From place to place of the lines that are found, in mm.
pub(super) const SPACING: f64 = LAST.spacing;
/// At a toe that may be bevelled the upper edge may lie this far inside, in mm.
const BEVELLED: f64 = -6.0;

/// A hand-made edge waves over longer ways than this, in mm; what is shorter is noise.
const WAVES: f64 = 1.2;

/// A line without noise from place to place.
pub fn evened(line: &[Point]) -> Vec<Point> {
    blur::evened(line, WAVES / LAST.spacing)
}

/// The lines of the shoe's upper edge on the view's plane, the outer one first; the toe is
/// where `toe` says of the outer line found so far and of whether there is a hole.
pub fn edges<T: Fn(Point) -> f64>(
    view: &View<'_>,
    ground: &Ground,
    toe: impl Fn(&[Point], bool) -> T,
) -> Vec<Followed> {
    let nowhere = |_: Point| 0.0;
    let lines = rough::lines(view, ground);
    let mut found = Vec::new();
    for (place, line) in lines.iter().enumerate() {
        let is_hole = place > 0;
        let wide = followed(view, ground, line, is_hole, WIDE, &nowhere);
        let nearer = followed(
            view,
            ground,
            &without_loops(wide.line),
            is_hole,
            NEARER,
            &nowhere,
        );
        // At corners the way out of the line is right only now.
        let nearer = without_loops(nearer.line);
        let nearer = without_loops(followed(view, ground, &nearer, is_hole, AGAIN, &nowhere).line);
        let last = if is_hole {
            followed(view, ground, &nearer, is_hole, LAST, &nowhere)
        } else {
            let pass = Pass {
                range: (BEVELLED, LAST.range.1),
                ..LAST
            };
            let toe = toe(&nearer, lines.len() > 1);
            followed(view, ground, &nearer, is_hole, pass, &toe)
        };
        found.push(Followed {
            line: evened(&last.line),
            ..last
        });
    }
    found
}

/// An edge that is followed, led over the edge of the ground where the shoe may hang over it.
fn followed(
    view: &View<'_>,
    ground: &Ground,
    line: &[Point],
    is_hole: bool,
    pass: Pass,
    toe: &impl Fn(Point) -> f64,
) -> Followed {
    ground.led_edge(follow(view, line, is_hole, pass, toe))
}
