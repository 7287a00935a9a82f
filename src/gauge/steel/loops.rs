use kurbo::{Line, ParamCurve, Point};

/// More loops than this are no accident of a line that is followed.
const MOST: usize = 40;

/// A closed line without its loops: where it crosses itself, the shorter way round is cut off.
/// A guide that bends round a crumb or a sharp corner fans out what is followed from it.
pub fn without_loops(mut line: Vec<Point>) -> Vec<Point> {
    for _ in 0..MOST {
        let Some((first, second, at)) = crossing(&line) else {
            break;
        };
        let inside = second - first;
        let mut turned = line;
        // What stays begins after the one side and ends at the other.
        if 2 * inside <= turned.len() {
            turned.rotate_left(second + 1);
            turned.truncate(turned.len() - inside);
        } else {
            turned.rotate_left(first + 1);
            turned.truncate(inside);
        }
        turned.push(at);
        line = turned;
    }
    line
}

/// The first two sides that cross, by the places where they begin, and where.
fn crossing(line: &[Point]) -> Option<(usize, usize, Point)> {
    let sides: Vec<Line> = line
        .iter()
        .zip(line.iter().cycle().skip(1))
        .map(|(from, to)| Line::new(*from, *to))
        .collect();
    let last = sides.len().checked_sub(1)?;
    sides.iter().enumerate().find_map(|(first, side)| {
        let others = sides.iter().enumerate().skip(first + 2);
        // Neighbours meet and do not cross; the last side is one of the first.
        let mut others = others.filter(|(second, _)| first > 0 || *second < last);
        others.find_map(|(second, other)| Some((first, second, met(*side, *other)?)))
    })
}

fn met(one: Line, other: Line) -> Option<Point> {
    let (along, across) = (one.p1 - one.p0, other.p1 - other.p0);
    let area = along.cross(across);
    let apart = other.p0 - one.p0;
    let (place, on_other) = (apart.cross(across) / area, apart.cross(along) / area);
    let is_on = |share: f64| (0.0..=1.0).contains(&share);
    (is_on(place) && is_on(on_other)).then(|| one.eval(place))
}
