use kurbo::Point;
use nalgebra::{DMatrix, Matrix3, Vector3};

/// A central projection of one plane on another.
#[derive(Debug, Clone, PartialEq)]
pub struct Homography(Matrix3<f64>);

/// A thousandth of a pixel or of a millimetre over the whole field: what spreads less is no
/// field.
const LEAST_SPREAD: f64 = 1e-3;
/// Of the singular values of a field that decides, the last but one is never as small as this
/// share of the first.
const LEAST_SHARE: f64 = 1e-9;

impl Homography {
    /// That which takes each `from` to its `to`, of more than four pairs the one with the least
    /// algebraic error; `None` where they do not decide it: fewer than four pairs, three of four
    /// on a line, numbers that are none.
    ///
    /// *Source:* the normalised direct linear transformation, R. Hartley, In defense of the
    /// eight-point algorithm, 1997, and R. Hartley and A. Zisserman, Multiple View Geometry,
    /// second edition, algorithm 4.2 (both from memory).
    pub fn of(pairs: &[(Point, Point)]) -> Option<Self> {
        if pairs.len() < 4 {
            return None;
        }
        let from = normaliser(pairs.iter().map(|(from, _)| *from))?;
        let to = normaliser(pairs.iter().map(|(_, to)| *to))?;
        let rows = pairs.iter().flat_map(|(one, other)| {
            let (one, other) = (moved(&from, *one), moved(&to, *other));
            let seen = [one.x, one.y, 1.0];
            let [for_x, for_y] = [other.x, other.y].map(|to| seen.map(|value| -to * value));
            [[seen, [0.0; 3], for_x], [[0.0; 3], seen, for_y]]
        });
        // As many rows as there are unknowns at least, or the last direction is not worked out.
        let short = 9_usize.saturating_sub(2 * pairs.len());
        let rows = rows.chain(std::iter::repeat_n([[0.0; 3]; 3], short));
        let values: Vec<f64> = rows.flatten().flatten().collect();
        let rows = DMatrix::from_row_slice(values.len() / 9, 9, &values);
        let found = rows.svd(false, true);
        let values = &found.singular_values;
        let is_decided = *values.get(7)? > LEAST_SHARE * *values.get(0)?;
        let last = found.v_t?.row(8).transpose();
        let plain = Matrix3::from_row_slice(last.as_slice());
        let back = to.try_inverse()?;
        let matrix = back * plain * from;
        let is_sound = is_decided
            && matrix.iter().all(|value| value.is_finite())
            && plain.determinant().abs() > LEAST_SHARE;
        is_sound.then_some(Self(matrix))
    }

    /// Where a point goes; `None` on the horizon and where numbers end.
    pub fn maps(&self, at: Point) -> Option<Point> {
        let found = self.0 * Vector3::new(at.x, at.y, 1.0);
        let point = Point::new(found.x / found.z, found.y / found.z);
        (point.x.is_finite() && point.y.is_finite()).then_some(point)
    }

    /// Its matrix, whose scale says nothing.
    pub fn matrix(&self) -> &Matrix3<f64> {
        &self.0
    }
}

fn moved(by: &Matrix3<f64>, at: Point) -> Point {
    let found = by * Vector3::new(at.x, at.y, 1.0);
    Point::new(found.x, found.y)
}

/// What takes points to a mean of nothing and a mean distance of the root of two from it.
fn normaliser(points: impl Iterator<Item = Point> + Clone) -> Option<Matrix3<f64>> {
    let (mut sum, mut count) = (kurbo::Vec2::ZERO, 0.0);
    for point in points.clone() {
        sum += point.to_vec2();
        count += 1.0;
    }
    let middle = (sum / count).to_point();
    let spread = points.map(|point| (point - middle).hypot()).sum::<f64>() / count;
    let scale = std::f64::consts::SQRT_2 / spread;
    (spread > LEAST_SPREAD && spread.is_finite()).then(|| {
        Matrix3::new(
            scale,
            0.0,
            -scale * middle.x,
            0.0,
            scale,
            -scale * middle.y,
            0.0,
            0.0,
            1.0,
        )
    })
}
