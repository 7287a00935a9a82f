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
pub(super) fn upright(mut stored: Stored, turn: Turn) -> Stored {
    if turn.swaps {
        return swapped(&stored, turn);
    }
    let (cells, _) = stored.pixels.as_chunks_mut::<3>();
    if turn.from_below {
        // Rows and columns both, so that the columns must be turned back.
        cells.reverse();
    }
    if turn.from_below != turn.from_right {
        for row in cells.chunks_exact_mut(stored.width) {
            row.reverse();
        }
    }
    stored
}

/// As many rows are written at once, so that what is read and written stays at hand.
const AT_ONCE: usize = 32;

/// Columns as rows.
fn swapped(stored: &Stored, turn: Turn) -> Stored {
    let (cells, _) = stored.pixels.as_chunks::<3>();
    let mut pixels = vec![0; stored.pixels.len()];
    let bands = pixels.chunks_mut(AT_ONCE * 3 * stored.height);
    for (band, pixels) in bands.enumerate() {
        let (written, _) = pixels.as_chunks_mut::<3>();
        let rows = written.chunks_exact_mut(stored.height);
        let mut rows: Vec<_> = rows.map(|row| row.iter_mut()).collect();
        let seen = (band * AT_ONCE, band * AT_ONCE + rows.len());
        let (from, to) = if turn.from_right {
            (stored.width - seen.1, stored.width - seen.0)
        } else {
            seen
        };
        if turn.from_right {
            rows.reverse();
        }
        let mut put = |row: &[[u8; 3]]| {
            let read = row.get(from..to).unwrap_or_default();
            for (row, cell) in rows.iter_mut().zip(read) {
                if let Some(place) = row.next() {
                    *place = *cell;
                }
            }
        };
        let held = cells.chunks_exact(stored.width);
        if turn.from_below {
            held.rev().for_each(&mut put);
        } else {
            held.for_each(&mut put);
        }
    }
    Stored {
        width: stored.height,
        height: stored.width,
        pixels,
    }
}
