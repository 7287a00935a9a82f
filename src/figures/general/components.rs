//! Variance components, however they were estimated.

use serde::Serialize;

use super::super::Lacking;
use super::super::numbers::finite;
use super::design::{Design, Effect};

/// The variance of one effect.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Component {
    /// The effect, as `p`, `pi`, `r:t` or `pr:t`.
    pub name: String,
    /// Its estimate as it comes out. It can be negative, which says that the true one is
    /// small or that the model does not hold.
    pub estimate: f64,
    /// Standard error of the estimate, where there is a formula.
    pub standard_error: Option<f64>,
    pub(super) effect: Effect,
}

impl Component {
    /// The estimate, or 0 where it is negative: what coefficients take.
    #[must_use]
    pub fn floored(&self) -> f64 {
        self.estimate.max(0.0)
    }
}

/// The variance components of a design.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Components {
    /// The design that they are of.
    pub design: Design,
    /// One for each effect, those of fewer facets first.
    pub parts: Vec<Component>,
}

impl Components {
    /// Components that come from elsewhere, as from two studies of one thing: of each effect
    /// of the design the estimate that `estimate` gives for its name, without a standard
    /// error.
    ///
    /// # Errors
    ///
    /// `Gaps` where an effect has none, `NotANumber` for one that is not finite.
    pub fn of(design: Design, estimate: impl Fn(&str) -> Option<f64>) -> Result<Self, Lacking> {
        let part = |effect: Effect| {
            let name = design.name(effect);
            let estimate = estimate(&name).ok_or(Lacking::Gaps("the components of variance"))?;
            Ok(Component {
                estimate: finite(estimate, "a component of variance")?,
                name,
                standard_error: None,
                effect,
            })
        };
        let parts = design.effects().into_iter().map(part);
        let parts = parts.collect::<Result<_, Lacking>>()?;
        Ok(Self { design, parts })
    }

    /// The component with this name, as `p` or `pr:t`.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<&Component> {
        self.parts.iter().find(|part| part.name == name)
    }
}
