use super::{NoPhoto, check_size};

/// JPEGs that are laid down in more passes are refused: encoders take about ten, and each goes
/// over the whole picture, so that a small file could keep a device busy for hours.
const MOST_PASSES: usize = 40;

/// Pixels to a byte, at most: each block of 8 × 8 takes a bit or more.
const MOST_TO_A_BYTE: usize = 8 * 64;

/// What the markers of a JPEG say.
///
/// *Source:* ISO/IEC 10918-1, annex B. The file is walked before it is decoded: a decoder fills
/// up what is missing with grey, which is no picture of a shoe.
pub(super) struct Head {
    /// As many columns.
    pub(super) width: usize,
    /// As many rows.
    pub(super) height: usize,
}

impl Head {
    /// Whether so few bytes can hold it.
    fn can_be_of(&self, bytes: &[u8]) -> bool {
        self.width.saturating_mul(self.height) <= bytes.len().saturating_mul(MOST_TO_A_BYTE)
    }
}

/// *Errors:* [`NoPhoto`] where it is cut, too large or small, in printing inks, or of too many
/// passes.
pub(super) fn head(bytes: &[u8]) -> Result<Head, NoPhoto> {
    let cut = || NoPhoto::Cut { size: bytes.len() };
    let mut rest = bytes;
    let mut head: Option<Head> = None;
    let mut passes = 0;
    loop {
        let (marker, after) = next_marker(rest).ok_or_else(cut)?;
        rest = after;
        match marker {
            // What stands alone: a filler, restarts, the beginning.
            0x01 | 0xd0..=0xd8 => continue,
            0xd9 => {
                let head = head.ok_or_else(|| broken("it ends without a picture"))?;
                return Some(head)
                    .filter(|head| head.can_be_of(bytes))
                    .ok_or_else(cut);
            }
            _ => {}
        }
        let (segment, after) = segment(rest).ok_or_else(cut)?;
        rest = after;
        match marker {
            // Tables and an extension share the range of frames.
            0xc4 | 0xc8 | 0xcc => {}
            0xc0..=0xcf if head.is_some() => return Err(broken("it has two pictures in one")),
            0xc0..=0xcf => head = Some(frame(segment)?),
            0xda => {
                passes += 1;
                if passes > MOST_PASSES {
                    return Err(NoPhoto::TooManyPasses { most: MOST_PASSES });
                }
            }
            _ => {}
        }
    }
}

/// The next marker and what comes after it; pixels and padding before it are passed over.
fn next_marker(bytes: &[u8]) -> Option<(u8, &[u8])> {
    let mut rest = bytes;
    loop {
        let at = rest.iter().position(|byte| *byte == 0xff)?;
        rest = rest.get(at + 1..)?;
        match rest.first()? {
            // Among pixels, a byte that would be a marker has a zero behind it.
            0x00 | 0xff => {}
            marker => return Some((*marker, rest.get(1..)?)),
        }
    }
}

/// What stands under a marker, and what comes after it.
fn segment(bytes: &[u8]) -> Option<(&[u8], &[u8])> {
    let (length, _) = bytes.split_first_chunk()?;
    let length = usize::from(u16::from_be_bytes(*length));
    let (segment, after) = bytes.split_at_checked(length.max(2))?;
    Some((segment.get(2..)?, after))
}

fn frame(segment: &[u8]) -> Result<Head, NoPhoto> {
    let &[_, high, low, wide, narrow, parts, ..] = segment else {
        return Err(broken("the head of its picture is too short"));
    };
    let height = usize::from(u16::from_be_bytes([high, low]));
    let width = usize::from(u16::from_be_bytes([wide, narrow]));
    check_size(width, height)?;
    match parts {
        1 | 3 => Ok(Head { width, height }),
        4 => Err(NoPhoto::PrintingInks),
        _ => Err(broken("it has neither one colour nor three")),
    }
}

pub(super) fn broken(why: &str) -> NoPhoto {
    NoPhoto::Broken {
        kind: "JPEG",
        why: why.to_owned(),
    }
}
