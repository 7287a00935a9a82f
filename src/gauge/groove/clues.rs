use super::rows::Row;

/// What is looked at of a place where a groove might be.
pub const COUNT: usize = 19;
/// Values of all clues for one place.
pub type Clues = [f32; COUNT];

/// Places about each edge of a groove, in mm.
const ABOUT: [f64; 8] = [-1.6, -1.0, -0.5, -0.2, 0.2, 0.5, 1.0, 1.6];
/// A difference of the logarithm of light that is half of what counts as full.
const HALF: f32 = 0.4;

/// What is to be seen if a groove's edges were so far inside the outer edge, in mm.
pub fn clues(row: &Row, from: f64, to: f64) -> Clues {
    let outer = ABOUT.map(|about| row.at(from + about));
    let inner = ABOUT.map(|about| row.at(to + about));
    let [o0, o1, o2, o3, o4, o5, o6, o7] = outer;
    let [i0, i1, i2, i3, i4, i5, i6, i7] = inner;
    // The ground face beside it.
    let face = (o0 + o1 + i6 + i7) / 4.0;
    let middle = row.at(f64::midpoint(from, to)) - face;
    let [o0, o1, o3, o4, o6, o7] = [o0, o1, o3, o4, o6, o7].map(|level| level - face);
    let [i0, i1, i3, i4, i6, i7] = [i0, i1, i3, i4, i6, i7].map(|level| level - face);
    let (outer_step, inner_step) = ((o5 - o2).abs(), (i5 - i2).abs());
    let [o2, o5, i2, i5] = [o2, o5, i2, i5].map(|level| level - face);
    [
        o0, o1, o2, o3, o4, o5, o6, o7, i0, i1, i2, i3, i4, i5, i6, i7, middle, outer_step,
        inner_step,
    ]
    .map(|value| value / (value.abs() + HALF))
}
