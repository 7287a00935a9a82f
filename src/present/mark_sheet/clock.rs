use crate::marking::Pause;

/// A duration and its reason as two fields show them; empty where there is none.
pub fn pause_texts(pause: Option<&Pause>) -> [String; 2] {
    pause.map_or_else(Default::default, |pause| {
        [pause.duration.clone(), pause.reason.clone()]
    })
}

/// What two fields say; `None` where both are empty.
pub fn pause_typed([duration, reason]: [String; 2]) -> Option<Pause> {
    let is_empty = duration.is_empty() && reason.is_empty();
    (!is_empty).then_some(Pause { duration, reason })
}

/// `pauses` with the first one, which is the one shown, as typed; the others stay.
pub fn with_first_pause(mut pauses: Vec<Pause>, typed: [String; 2]) -> Vec<Pause> {
    let shown = ..pauses.len().min(1);
    pauses.splice(shown, pause_typed(typed));
    pauses
}
