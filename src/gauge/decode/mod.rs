//! The picture of a photo file, upright, and what the camera noted of its lens.
//!
//! *What:* [`decode`] reads JPEG, PNG and WebP into a [`Photo`]: grey, palettes and 16 bits
//! become red, green and blue of 8, and what shows through is white, as paper is. Colour
//! profiles are left out: edges stand where they are in any of them.
//!
//! *Invariant.* Whatever the bytes are, the answer is a picture that is whole or a [`NoPhoto`].
//! Size is refused from the head, before room is made for a pixel, and no more than about ten
//! bytes a pixel are held at once. What a camera noted never refuses a picture.

mod density;
mod exif;
mod head;
mod jpeg;
mod kind;
mod no_photo;
mod photo;
mod png;
mod turn;
mod webp;

pub use exif::{Lens, Written};
pub use no_photo::NoPhoto;
pub use photo::Photo;

use kind::{Kind, kind_of};
use photo::Stored;

/// Photos of more pixels are refused: a device may not have room for them.
pub const MOST_PIXELS: usize = 50_000_000;
/// Photos with fewer pixels on the short side are refused: on a sheet that fills it, one would
/// be most of a millimetre.
pub const LEAST_SIDE: usize = 300;

/// The photo of a file, upright.
///
/// *Errors:* [`NoPhoto`], which says why there is none and what to do.
pub fn decode(bytes: &[u8]) -> Result<Photo, NoPhoto> {
    let kind = kind_of(bytes)?;
    let stored = match kind {
        Kind::Jpeg => jpeg::read(bytes)?,
        Kind::Png => png::read(bytes)?,
        Kind::Webp => webp::read(bytes)?,
    };
    let noted = exif::noted(bytes, stored.width, stored.height);
    let Stored {
        width,
        height,
        pixels,
    } = turn::upright(stored, noted.turn);
    Ok(Photo {
        width,
        height,
        pixels,
        lens: noted.lens,
        density: density::density(bytes, &kind),
    })
}

/// *Errors:* [`NoPhoto`] of a size that is not measured.
fn check_size(width: usize, height: usize) -> Result<(), NoPhoto> {
    if width.saturating_mul(height) > MOST_PIXELS {
        return Err(NoPhoto::TooLarge { width, height });
    }
    if width.min(height) < LEAST_SIDE {
        return Err(NoPhoto::TooSmall { width, height });
    }
    Ok(())
}
