use super::kind::Kind;

/// How finely a scan was taken, in dots per inch, as far as the file tells; `None` too where it
/// differs from side to side.
///
/// *Source:* JFIF 1.02 (ITU-T T.871), the density of its APP0 segment; ISO/IEC 15948, 11.3.5.3,
/// pHYs.
pub(super) fn density(bytes: &[u8], kind: &Kind) -> Option<f64> {
    let dots = match kind {
        Kind::Jpeg => of_jfif(bytes),
        Kind::Png => of_png(bytes),
        Kind::Webp => None,
    }?;
    let is_told = POSSIBLE.contains(&dots) && !STAND_INS.contains(&dots.round());
    is_told.then_some(dots)
}

/// What scanners give, in dots per inch.
const POSSIBLE: std::ops::RangeInclusive<f64> = 50.0..=9_600.0;
/// What programs write that know of no density; common practice, no source.
const STAND_INS: [f64; 2] = [72.0, 96.0];
const INCH_IN_CM: f64 = 2.54;
const INCH_IN_M: f64 = 0.0254;

/// The segment comes first of all.
fn of_jfif(bytes: &[u8]) -> Option<f64> {
    let segment = bytes.get(2..)?.strip_prefix(&[0xff, 0xe0])?;
    let (told, _) = segment
        .get(2..)?
        .strip_prefix(b"JFIF\0")?
        .split_first_chunk()?;
    let [_, _, unit, high, low, other_high, other_low] = *told;
    let across = u16::from_be_bytes([high, low]);
    let scale = match unit {
        1 => 1.0,
        2 => INCH_IN_CM,
        _ => return None,
    };
    let is_square = across == u16::from_be_bytes([other_high, other_low]);
    is_square.then(|| f64::from(across) * scale)
}

fn of_png(bytes: &[u8]) -> Option<f64> {
    let mut rest = bytes.get(8..)?;
    loop {
        let (length, after) = rest.split_first_chunk()?;
        let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
        let (kind, after) = after.split_first_chunk::<4>()?;
        match kind {
            b"pHYs" => {
                let (across, after) = after.split_first_chunk()?;
                let (down, after) = after.split_first_chunk()?;
                let is_square = across == down && after.first() == Some(&1);
                let dots = f64::from(u32::from_be_bytes(*across)) * INCH_IN_M;
                return is_square.then_some(dots);
            }
            // It comes before the pixels.
            b"IDAT" => return None,
            _ => rest = after.get(length.checked_add(4)?..)?,
        }
    }
}
