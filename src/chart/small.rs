use super::class::Class;
use super::drawing::{Drawing, Shape, path_through};
use super::symbol::Symbol;

const WIDTH: f64 = 240.0;
const HEIGHT: f64 = 56.0;
/// Shares run from [`BOTTOM`] (0) to [`TOP`] (1).
const TOP: f64 = 10.0;
const BOTTOM: f64 = 46.0;
const MARGIN: f64 = 10.0;
const RADIUS: f64 = 4.5;

/// The share of its marks that one criterion got, piece by piece, from 0 at the foot to
/// all of them at the top.
///
/// *Shape:* one place for each of `shares`, from the left; `None` leaves its place free.
/// The last one that there is stands out.
pub fn small_course(title: String, description: String, shares: &[Option<f64>]) -> Drawing {
    let mut shapes = Vec::new();
    for (y, class) in [(TOP, Class::SmallTop), (BOTTOM, Class::GridLine)] {
        shapes.push(Shape::Line {
            x1: 0.0,
            y1: y,
            x2: WIDTH,
            y2: y,
            class,
        });
    }
    let step = (WIDTH - 2.0 * MARGIN) / f64::from(last_index(shares)).max(1.0);
    let places: Vec<(f64, f64)> = (0_u32..)
        .zip(shares)
        .filter_map(|(at, share)| {
            let up = share.as_ref()?.clamp(0.0, 1.0);
            Some((MARGIN + step * f64::from(at), BOTTOM - up * (BOTTOM - TOP)))
        })
        .collect();
    if places.len() > 1 {
        shapes.push(Shape::Path {
            d: path_through(places.iter().copied()),
            class: Class::Series,
        });
    }
    if let Some(last) = places.last() {
        shapes.push(Symbol::Dot.shape(*last, RADIUS, false));
    }
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: HEIGHT,
        title,
        description,
        shapes,
    }
}

fn last_index(shares: &[Option<f64>]) -> u32 {
    u32::try_from(shares.len().saturating_sub(1)).unwrap_or(u32::MAX)
}
