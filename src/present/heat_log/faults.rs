use crate::marking::Facts;
use crate::quantity::counted;
use crate::rubric::{Effect, Rubric, When};

/// A fault that can be noted while the piece is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultTile {
    /// The entry it belongs to.
    pub entry: String,
    /// Its id there.
    pub fault: String,
    /// Its name.
    pub name: String,
    /// What it does, and how often it was seen; may be empty.
    pub says: String,
}

/// Every fault of what is looked at during the making, and how often it was seen.
pub(in crate::present) fn fault_tiles(rubric: &Rubric, facts: &Facts) -> Vec<FaultTile> {
    let entries = rubric.entries().into_iter();
    let during = entries.filter(|entry| entry.criterion.when == When::During);
    let tiles = during.flat_map(|entry| {
        let noted = facts.faults.get(&entry.id).cloned().unwrap_or_default();
        let shoe = entry
            .shoe
            .map(|shoe| format!("{}: ", shoe.name))
            .unwrap_or_default();
        let faults = entry.criterion.faults.iter();
        let tiles = faults.map(|fault| {
            let seen = noted.iter().filter(|id| **id == fault.id).count();
            let does = match fault.effect {
                Effect::Noted => "",
                Effect::Warn => "a warning",
                Effect::Stop => "stops the award",
            };
            let seen = if seen == 0 {
                String::new()
            } else {
                counted(seen, "time", "times")
            };
            let says: Vec<&str> = [does, &seen]
                .into_iter()
                .filter(|text| !text.is_empty())
                .collect();
            FaultTile {
                entry: entry.id.clone(),
                fault: fault.id.clone(),
                name: format!("{shoe}{}", fault.name),
                says: says.join(", "),
            }
        });
        tiles.collect::<Vec<FaultTile>>()
    });
    tiles.collect()
}
