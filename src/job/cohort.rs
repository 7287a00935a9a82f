use serde::{Deserialize, Serialize};

use crate::cohort::Cohort;

/// What is wanted of a cohort, with its numbers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CohortWanted {
    /// The numbers: marks are worked out on the page, so that no records have to be sent.
    pub cohort: Cohort,
    /// What is to be made of them.
    pub form: CohortForm,
}

/// What can be made of a cohort.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CohortForm {
    /// What its page shows.
    Sheet,
    /// A workbook with all figures (ISO/IEC 29500).
    Xlsx,
    /// A row for each learner as comma-separated values (RFC 4180).
    Csv,
}

impl CohortForm {
    /// Those that are files.
    pub const FILES: [Self; 2] = [Self::Xlsx, Self::Csv];

    /// The form in a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Xlsx => "xlsx",
            Self::Csv => "csv",
        }
    }

    /// The file of this word; the workbook where there is none.
    pub fn from_word(word: &str) -> Self {
        let found = Self::FILES.into_iter().find(|form| form.word() == word);
        found.unwrap_or(Self::Xlsx)
    }
}
