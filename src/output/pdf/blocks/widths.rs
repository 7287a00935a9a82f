/// What a column of a table needs, in points.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Need {
    /// The least: its widest word.
    pub(super) least: f32,
    /// The most: its widest cell in one line.
    pub(super) most: f32,
    /// What most cells would like: the root mean square of their widths in one line, which
    /// lets a single long cell weigh less than many.
    pub(super) usual: f32,
}

/// How much wider than it needs a table is set at most.
const STRETCH: f32 = 1.5;

/// How wide each column is so that all of them take `room` points, or less where they need
/// much less. Where all cells fit in one line, what is left over goes to the columns by
/// what they hold; else what is left over the widest words goes to the columns by what
/// they usually hold beyond that; and where not even the words fit, the widest columns
/// give way.
pub(super) fn widths(needs: &[Need], room: f32) -> Vec<f32> {
    let least: f32 = needs.iter().map(|need| need.least).sum();
    let most: f32 = needs.iter().map(|need| need.most).sum();
    if most <= room {
        let share = if most > 0.0 { room / most } else { 0.0 };
        return needs
            .iter()
            .map(|need| need.most * share.min(STRETCH))
            .collect();
    }
    if least <= room {
        let like = |need: &Need| (need.usual - need.least).max(0.0) + 1.0;
        let wanted: f32 = needs.iter().map(like).sum();
        let share = (room - least) / wanted;
        return needs
            .iter()
            .map(|need| need.least + like(need) * share)
            .collect();
    }
    let limit = limit(needs, room);
    needs.iter().map(|need| need.least.min(limit)).collect()
}

/// The width that no column may go beyond so that all of them fit.
fn limit(needs: &[Need], room: f32) -> f32 {
    let mut least: Vec<f32> = needs.iter().map(|need| need.least).collect();
    least.sort_by(f32::total_cmp);
    let mut left = room;
    let mut columns: f32 = least.iter().map(|_| 1.0).sum();
    for width in least {
        let share = left / columns;
        if width > share {
            return share;
        }
        left -= width;
        columns -= 1.0;
    }
    room
}
