use std::io::Cursor;

use image_webp::{DecodingError, WebPDecoder};

use super::photo::{Layout, Stored, as_rgb};
use super::{MOST_PIXELS, NoPhoto, check_size};

/// *Errors:* [`NoPhoto`].
pub(super) fn read(bytes: &[u8]) -> Result<Stored, NoPhoto> {
    check_length(bytes)?;
    let mut decoder = WebPDecoder::new(Cursor::new(bytes)).map_err(broken)?;
    decoder.set_memory_limit(4 * MOST_PIXELS);
    let (width, height) = decoder.dimensions();
    let (width, height) = (width as usize, height as usize);
    check_size(width, height)?;
    if decoder.is_animated() {
        return Err(NoPhoto::Moving);
    }
    let layout = if decoder.has_alpha() {
        Layout::RgbCover
    } else {
        Layout::Rgb
    };
    let length = decoder.output_buffer_size();
    let length = length.ok_or(NoPhoto::TooLarge { width, height })?;
    let mut pixels = vec![0; length];
    decoder.read_image(&mut pixels).map_err(broken)?;
    Ok(Stored {
        width,
        height,
        pixels: as_rgb(layout, pixels),
    })
}

/// The file says in its head how long it is (RFC 9649, 2.4).
fn check_length(bytes: &[u8]) -> Result<(), NoPhoto> {
    let size = bytes.len();
    let told = bytes.get(4..).and_then(<[u8]>::first_chunk);
    let told = told.map(|told| u64::from(u32::from_le_bytes(*told)));
    let is_whole = told.is_some_and(|told| told + 8 <= size as u64);
    is_whole.then_some(()).ok_or(NoPhoto::Cut { size })
}

fn broken(error: DecodingError) -> NoPhoto {
    NoPhoto::Broken {
        kind: "WebP",
        why: error.to_string(),
    }
}
