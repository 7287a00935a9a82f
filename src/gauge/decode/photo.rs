use super::exif::Lens;

/// A photo as it was seen through the camera: upright.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// As many columns.
    pub width: usize,
    /// As many rows.
    pub height: usize,
    /// Red, green and blue of 8 bits each, row by row from the top, as they are coded.
    pub pixels: Vec<u8>,
    /// What the camera noted of its lens; `None` where it noted nothing that can be true.
    pub lens: Option<Lens>,
    /// Dots per inch of a scan; `None` where the file tells none that can be true.
    pub density: Option<f64>,
}

impl Photo {
    /// Focal length in pixels and the standard uncertainty of its natural logarithm, as far as
    /// the file tells.
    pub fn focal(&self) -> Option<(f64, f64)> {
        let (focal, unsure) = self.lens?.focal(self.width, self.height);
        Some((focal, unsure / focal))
    }
}

/// A picture as it is stored, red, green and blue, row by row.
pub(super) struct Stored {
    /// As many columns.
    pub(super) width: usize,
    /// As many rows.
    pub(super) height: usize,
    /// Three bytes a pixel.
    pub(super) pixels: Vec<u8>,
}

/// How a pixel is laid down, 8 bits each.
#[derive(Clone, Copy)]
pub(super) enum Layout {
    /// One.
    Grey,
    /// Two, the second how much it covers.
    GreyCover,
    /// Three.
    Rgb,
    /// Four, the last how much it covers.
    RgbCover,
}

/// Three bytes a pixel; what shows through is white.
pub(super) fn as_rgb(layout: Layout, pixels: Vec<u8>) -> Vec<u8> {
    let cells = |each: &dyn Fn(&mut Vec<u8>)| {
        let mut rgb = Vec::new();
        each(&mut rgb);
        rgb
    };
    match layout {
        Layout::Rgb => pixels,
        Layout::Grey => cells(&|rgb| {
            rgb.reserve_exact(3 * pixels.len());
            rgb.extend(pixels.iter().flat_map(|grey| [*grey; 3]));
        }),
        Layout::GreyCover => cells(&|rgb| {
            let (cells, _) = pixels.as_chunks();
            rgb.reserve_exact(3 * cells.len());
            let on_white = cells.iter().map(|[grey, cover]| over_white(*grey, *cover));
            rgb.extend(on_white.flat_map(|grey| [grey; 3]));
        }),
        Layout::RgbCover => cells(&|rgb| {
            let (cells, _) = pixels.as_chunks();
            rgb.reserve_exact(3 * cells.len());
            rgb.extend(cells.iter().flat_map(|[red, green, blue, cover]| {
                [*red, *green, *blue].map(|value| over_white(value, *cover))
            }));
        }),
    }
}

/// A value that covers white so far, of 255.
fn over_white(value: u8, cover: u8) -> u8 {
    let (value, cover) = (u16::from(value), u16::from(cover));
    let sum = value * cover + 255 * (255 - cover);
    u8::try_from((sum + 127) / 255).unwrap_or(u8::MAX)
}
