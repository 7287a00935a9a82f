use super::start::sentence;
use crate::command::{Command, CommandError};
use crate::store::{StoreError, Unreadable};

/// How many reasons are told in one message.
const TOLD: usize = 3;

/// What to say about commands that no longer applied after another tab's; `why`
/// is what the store said, where that was the reason. `None` where there are none.
pub fn refused_words(
    refused: &[(Command, CommandError)],
    why: Option<&StoreError>,
) -> Option<String> {
    if refused.is_empty() {
        return None;
    }
    let mut reasons: Vec<String> = Vec::new();
    let told = match why {
        Some(why) => vec![why.to_string()],
        None => refused.iter().map(|(_, error)| error.to_string()).collect(),
    };
    for reason in told {
        let reason = sentence(&reason);
        if !reasons.contains(&reason) && reasons.len() < TOLD {
            reasons.push(reason);
        }
    }
    let head = match refused.len() {
        1 => "Your last change could not be kept.".to_owned(),
        count => format!("{count} of your last changes could not be kept."),
    };
    Some(format!("{head} {}", reasons.join(" ")))
}

/// What to say about stored records that cannot be read; `None` where all can.
pub fn unreadable_words(unreadable: &[Unreadable]) -> Option<String> {
    let first = unreadable.first()?;
    let head = match unreadable.len() {
        1 => "One record on this device cannot be read; it is left as it is.".to_owned(),
        count => {
            format!("{count} records on this device cannot be read; they are left as they are.")
        }
    };
    Some(format!(
        "{head} {}: {}",
        first.key,
        sentence(&first.why.to_string())
    ))
}
