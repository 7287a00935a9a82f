use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use super::NoPhoto;
use super::head::{broken, head};
use super::photo::Stored;

/// *Errors:* [`NoPhoto`].
pub(super) fn read(bytes: &[u8]) -> Result<Stored, NoPhoto> {
    let head = head(bytes)?;
    // Strict, so that what is missing is told and not filled with grey.
    let options = DecoderOptions::default()
        .set_strict_mode(true)
        .set_max_width(head.width)
        .set_max_height(head.height)
        .jpeg_set_out_colorspace(ColorSpace::RGB);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    let pixels = decoder
        .decode()
        .map_err(|error| broken(&format!("{error:?}")))?;
    if pixels.len() != 3 * head.width * head.height {
        return Err(broken("its picture has another size than its head says"));
    }
    Ok(Stored {
        width: head.width,
        height: head.height,
        pixels,
    })
}
