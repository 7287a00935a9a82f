use super::value::Uncertain;

/// Coverage factor of the expanded uncertainties in En (ISO 13528:2022, 9.7: U = 2u).
const COVERAGE: f64 = 2.0;

/// The En score of two measurements of one thing by two people:
/// `(a - b) / sqrt(Ua² + Ub²)` with `U = 2u`.
///
/// *Source:* ISO 13528:2022, 9.7, from memory; above 1 either way the difference is more
/// than measuring explains. What both took with one instrument does not tell them apart:
/// of the parts that they share only the difference counts, as in the difference of the
/// two values (JCGM 100:2008, 5.2.2), and that is nothing where both used it alike.
/// `None` where no uncertainty is left, so that there is nothing to hold the difference
/// against.
pub fn en_score(one: &Uncertain, other: &Uncertain) -> Option<f64> {
    let mut square = one.own.powi(2) + other.own.powi(2);
    for (instrument, size) in &one.shared {
        square += (size - shared_by(other, instrument)).powi(2);
    }
    for (instrument, size) in &other.shared {
        if one.shared.iter().all(|(known, _)| known != instrument) {
            square += size.powi(2);
        }
    }
    let expanded = COVERAGE * square.sqrt();
    (expanded > 0.0).then(|| (one.value - other.value) / expanded)
}

fn shared_by(of: &Uncertain, instrument: &str) -> f64 {
    let part = of.shared.iter().find(|(known, _)| known == instrument);
    part.map_or(0.0, |(_, size)| *size)
}
