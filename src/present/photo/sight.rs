use crate::gauge::Dot;

/// A photo is drawn no larger than this, of the width of its frame.
pub const LARGEST: f64 = 12.0;
/// A shoe that fills the frame takes this share of it.
const AROUND: f64 = 0.8;

/// How a photo is seen first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstSight {
    /// How large, of the frame's width; 1 shows all of it.
    pub scale: f64,
    /// What lies in the middle of the frame, as a share of columns and rows.
    pub middle: Dot,
}

/// So large that the outline fills the frame, in a picture of so many columns and rows; all of it
/// where there is no outline.
pub fn first_sight(outline: &[Dot], (columns, rows): (usize, usize)) -> FirstSight {
    let (columns, rows) = (columns as f64, rows as f64);
    let ends = |of: fn(&Dot) -> f64| {
        let values = outline.iter().map(of);
        values.fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(least, most), value| (least.min(value), most.max(value)),
        )
    };
    let ((left, right), (top, foot)) = (ends(|dot| dot.0), ends(|dot| dot.1));
    let fills = f64::min(columns / (right - left), rows / (foot - top)) * AROUND;
    if outline.is_empty() || !fills.is_finite() {
        return FirstSight {
            scale: 1.0,
            middle: (0.5, 0.5),
        };
    }
    FirstSight {
        scale: fills.clamp(1.0, LARGEST),
        middle: (
            f64::midpoint(left, right) / columns,
            f64::midpoint(top, foot) / rows,
        ),
    }
}
