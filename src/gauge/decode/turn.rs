use super::photo::Stored;

/// How a camera was held, as the place in the stored picture from which an upright pixel comes.
///
/// *Source:* CIPA DC-008 (EXIF 2.32), 4.6.4, tag 274: where the stored first row and first
/// column were seen.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Turn {
    /// Rows were seen as columns.
    swaps: bool,
    /// Columns count from the right.
    from_right: bool,
    /// Rows count from below.
    from_below: bool,
}

impl Turn {
    /// Of the value of the tag; upright where there is no such value.
    pub(super) fn of(tag: u32) -> Self {
        Self {
            swaps: matches!(tag, 5..=8),
            from_right: matches!(tag, 2 | 3 | 7 | 8),
            from_below: matches!(tag, 3 | 4 | 6 | 7),
        }
    }
}

/// The picture as it was seen.
pub(super) fn upright(stored: Stored, turn: Turn) -> Stored {
    if turn == Turn::default() {
        return stored;
    }
    let (width, height) = if turn.swaps {
        (stored.height, stored.width)
    } else {
        (stored.width, stored.height)
    };
    let (cells, _) = stored.pixels.as_chunks::<3>();
    let mut pixels = Vec::with_capacity(stored.pixels.len());
    for y in 0..height {
        let place = |x: usize| {
            let (column, row) = if turn.swaps { (y, x) } else { (x, y) };
            let column = counted_from(column, stored.width, turn.from_right);
            let row = counted_from(row, stored.height, turn.from_below);
            row * stored.width + column
        };
        pixels.extend((0..width).filter_map(|x| cells.get(place(x))).flatten());
    }
    Stored {
        width,
        height,
        pixels,
    }
}

fn counted_from(at: usize, count: usize, is_other_end: bool) -> usize {
    if is_other_end {
        (count - 1).saturating_sub(at)
    } else {
        at
    }
}
