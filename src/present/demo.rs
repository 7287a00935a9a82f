//! What pages say of the invented school.

use crate::command::{Command, removal};
use crate::demo::{Invented, SCHOOL, device, open_demo, remove_demo};
use crate::records::{Day, Ledger};

/// What stands on every page while there is anything invented in the ledger.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InventedSign {
    /// What it says.
    pub text: String,
    /// What its button says; nothing where nothing of it can be taken out.
    pub button: Option<&'static str>,
}

/// The sign for `ledger`; `None` where nobody in it is invented.
pub fn invented_sign(ledger: &Ledger) -> Option<InventedSign> {
    let any = ledger.learners().any(|learner| learner.id.is_invented())
        || ledger.pieces().any(|piece| piece.id.is_invented());
    if !any {
        return None;
    }
    let out = removal(ledger, &device());
    let text = if out.goes.is_empty() {
        "What your own records name of the invented school stays with them. Nobody in it lives."
            .to_owned()
    } else if out.stays.is_empty() {
        format!("{SCHOOL} is open: its people and marks are made up, to look round in.")
    } else {
        format!(
            "{SCHOOL} is open: its people and marks are made up. Your own work on them stays, \
             and so do {} invented records that it names.",
            out.stays.len()
        )
    };
    Some(InventedSign {
        text,
        button: (!out.goes.is_empty()).then_some("Take it out"),
    })
}

/// The command that opens the school.
///
/// *Errors:* in words.
pub fn open_invented(ledger: &Ledger, today: Day) -> Result<Command, String> {
    open_demo(ledger, today).map_err(|why| super::sentence(&why.to_string()))
}

/// The command that takes the school out and nothing of one's own.
pub fn remove_invented() -> Command {
    remove_demo()
}
