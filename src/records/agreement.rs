use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::ids::MarkingId;
use crate::marking::Settled;

/// A sealed marking that an agreed one is made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MadeFrom {
    /// Which.
    pub marking: MarkingId,
    /// The digest in its seal, so that no other text can stand for it.
    pub digest: String,
}

/// What an agreed marking is made from, and what its examiners settled. Its marks are
/// worked out anew from these.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Agreement {
    /// Two markings or more, oldest first.
    pub from: Vec<MadeFrom>,
    /// By entry.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub settled: BTreeMap<String, Settled<MarkingId>>,
}
