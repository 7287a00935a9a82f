use super::{MOST_PIXELS, NoPhoto, check_size};

/// JPEGs that are laid down in more passes are refused: encoders take about ten, and each goes
/// over the whole picture, so that a small file could keep a device busy for hours.
const MOST_PASSES: usize = 40;

/// A JPEG in passes is held whole, 16 bits to a sample, beside its picture. More bytes in all are
/// refused: colour at full size takes nine to a pixel, which a device may not have for 50 million.
const MOST_ROOM: usize = 6 * MOST_PIXELS;

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
            0xc0..=0xcf => {
                let frame = frame(segment)?;
                if matches!(marker, 0xc2 | 0xc6 | 0xca | 0xce) {
                    check_room(&frame, segment)?;
                }
                head = Some(frame);
            }
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

/// *Errors:* [`NoPhoto`] where a picture in passes takes too much room.
///
/// *Source:* ISO/IEC 10918-1, B.2.2: three bytes a colour, the second how many samples it has
/// across and down, of the most that one has.
fn check_room(head: &Head, segment: &[u8]) -> Result<(), NoPhoto> {
    let (colours, _) = segment.get(6..).unwrap_or_default().as_chunks::<3>();
    let across = colours.iter().map(|[_, each, _]| usize::from(each >> 4));
    let down = colours.iter().map(|[_, each, _]| usize::from(each & 15));
    let samples: usize = across.clone().zip(down.clone()).map(|(a, b)| a * b).sum();
    let most = across.max().unwrap_or(1) * down.max().unwrap_or(1);
    let pixels = head.width.saturating_mul(head.height);
    let held = pixels.saturating_mul(2 * samples) / most.max(1);
    if held.saturating_add(3 * pixels) > MOST_ROOM {
        return Err(NoPhoto::PassesTooLarge {
            width: head.width,
            height: head.height,
        });
    }
    Ok(())
}

pub(super) fn broken(why: &str) -> NoPhoto {
    NoPhoto::Broken {
        kind: "JPEG",
        why: why.to_owned(),
    }
}
