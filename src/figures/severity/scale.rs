use crate::figures::numbers::number;

/// No exponent goes further, so that no weight leaves what a float can hold.
const FARTHEST: f64 = 600.0;

/// The steps of a model, made ready to tell many places what levels they come to: one
/// exponential for each.
pub(super) struct Scale {
    /// `e` to the steps below each level, turned around.
    hurdles: Vec<f64>,
    /// The probability of each level at the place that was asked for last.
    shares: Vec<f64>,
    farthest: f64,
}

/// What a level is expected to be.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Expected {
    /// Its mean.
    pub(super) mean: f64,
    /// Its variance.
    pub(super) variance: f64,
}

impl Scale {
    /// That of these steps, one for each level above 0.
    pub(super) fn of(steps: &[f64]) -> Self {
        let mut sum = 0.0;
        let below = steps.iter().map(|step| {
            sum += step;
            -sum
        });
        let hurdles: Vec<f64> = std::iter::once(0.0).chain(below).map(f64::exp).collect();
        Self {
            shares: vec![0.0; hurdles.len()],
            farthest: FARTHEST / number(hurdles.len()),
            hurdles,
        }
    }

    /// What is expected at `place`.
    pub(super) fn at(&mut self, place: f64) -> Expected {
        let once = place.clamp(-self.farthest, self.farthest).exp();
        let mut power = 1.0;
        let mut all = 0.0;
        for (share, hurdle) in self.shares.iter_mut().zip(&self.hurdles) {
            *share = power * hurdle;
            all += *share;
            power *= once;
        }
        let (mut level, mut mean, mut squares) = (0.0, 0.0, 0.0);
        for share in &mut self.shares {
            *share /= all;
            mean += level * *share;
            squares += level * level * *share;
            level += 1.0;
        }
        Expected {
            mean,
            variance: (squares - mean * mean).max(0.0),
        }
    }

    /// The probability of each level at the place that was asked for last.
    pub(super) fn shares(&self) -> &[f64] {
        &self.shares
    }
}
