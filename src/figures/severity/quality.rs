use super::design::{Design, Facet};
use super::model::State;
use crate::figures::numbers::number;

/// One learner, criterion or examiner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Element {
    /// Its place in logits.
    pub place: f64,
    /// Standard error of that.
    pub error: f64,
    /// Mean square of what its ratings are off, each weighted by its variance: near 1 where
    /// they go as the others do, above where they scatter more, below where they hang
    /// together too well (Wright and Masters, Rating Scale Analysis (1982), 5.3).
    pub infit: f64,
    /// The same unweighted, which single surprises move more.
    pub outfit: f64,
    /// How many ratings it rests on.
    pub ratings: usize,
}

/// How well places are told apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Standard deviation of the places without that of their errors, over the root mean
    /// square of these.
    pub separation: f64,
    /// The share of the variance of places that is not error.
    pub reliability: f64,
}

/// Every element of a facet.
pub(super) fn elements(state: &State, design: &Design, facet: Facet) -> Vec<Element> {
    #[derive(Clone, Default)]
    struct Sums {
        variance: f64,
        squares: f64,
        standard: f64,
        ratings: usize,
    }
    let places = state.places_of(facet);
    let mut sums = vec![Sums::default(); places.len()];
    let ratings = match facet {
        Facet::Learner => design.ratings(),
        Facet::Criterion | Facet::Examiner => &state.ratings,
    };
    let mut scale = state.scale();
    for rating in ratings {
        let expected = scale.at(state.place(rating));
        let square = (number(rating.level) - expected.mean).powi(2);
        if let Some(own) = sums.get_mut(facet.of(rating)) {
            own.variance += expected.variance;
            own.squares += square;
            own.standard += square / expected.variance.max(1e-12);
            own.ratings += 1;
        }
    }
    let both = places.iter().zip(sums);
    let elements = both.map(|(place, sums)| Element {
        place: *place,
        error: sums.variance.max(1e-12).sqrt().recip(),
        infit: sums.squares / sums.variance.max(1e-12),
        outfit: sums.standard / number(sums.ratings.max(1)),
        ratings: sums.ratings,
    });
    elements.collect()
}

/// How well elements are told apart.
pub(super) fn spread(elements: &[Element]) -> Spread {
    let many = number(elements.len());
    let mean = elements.iter().map(|one| one.place).sum::<f64>() / many;
    let off = elements.iter().map(|one| (one.place - mean).powi(2));
    let observed = off.sum::<f64>() / (many - 1.0).max(1.0);
    let error = elements.iter().map(|one| one.error.powi(2)).sum::<f64>() / many;
    let real = (observed - error).max(0.0);
    Spread {
        separation: (real / error).sqrt(),
        reliability: if observed > 0.0 { real / observed } else { 0.0 },
    }
}
