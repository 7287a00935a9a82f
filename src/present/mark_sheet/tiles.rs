use crate::quantity::Marks;
use crate::rubric::{Criterion, Effect, Fault, Judged, Kind};
use crate::sheet::{Pictured, level_photo};

/// A level to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LevelTile {
    /// What is stored.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What is seen at this level, with what it does.
    pub text: String,
    /// Its marks, the criterion's weight counted.
    pub marks: String,
    /// Rank of its marks, 4 to 0.
    pub rank: u8,
    /// The photo of an example.
    pub photo: Option<Pictured>,
}

/// A fault to tick.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultTile {
    /// What is stored.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it does.
    pub effect: String,
}

pub(super) fn level_tiles(criterion: &Criterion) -> Vec<LevelTile> {
    let most = criterion.most_unweighted();
    let Kind::Judged(Judged::Levels(levels)) = &criterion.kind else {
        return Vec::new();
    };
    let tile = |level: &crate::rubric::Level| {
        let effect = match level.effect {
            Effect::Noted => None,
            Effect::Warn => Some("Gives a warning"),
            Effect::Stop => Some("Stops the award"),
        };
        let example = level
            .example
            .as_ref()
            .map(|example| format!("For example: {example}"));
        let parts = [Some(level.text.clone()), example, effect.map(str::to_owned)];
        LevelTile {
            id: level.id.clone(),
            name: level.name.clone(),
            text: sentences(parts),
            marks: criterion.weighted(level.marks).to_string(),
            rank: level.marks.rank(most),
            photo: level_photo(level),
        }
    };
    levels.iter().map(tile).collect()
}

pub(super) fn fault_tiles(criterion: &Criterion) -> Vec<FaultTile> {
    let tile = |fault: &Fault| {
        let cost = (fault.deduct > Marks::ZERO)
            .then(|| format!("takes {}", criterion.weighted(fault.deduct)));
        let effect = match fault.effect {
            Effect::Noted => None,
            Effect::Warn => Some("gives a warning".to_owned()),
            Effect::Stop => Some("stops the award".to_owned()),
        };
        let words: Vec<String> = cost.into_iter().chain(effect).collect();
        let effect = if words.is_empty() {
            "noted".to_owned()
        } else {
            words.join(", ")
        };
        FaultTile {
            id: fault.id.clone(),
            name: fault.name.clone(),
            effect,
        }
    };
    criterion.faults.iter().map(tile).collect()
}

/// Parts as sentences, each with its full stop; empty parts are left out.
pub(super) fn sentences(parts: impl IntoIterator<Item = Option<String>>) -> String {
    let parts = parts
        .into_iter()
        .flatten()
        .filter(|part| !part.trim().is_empty());
    let stopped = parts.map(|part| {
        let text = part.trim();
        if text.ends_with(['.', '!', '?']) {
            text.to_owned()
        } else {
            format!("{text}.")
        }
    });
    stopped.collect::<Vec<_>>().join(" ")
}
