use super::NoPhoto;

/// What a file is by its first bytes, never by its name.
///
/// Records tell the same three apart; this room imports none, and says what the others are.
pub(super) enum Kind {
    /// ISO/IEC 10918-1.
    Jpeg,
    /// ISO/IEC 15948.
    Png,
    /// RFC 9649.
    Webp,
}

const TO_JPEG: &str = "set the camera to JPEG, or save this photo as JPEG first";
const NO_FILM: &str = "take a photo of the shoe, no film";
const NO_PAPER: &str = "choose the photo itself, as JPEG";

/// First bytes, what they tell, what to do.
const OTHERS: [(&[u8], &str, &str); 8] = [
    (b"GIF8", "a GIF picture", TO_JPEG),
    (b"BM", "a BMP picture", TO_JPEG),
    (b"II*\0", "a TIFF or raw picture", TO_JPEG),
    (b"MM\0*", "a TIFF or raw picture", TO_JPEG),
    (b"\xff\x0a", "a JPEG XL picture", TO_JPEG),
    (b"\0\0\0\x0cJXL ", "a JPEG XL picture", TO_JPEG),
    (b"%PDF", "a PDF", NO_PAPER),
    (b"PK\x03\x04", "a ZIP or office file", NO_PAPER),
];

/// Brands of files that are boxes within boxes (ISO/IEC 14496-12, from their ninth byte).
const BRANDS: [(&[u8], &str); 8] = [
    (b"hei", "a HEIC picture"),
    (b"hev", "a HEIC picture"),
    (b"mif", "a HEIC picture"),
    (b"msf", "a HEIC picture"),
    (b"avi", "an AVIF picture"),
    (b"crx", "a raw picture"),
    (b"jp2", "a JPEG 2000 picture"),
    (b"jxl", "a JPEG XL picture"),
];

/// *Errors:* [`NoPhoto`] where it is none of the three.
pub(super) fn kind_of(bytes: &[u8]) -> Result<Kind, NoPhoto> {
    if bytes.is_empty() {
        return Err(NoPhoto::Empty);
    }
    if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
        return Ok(Kind::Jpeg);
    }
    if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        return Ok(Kind::Png);
    }
    if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP".as_slice()) {
        return Ok(Kind::Webp);
    }
    Err(other(bytes))
}

fn other(bytes: &[u8]) -> NoPhoto {
    if bytes.get(4..8) == Some(b"ftyp".as_slice()) {
        let brand = bytes.get(8..).unwrap_or_default();
        let known = BRANDS.iter().find(|(begins, _)| brand.starts_with(begins));
        let (kind, mend) = known.map_or(("a film", NO_FILM), |(_, kind)| (*kind, TO_JPEG));
        return NoPhoto::OtherKind { kind, mend };
    }
    let known = OTHERS.iter().find(|(begins, ..)| bytes.starts_with(begins));
    known.map_or(NoPhoto::Unknown, |&(_, kind, mend)| NoPhoto::OtherKind {
        kind,
        mend,
    })
}
