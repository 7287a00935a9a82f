use kurbo::Point;

/// A closed line with as few of its corners as leave it nowhere more than so far off.
///
/// *Source:* D. H. Douglas and T. K. Peucker, Algorithms for the reduction of the number of
/// points required to represent a digitized line or its caricature, Cartographica 10, 1973 (from
/// memory): of a stretch the corner furthest off its chord stays, and both halves are looked at
/// alike. *Units:* those of the line.
pub fn thinned(line: &[Point], off: f64) -> Vec<Point> {
    let Some(first) = line.first().copied() else {
        return Vec::new();
    };
    // A closed line has no ends: its first corner and the one furthest from it stay.
    let far = |(_, one): &(usize, &Point), (_, other): &(usize, &Point)| {
        let (one, other) = (one.distance(first), other.distance(first));
        one.total_cmp(&other)
    };
    let turn = line.iter().enumerate().max_by(far).map_or(0, |(at, _)| at);
    let closed: Vec<Point> = line.iter().copied().chain([first]).collect();
    let (there, back) = closed.split_at(turn);
    let there: Vec<Point> = there.iter().chain(back.first()).copied().collect();
    let mut kept = stretch(&there, off);
    kept.extend(stretch(back, off));
    kept
}

/// The corners of an open line that stay, all but its last.
fn stretch(line: &[Point], off: f64) -> Vec<Point> {
    let mut kept = Vec::new();
    let mut ahead = vec![line];
    while let Some(line) = ahead.pop() {
        let [from, .., to] = line else {
            continue;
        };
        let chord = kurbo::Line::new(*from, *to);
        let away = |at: &Point| kurbo::ParamCurveNearest::nearest(&chord, *at, 0.0).distance_sq;
        let between = line.iter().enumerate().skip(1);
        let between = between.take(line.len().saturating_sub(2));
        let furthest = between
            .map(|(place, at)| (place, away(at)))
            .max_by(|one, other| one.1.total_cmp(&other.1));
        match furthest.filter(|(_, square)| *square > off * off) {
            Some((place, _)) => {
                ahead.extend(line.get(place..));
                ahead.extend(line.get(..=place));
            }
            None => kept.push(*from),
        }
    }
    kept
}
