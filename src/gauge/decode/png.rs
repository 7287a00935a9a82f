use std::io::{Cursor, ErrorKind};

use png::{ColorType, Decoder, DecodingError, Transformations};

use super::photo::{Layout, Stored, as_rgb};
use super::{NoPhoto, check_size};

/// *Errors:* [`NoPhoto`].
pub(super) fn read(bytes: &[u8]) -> Result<Stored, NoPhoto> {
    let told = |error| no_photo(error, bytes.len());
    let mut decoder = Decoder::new(Cursor::new(bytes));
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    decoder.set_transformations(Transformations::normalize_to_color8());
    let info = decoder.read_header_info().map_err(told)?;
    let (width, height) = (info.width as usize, info.height as usize);
    check_size(width, height)?;
    let mut reader = decoder.read_info().map_err(told)?;
    if reader.info().animation_control.is_some() {
        return Err(NoPhoto::Moving);
    }
    let layout = match reader.output_color_type().0 {
        ColorType::Grayscale => Layout::Grey,
        ColorType::GrayscaleAlpha => Layout::GreyCover,
        ColorType::Rgb => Layout::Rgb,
        ColorType::Rgba => Layout::RgbCover,
        ColorType::Indexed => return Err(broken("its palette is missing".to_owned())),
    };
    let mut pixels = vec![0; reader.output_buffer_size()];
    reader.next_frame(&mut pixels).map_err(told)?;
    Ok(Stored {
        width,
        height,
        pixels: as_rgb(layout, pixels),
    })
}

fn no_photo(error: DecodingError, size: usize) -> NoPhoto {
    match error {
        DecodingError::IoError(error) if error.kind() == ErrorKind::UnexpectedEof => {
            NoPhoto::Cut { size }
        }
        error => broken(error.to_string()),
    }
}

fn broken(why: String) -> NoPhoto {
    NoPhoto::Broken { kind: "PNG", why }
}
