//! Chords one after the other, by the length along them, with quick answers to what is near.

use kurbo::{Point, Rect, Vec2};

/// Chords that share a box; a box too far off is passed over as a whole.
const SHARE: usize = 16;

/// A chord.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Side {
    from: Point,
    to: Point,
    way: Vec2,
    /// Length of the chain up to it.
    start: f64,
    length: f64,
    /// One over its squared length.
    inverse: f64,
}

impl Side {
    fn at(&self, along: f64) -> Point {
        self.from + self.way * ((along - self.start) / self.length).clamp(0.0, 1.0)
    }
}

/// Chords that follow each other, and the box around them.
#[derive(Debug, Clone, PartialEq)]
struct Stretch {
    around: Rect,
    start: f64,
    sides: Vec<Side>,
}

impl Stretch {
    fn of(sides: &[Side]) -> Option<Self> {
        let start = sides.first()?.start;
        let mut boxes = sides
            .iter()
            .map(|side| Rect::from_points(side.from, side.to));
        let first = boxes.next()?;
        Some(Self {
            around: boxes.fold(first, |all, one| all.union(one)),
            start,
            sides: sides.to_vec(),
        })
    }

    /// Squared distance of a point from the box.
    fn far(&self, point: Point) -> f64 {
        let Rect { x0, y0, x1, y1 } = self.around;
        let right = (x0 - point.x).max(point.x - x1).max(0.0);
        let down = (y0 - point.y).max(point.y - y1).max(0.0);
        right * right + down * down
    }
}

/// A chain of chords; closed where its last point is its first. Lengths are those of its
/// points.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    stretches: Vec<Stretch>,
    length: f64,
}

/// The place of a chain that is nearest to a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// From the place to the point.
    pub off: Vec2,
    /// The way of the chord that the place is on.
    pub way: Vec2,
    /// Length of the chain up to the place.
    pub along: f64,
}

impl Near {
    /// How far the place is from the point, not negative.
    pub fn distance(&self) -> f64 {
        self.off.hypot()
    }
}

impl Chain {
    /// Joins points in their order; `None` where that gives no length.
    pub fn of(points: &[Point]) -> Option<Self> {
        let mut length = 0.0;
        let ends = points.iter().zip(points.iter().skip(1));
        let sides = ends.filter_map(|(from, to)| {
            let way = *to - *from;
            let side = Side {
                from: *from,
                to: *to,
                way,
                start: length,
                length: way.hypot(),
                inverse: way.hypot2().recip(),
            };
            let is_there = side.inverse.is_finite();
            length += if is_there { side.length } else { 0.0 };
            is_there.then_some(side)
        });
        let sides: Vec<Side> = sides.collect();
        let stretches: Vec<_> = sides.chunks(SHARE).filter_map(Stretch::of).collect();
        (!stretches.is_empty()).then_some(Self { stretches, length })
    }

    /// Its whole length.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// The ends of its chords.
    pub fn sides(&self) -> impl Iterator<Item = (Point, Point)> {
        self.each().map(|side| (side.from, side.to))
    }

    fn each(&self) -> impl Iterator<Item = &Side> {
        self.stretches.iter().flat_map(|stretch| &stretch.sides)
    }

    /// The point so far along it; beyond an end that end.
    pub fn at(&self, along: f64) -> Point {
        let after = self
            .stretches
            .partition_point(|stretch| stretch.start <= along);
        let stretch = self.stretches.get(after.saturating_sub(1));
        let sides = stretch.map_or(&[][..], |stretch| &stretch.sides);
        let after = sides.partition_point(|side| side.start <= along);
        let side = sides.get(after.saturating_sub(1));
        side.map_or(Point::ZERO, |side| side.at(along))
    }

    /// So many points and one, evenly spaced, both ends among them.
    pub fn spread(&self, steps: u32) -> impl Iterator<Item = Point> {
        let step = self.length / f64::from(steps.max(1));
        (0..=steps).map(move |place| self.at(f64::from(place) * step))
    }

    /// Its corners from one length to another, with the points there; through the end of a
    /// closed chain where the second length is the lesser.
    pub fn part(&self, from: f64, to: f64) -> Vec<Point> {
        let corners = |least: f64, most: f64| {
            let within = move |side: &&Side| least < side.start && side.start < most;
            self.each().filter(within).map(|side| side.from)
        };
        let mut part = vec![self.at(from)];
        if from <= to {
            part.extend(corners(from, to));
        } else {
            part.extend(corners(from, f64::INFINITY));
            part.extend(corners(f64::NEG_INFINITY, to));
        }
        part.push(self.at(to));
        part
    }

    /// The place nearest to a point. `near` is the stretch that is looked at first, and
    /// afterwards the one found: of points that follow each other it saves most of the search.
    pub fn nearest(&self, point: Point, near: &mut usize) -> Near {
        let mut best = Near {
            off: Vec2::new(f64::INFINITY, f64::INFINITY),
            way: Vec2::ZERO,
            along: 0.0,
        };
        let mut least = f64::INFINITY;
        let first = *near;
        let all = self.stretches.iter().enumerate();
        for (at, stretch) in all.clone().skip(first).chain(all.take(first)) {
            if stretch.far(point) >= least {
                continue;
            }
            for side in &stretch.sides {
                let from = point - side.from;
                let part = (from.dot(side.way) * side.inverse).clamp(0.0, 1.0);
                let off = from - side.way * part;
                let far = off.hypot2();
                if far < least {
                    least = far;
                    best = Near {
                        off,
                        way: side.way,
                        along: side.start + side.length * part,
                    };
                    *near = at;
                }
            }
        }
        best
    }

    /// Whether a point lies inside a closed chain.
    ///
    /// *Source:* the even-odd rule, M. Shimrat, Algorithm 112, Communications of the ACM 5,
    /// 1962 (from memory): a ray to the right crosses the chords an odd number of times.
    pub fn is_around(&self, point: Point) -> bool {
        let met = self.stretches.iter().filter(|stretch| {
            let around = stretch.around;
            around.x1 > point.x && around.y0 <= point.y && point.y <= around.y1
        });
        met.flat_map(|stretch| &stretch.sides)
            .fold(false, |is, side| {
                let (from, to) = (side.from, side.to);
                let is_met = (from.y > point.y) != (to.y > point.y)
                    && from.x + (point.y - from.y) / side.way.y * side.way.x > point.x;
                is ^ is_met
            })
    }

    /// Distance of a point from a closed chain, negative inside it.
    pub fn signed_distance(&self, point: Point, near: &mut usize) -> f64 {
        let far = self.nearest(point, near).distance();
        if self.is_around(point) { -far } else { far }
    }
}
