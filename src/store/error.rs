use thiserror::Error;

use crate::records::{RecordKey, WireError};

/// Why something is not stored or not loaded, and what to do.
///
/// After any error from a commit nothing of the batch is stored, but for
/// [`StoreError::TimedOut`], where that is not known; loading tells.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StoreError {
    /// Another tab wrote the record since this one read it.
    #[error("{key} was changed in another tab; its newest state is loaded and yours applied to it")]
    Changed {
        /// Which record.
        key: RecordKey,
    },
    /// The stored record cannot be read and so must not be overwritten.
    #[error("the stored {key} cannot be read and is left as it is, so this is not saved: {why}")]
    Unreadable {
        /// Which record.
        key: RecordKey,
        /// Why.
        why: WireError,
    },
    /// A record cannot be written as text.
    #[error("this is not saved: {0}")]
    Write(#[from] WireError),
    /// The disk or the browser's share of it is full.
    #[error(
        "storage on this device is full, so the last change is not saved; keep this page open, \
         print or save the sheets you need, free space on the device, then try again"
    )]
    Full,
    /// The browser does not let pages store anything.
    #[error(
        "this browser keeps nothing for this page ({why}); allow site data for it or leave \
         private browsing, then reload; until then, print or save each sheet before you close \
         the page"
    )]
    Blocked {
        /// What the browser said.
        why: String,
    },
    /// A tab with a newer version has taken the database over.
    #[error("a newer version is open in another tab, so this one saves nothing more; reload it")]
    NewerTab,
    /// The browser closed the database.
    #[error("the browser has closed this page's storage; reload the page to go on")]
    Closed,
    /// No answer in time.
    #[error("the browser has not said whether the last change is saved; wait, then try again")]
    TimedOut,
    /// Anything else that the browser reports.
    #[error(
        "the last change is not saved: {why}; try again, and print or save the sheet if it persists"
    )]
    Other {
        /// What the browser said.
        why: String,
    },
}

impl StoreError {
    /// The error for a browser exception of this name, while reading or writing.
    pub fn from_name(name: &str, message: &str) -> Self {
        match name {
            "QuotaExceededError" => Self::Full,
            "SecurityError" | "NotAllowedError" => Self::Blocked {
                why: format!("{name}: {message}"),
            },
            // The connection is closed, or is closing.
            "InvalidStateError" => Self::Closed,
            _ => Self::Other {
                why: format!("{name}: {message}"),
            },
        }
    }

    /// The error for a browser exception of this name, while opening.
    pub fn on_open(name: &str, message: &str) -> Self {
        match name {
            "QuotaExceededError" => Self::Full,
            "VersionError" => Self::NewerTab,
            _ => Self::Blocked {
                why: format!("{name}: {message}"),
            },
        }
    }

    /// Whether the same batch may be stored later without loading first.
    pub fn may_pass(&self) -> bool {
        matches!(self, Self::Full | Self::Other { .. })
    }
}
