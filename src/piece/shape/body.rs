//! Outline, opening and parts of the steel.

use kurbo::{BezPath, Point};

use super::curve::{Front, Tail, Webs, inner, inner_at, outer, radii, solve, web_at, widest_at};
use super::edge::{Edge, append_smooth, smooth};
use super::{Branch, Place, ShapeFault, mirrored};
use crate::piece::specification::{
    Bar, BarShape, Foot, HeelShape, Heels, PieceSpecification, ShoeKind, ToeShape,
};

/// Where toe and heels end, as parts of a branch; common practice, no source.
const TOE_PART: f64 = 0.3;
const HEEL_PART: f64 = 0.82;
/// Points along each side of a part.
const ALONG: u32 = 14;
/// Steps in which the length of a shoe with free heels is found; it takes three or four.
const STRETCHES: u32 = 12;

/// The steel of the shoe.
pub(super) struct Body {
    pub outline: BezPath,
    pub opening: Option<BezPath>,
    pub right: Edge,
    pub left: Edge,
    pub outer_is_right: bool,
    pub bar_front: Option<f64>,
    pub webs: Webs,
    gap: f64,
    is_bar: bool,
    plate: Option<BezPath>,
}

/// One side, drawn on the right.
struct Half {
    outer: BezPath,
    inner: Vec<Point>,
}

/// What closes the shoe behind.
enum Back<'a> {
    Open(&'a Heels),
    Bar(&'a Bar),
}

/// Sizes that both sides share.
struct Sizes<'a> {
    width: f64,
    length: f64,
    webs: Webs,
    back: Back<'a>,
    gap: f64,
    /// Where the inner edges are `gap` apart.
    gap_at: f64,
    heel_y: f64,
}

fn back_of(piece: &PieceSpecification) -> Result<Back<'_>, ShapeFault> {
    match piece.kind {
        ShoeKind::OpenHeeled => {
            let needed = "the block [piece.heels]";
            let heels = piece.heels.as_ref().ok_or(ShapeFault::Lacks { needed })?;
            Ok(Back::Open(heels))
        }
        ShoeKind::StraightBar | ShoeKind::EggBar | ShoeKind::HeartBar => {
            let needed = "the block [piece.bar]";
            let bar = piece.bar.as_ref().ok_or(ShapeFault::Lacks { needed })?;
            Ok(Back::Bar(bar))
        }
    }
}

impl<'a> Sizes<'a> {
    fn of(piece: &'a PieceSpecification) -> Result<Self, Vec<ShapeFault>> {
        let back = back_of(piece).map_err(|fault| vec![fault])?;
        let length = piece.finished.length.to_mm();
        let webs = |back: f64| Webs {
            toe: piece.web.toe.to_mm(),
            quarter: piece.web.quarter.to_mm(),
            heel: piece.web.heel.to_mm(),
            back,
        };
        let heel = webs(0.0).heel;
        let sizes = match back {
            Back::Open(heels) => Self {
                webs: webs(heel),
                gap: heels.gap.to_mm(),
                gap_at: f64::INFINITY,
                heel_y: length,
                width: piece.finished.width.to_mm(),
                length,
                back: Back::Open(heels),
            },
            Back::Bar(bar) => {
                let width = bar.width.to_mm();
                let behind = bar.behind.map_or(0.0, |behind| behind.to_mm());
                let is_egg = bar.shape == BarShape::Egg;
                let heel_y = if is_egg { length - behind } else { length };
                let front = length - width;
                Self {
                    webs: webs(width),
                    gap: bar.gap.to_mm(),
                    // Nearer the heels the edges of an egg bar close in already.
                    gap_at: if is_egg { heel_y - width } else { front },
                    heel_y,
                    width: piece.finished.width.to_mm(),
                    length,
                    back: Back::Bar(bar),
                }
            }
        };
        let faults = sizes.faults();
        if faults.is_empty() {
            Ok(sizes)
        } else {
            Err(faults)
        }
    }

    fn faults(&self) -> Vec<ShapeFault> {
        let mut faults = Vec::new();
        let bar = match self.back {
            Back::Open(_) => None,
            Back::Bar(bar) => Some(bar),
        };
        let sizes = [
            ("the finished width", Some(self.width)),
            ("the finished length", Some(self.length)),
            ("the web at the toe", Some(self.webs.toe)),
            ("the web at the quarters", Some(self.webs.quarter)),
            ("the web at the heels", Some(self.webs.heel)),
            ("the distance between the heels", Some(self.gap)),
            ("the width of the bar", bar.map(|bar| bar.width.to_mm())),
        ];
        for (what, mm) in sizes {
            if let Some(mm) = mm.filter(|mm| *mm <= 0.0) {
                faults.push(ShapeFault::NoSize { what, mm });
            }
        }
        if 2.0 * self.webs.quarter >= 0.9 * self.width {
            let (web, width) = (self.webs.quarter, self.width);
            faults.push(ShapeFault::WebTooWide { web, width });
        }
        if let Some(bar) = bar {
            let width = bar.width.to_mm();
            if width > self.gap {
                let gap = self.gap;
                faults.push(ShapeFault::BarTooWide { width, gap });
            }
            let behind = self.length - self.heel_y;
            if bar.shape == BarShape::Egg && !(behind > 0.0 && behind < 0.4 * self.length) {
                let length = self.length;
                faults.push(ShapeFault::Behind { behind, length });
            }
            faults.extend(self.plate_fault(bar));
        }
        faults
    }

    fn plate_fault(&self, bar: &Bar) -> Option<ShapeFault> {
        let (long, wide) = plate_size(bar)?;
        let room_long = self.length - bar.width.to_mm() - self.webs.toe;
        let fits = long > 0.0 && wide > 0.0 && long < 0.9 * room_long && wide < self.gap;
        (!fits).then_some(ShapeFault::Plate {
            long,
            wide,
            room_long,
            room_wide: self.gap,
        })
    }

    /// One side of the shoe, `half` wide.
    fn half(&self, front: Front, half: f64) -> Result<Half, ShapeFault> {
        let (least, most) = radii(half - front.flat);
        let Front { radius, flat } = front;
        if !(flat < half && least <= radius && radius <= most) {
            return Err(ShapeFault::ToeRadius {
                radius,
                half,
                least,
                most,
            });
        }
        let (_, _, at) = widest_at(front, half);
        if at > 0.85 * self.heel_y {
            let length = self.length;
            return Err(ShapeFault::TooShort { at, length });
        }
        let is_egg = matches!(self.back, Back::Bar(bar) if bar.shape == BarShape::Egg);
        let curve = |free: f64| {
            let tail = if is_egg {
                Tail::Round {
                    length: self.length,
                    fullness: free,
                }
            } else {
                Tail::Heel(Point::new(free, self.heel_y))
            };
            outer(front, half, tail)
        };
        let range = if is_egg {
            (0.25, 0.95)
        } else {
            (0.15 * half, 1.02 * half)
        };
        let found = solve(range, self.gap / 2.0, |free| {
            inner_at(&inner(&curve(free), self.webs, self.heel_y), self.gap_at)
        });
        let free = found.map_err(|(least, most)| ShapeFault::Gap {
            gap: self.gap,
            least: (2.0 * least).max(0.0),
            most: 2.0 * most,
        })?;
        let outer = curve(free);
        let inner = inner(&outer, self.webs, self.heel_y);
        Ok(Half { outer, inner })
    }
}

/// How far a rounded heel reaches behind its end, as a part of its web.
const ROUND: f64 = 0.35;
/// How much of a pencilled heel is tapered, as a part of its web.
const PENCIL: f64 = 0.8;

fn plate_size(bar: &Bar) -> Option<(f64, f64)> {
    let is_heart = bar.shape == BarShape::Heart;
    let long = bar.plate_length.filter(|_| is_heart)?;
    Some((long.to_mm(), bar.plate_width?.to_mm()))
}

fn front_of(piece: &PieceSpecification, foot: Foot, half: f64) -> Front {
    let flat = match piece.toe.shape {
        ToeShape::Set => piece.toe.set_width.map_or(0.0, |width| width.to_mm() / 2.0),
        ToeShape::Round | ToeShape::Rolled => 0.0,
    };
    let room = (half - flat).max(0.0);
    let usual = match foot {
        Foot::NearFore | Foot::OffFore => room,
        // A hind foot is more pointed: common practice, no source.
        Foot::NearHind | Foot::OffHind => 0.8 * room,
    };
    let radius = match piece.toe.radius {
        Some(radius) => radius.to_mm(),
        None => usual,
    };
    Front { flat, radius }
}

impl Body {
    pub fn of(piece: &PieceSpecification, foot: Foot) -> Result<Self, Vec<ShapeFault>> {
        let mut sizes = Sizes::of(piece)?;
        let mut body = Self::drawn(piece, foot, &sizes)?;
        if let Back::Open(_) = sizes.back {
            // By the secant: how much longer it came out for the last step.
            let mut gain = 1.0;
            for _ in 0..STRETCHES {
                let off = body.too_short_by(sizes.length);
                if off.abs() < 1e-7 {
                    break;
                }
                let step = off / gain;
                sizes.heel_y += step;
                body = Self::drawn(piece, foot, &sizes)?;
                let gained = off - body.too_short_by(sizes.length);
                gain = (gained / step).clamp(0.2, 5.0);
            }
        }
        Ok(body)
    }

    fn drawn(
        piece: &PieceSpecification,
        foot: Foot,
        sizes: &Sizes<'_>,
    ) -> Result<Self, Vec<ShapeFault>> {
        let outer_is_right = foot.outer_is_right();
        let fuller_by = piece.outer_fuller_by.to_mm();
        let half = |branch: Branch| match branch {
            Branch::Outer => (sizes.width + fuller_by) / 2.0,
            Branch::Inner => (sizes.width - fuller_by) / 2.0,
        };
        let front = front_of(piece, foot, sizes.width / 2.0);
        let drawn = |branch| sizes.half(front, half(branch));
        let (outer, inner) = match (drawn(Branch::Outer), drawn(Branch::Inner)) {
            (Ok(outer), Ok(inner)) => (outer, inner),
            (Err(fault), _) | (_, Err(fault)) => return Err(vec![fault]),
        };
        let (right, left) = if outer_is_right {
            (outer, inner)
        } else {
            (inner, outer)
        };
        Ok(Self::closed(sizes, right, left, outer_is_right))
    }

    /// How much longer the shoe is asked for than it is drawn: the round end of a heel
    /// reaches behind its edges.
    fn too_short_by(&self, length: f64) -> f64 {
        length - kurbo::Shape::bounding_box(&self.outline).y1
    }

    fn closed(sizes: &Sizes<'_>, right: Half, left: Half, outer_is_right: bool) -> Self {
        let edges = (
            Edge::new(right.outer, sizes.heel_y),
            Edge::new(left.outer, sizes.heel_y).mirrored(),
        );
        let mut plate = None;
        let (outline, opening, bar_front) = match sizes.back {
            Back::Open(heels) => {
                let outline = open(heels, sizes.webs, &edges, &right.inner, &left.inner);
                (outline, None, None)
            }
            Back::Bar(bar) if bar.shape == BarShape::Egg => {
                let mut outline = edges.0.path.clone();
                append(&mut outline, &edges.1.path.reverse_subpaths());
                outline.close_path();
                let mut around: Vec<Point> = right.inner.clone();
                around.extend(left.inner.iter().rev().skip(1).copied().map(mirrored));
                (outline, Some(closed_smooth(&around)), None)
            }
            Back::Bar(bar) => {
                let width = bar.width.to_mm();
                let front = sizes.length - width;
                let corner = 0.3 * width.min(sizes.webs.heel);
                let outline = straight_back(&edges, corner, sizes.length);
                plate = plate_size(bar).map(|size| frog_plate(size, front));
                let opening = opening(&right.inner, &left.inner, front, sizes.gap, plate.as_ref());
                (outline, Some(opening), Some(front))
            }
        };
        Self {
            outline,
            opening,
            right: edges.0,
            left: edges.1,
            outer_is_right,
            bar_front,
            webs: sizes.webs,
            gap: sizes.gap,
            is_bar: matches!(sizes.back, Back::Bar(_)),
            plate,
        }
    }

    /// The edge of a branch.
    pub fn edge(&self, branch: Branch) -> &Edge {
        if (branch == Branch::Outer) == self.outer_is_right {
            &self.right
        } else {
            &self.left
        }
    }

    /// Width of the steel, square to the edge.
    pub fn web_at(&self, edge: &Edge, along: f64) -> f64 {
        web_at(edge, along, self.webs)
    }

    /// Toe, branches, and heels or bar, as closed paths.
    pub fn zones(&self) -> Vec<(Place, BezPath)> {
        let back = match self.bar_front {
            Some(front) => [&self.right, &self.left].map(|edge| edge.behind_toe(front)),
            None if self.is_bar => [&self.right, &self.left].map(|edge| edge.heel()),
            None => [&self.right, &self.left].map(|edge| HEEL_PART * edge.length()),
        };
        let edges = [&self.right, &self.left];
        let toe = edges.map(|edge| TOE_PART * edge.heel());
        let branches = self.both(toe, back);
        let (right, left) = (&self.right, &self.left);
        let (mut around, mut within) = (Vec::new(), Vec::new());
        for (edge, upto) in [(left, toe[1]), (right, toe[0])] {
            let from_toe = Edge::places(0.0, upto, ALONG);
            let mut pairs: Vec<(Point, Point)> = from_toe.map(|at| self.across(edge, at)).collect();
            if around.is_empty() {
                pairs.reverse();
            }
            around.extend(pairs.iter().map(|(out, _)| *out));
            within.extend(pairs.iter().map(|(_, inner)| *inner));
        }
        around.extend(within.into_iter().rev());
        let toe = polygon(&around);
        let (place, behind) = if self.is_bar {
            (Place::Bar, self.bar_zone(back))
        } else {
            (Place::Heels, self.both(back, edges.map(Edge::length)))
        };
        vec![
            (Place::Toe, toe),
            (Place::Branches, branches),
            (place, behind),
        ]
    }

    fn across(&self, edge: &Edge, along: f64) -> (Point, Point) {
        let (point, _, inward) = edge.at(along);
        (point, point + inward * self.web_at(edge, along))
    }

    /// A band of each branch; both run the same way round.
    fn both(&self, from: [f64; 2], to: [f64; 2]) -> BezPath {
        let [right_from, left_from] = from;
        let [right_to, left_to] = to;
        let mut bands = self.band(&self.right, right_from, right_to);
        let left = self.band(&self.left, left_from, left_to);
        append(&mut bands, &left.reverse_subpaths());
        bands
    }

    fn band(&self, edge: &Edge, from: f64, to: f64) -> BezPath {
        let pairs: Vec<(Point, Point)> = Edge::places(from, to, ALONG)
            .map(|along| self.across(edge, along))
            .collect();
        let mut points: Vec<Point> = pairs.iter().map(|(out, _)| *out).collect();
        points.extend(pairs.iter().rev().map(|(_, inner)| *inner));
        polygon(&points)
    }

    fn bar_zone(&self, back: [f64; 2]) -> BezPath {
        let (right, left) = (&self.right, &self.left);
        let Some(front) = self.bar_front else {
            return self.both(back, [right.length(), left.length()]);
        };
        let of = |edge: &Edge, from: f64| -> Vec<Point> {
            let corner = edge.length() - 0.1 * self.webs.heel;
            Edge::places(from, corner.max(from), ALONG)
                .map(|along| edge.at(along).0)
                .collect()
        };
        let mut points = of(right, back[0]);
        points.extend(of(left, back[1]).into_iter().rev());
        // Up to where the branches end, square to their edges.
        points.extend([
            self.across(left, back[1]).1,
            Point::new(-self.gap / 2.0, front),
            Point::new(self.gap / 2.0, front),
            self.across(right, back[0]).1,
        ]);
        let mut zone = polygon(&points);
        if let Some(plate) = &self.plate {
            append(&mut zone, plate);
        }
        zone
    }
}

/// Adds what a path draws behind what `path` holds.
fn append(path: &mut BezPath, other: &BezPath) {
    let goes_on = path
        .elements()
        .last()
        .is_some_and(|last| !matches!(last, kurbo::PathEl::ClosePath));
    let skipped = usize::from(goes_on);
    path.extend(other.elements().iter().skip(skipped).copied());
}

fn polygon(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let mut points = points.iter();
    if let Some(first) = points.next() {
        path.move_to(*first);
        for point in points {
            path.line_to(*point);
        }
        path.close_path();
    }
    path
}

/// A smooth closed curve through points; the last one is the first again.
fn closed_smooth(points: &[Point]) -> BezPath {
    let mut path = smooth(points);
    path.close_path();
    path
}

/// The outline of a shoe with free heels.
fn open(
    heels: &Heels,
    webs: Webs,
    (right, left): &(Edge, Edge),
    right_inner: &[Point],
    left_inner: &[Point],
) -> BezPath {
    let back = match heels.shape {
        HeelShape::Pencilled => PENCIL * webs.heel,
        HeelShape::Square | HeelShape::Rounded => 0.0,
    };
    let mut path = right.upto(right.length() - back);
    let mut inside: Vec<Point> = right_inner.iter().rev().copied().collect();
    inside.extend(left_inner.iter().skip(1).copied().map(mirrored));
    let ends = (inside.first().copied(), inside.last().copied());
    let (Some(right_end), Some(left_end)) = ends else {
        return path;
    };
    heel_end(
        &mut path,
        heels.shape,
        right,
        right.length() - back,
        right_end,
    );
    append_smooth(&mut path, &inside);
    let out = left.at(left.length() - back).0;
    let mut other = BezPath::new();
    other.move_to(out);
    heel_end(
        &mut other,
        heels.shape,
        left,
        left.length() - back,
        left_end,
    );
    append(&mut path, &other.reverse_subpaths());
    append(
        &mut path,
        &left.upto(left.length() - back).reverse_subpaths(),
    );
    path.close_path();
    path
}

/// From the outer edge at `along` round the heel to `inner`.
fn heel_end(path: &mut BezPath, shape: HeelShape, edge: &Edge, along: f64, inner: Point) {
    let (outer, tangent, _) = edge.at(along);
    let across = (inner - outer).hypot();
    match shape {
        HeelShape::Square => path.line_to(inner),
        HeelShape::Rounded => {
            let pull = tangent * (ROUND / 0.75 * across);
            path.curve_to(outer + pull, inner + pull, inner);
        }
        HeelShape::Pencilled => {
            let pull = tangent * (0.4 * across);
            path.curve_to(outer + pull, inner.lerp(outer, 0.25), inner);
        }
    }
}

/// Both edges, joined straight across behind with rounded corners.
fn straight_back((right, left): &(Edge, Edge), corner: f64, length: f64) -> BezPath {
    let cut = |edge: &Edge| edge.upto(edge.length() - corner);
    let heel = |edge: &Edge| edge.at(edge.length()).0;
    let mut path = cut(right);
    let (right_heel, left_heel) = (heel(right), heel(left));
    path.quad_to(right_heel, Point::new(right_heel.x - corner, length));
    path.line_to((left_heel.x + corner, length));
    let left = cut(left).reverse_subpaths();
    let start = left.elements().first().and_then(|element| match element {
        kurbo::PathEl::MoveTo(point) => Some(*point),
        _ => None,
    });
    path.quad_to(left_heel, start.unwrap_or(left_heel));
    append(&mut path, &left);
    path.close_path();
    path
}

/// What a bar with a straight front edge closes in.
fn opening(
    right: &[Point],
    left: &[Point],
    front: f64,
    gap: f64,
    plate: Option<&BezPath>,
) -> BezPath {
    let before = |points: &[Point]| -> Vec<Point> {
        let kept = points.iter().take_while(|point| point.y < front - 0.2);
        kept.copied().collect()
    };
    let mut points = vec![Point::new(gap / 2.0, front)];
    points.extend(before(right).into_iter().rev());
    points.extend(before(left).into_iter().skip(1).map(mirrored));
    points.push(Point::new(-gap / 2.0, front));
    let mut path = smooth(&points);
    if let Some(plate) = plate {
        let open: Vec<kurbo::PathEl> = plate.elements().to_vec();
        for element in open {
            match element {
                kurbo::PathEl::MoveTo(point) => path.line_to(point),
                kurbo::PathEl::ClosePath => {}
                other => path.push(other),
            }
        }
    }
    path.close_path();
    path
}

/// The plate of a heart bar, from the left end of its foot round its tip to the right.
fn frog_plate((long, wide): (f64, f64), front: f64) -> BezPath {
    let (half, tip) = (wide / 2.0, front - long);
    let mut path = BezPath::new();
    path.move_to((-half, front));
    path.curve_to(
        (-half, front - 0.55 * long),
        (-0.45 * half, tip),
        (0.0, tip),
    );
    path.curve_to(
        (0.45 * half, tip),
        (half, front - 0.55 * long),
        (half, front),
    );
    path.close_path();
    path
}
