//! Pictures: how large they are kept, and what is said of them.

use super::start::sentence;
use crate::command::Command;
use crate::quantity::counted;
use crate::records::{Ledger, PictureBytes, sha256_hex, unused_pictures};
use crate::store::StoreError;

/// Pixels of an example beside a level: enough to fill a tablet.
pub const EXAMPLE_PIXELS: u32 = 1_200;
/// Pixels of a photo of a piece: enough to see a file mark on half a page of paper.
pub const PHOTO_PIXELS: u32 = 1_800;
/// How good a JPEG is, from 0 to 1: what no longer shows is left out.
pub const QUALITY: f64 = 0.82;
/// Files of more bytes are refused unread; no camera's JPEG comes near it.
const MOST_BYTES: u64 = 60_000_000;

/// What stands in the place of a picture that is not here.
pub const MISSING: &str = "This picture is not on this device. A ledger file of the device that \
                           has it brings it.";

/// What to say of a picture that cannot be fetched.
pub fn not_read(error: &StoreError) -> String {
    format!(
        "This picture cannot be read. {}",
        sentence(&error.to_string())
    )
}

/// What to say of a file that is too large to open; `None` where it is not.
pub fn too_heavy(bytes: u64) -> Option<String> {
    (bytes > MOST_BYTES).then(|| {
        format!(
            "The file has {} MB, and a picture may have {}. Choose a smaller one.",
            bytes / 1_000_000,
            MOST_BYTES / 1_000_000
        )
    })
}

/// What to say of a file that the browser cannot draw.
pub fn not_opened(name: &str, why: &str) -> String {
    let why = if why.is_empty() {
        String::new()
    } else {
        format!(" ({why})")
    };
    format!(
        "{name} is no picture that this browser can open{why}. Choose a JPEG, PNG or WebP, or \
         save it as JPEG first."
    )
}

/// Width and height in pixels, made smaller alike until neither passes `longest`; never
/// less than one.
pub fn fitted(width: u32, height: u32, longest: u32) -> (u32, u32) {
    let most = width.max(height).max(1);
    if most <= longest {
        return (width.max(1), height.max(1));
    }
    let scaled = |side: u32| {
        let side = u64::from(side) * u64::from(longest);
        let rounded = (side + u64::from(most) / 2) / u64::from(most);
        u32::try_from(rounded).unwrap_or(longest).max(1)
    };
    (scaled(width), scaled(height))
}

/// The digest of a picture and the command that keeps it.
pub fn kept_picture(bytes: Vec<u8>) -> (String, Command) {
    let digest = sha256_hex(&bytes);
    let bytes = PictureBytes::from(bytes);
    (digest, Command::KeepPicture { bytes })
}

/// Pictures that nothing names any more, in words; `None` where there are none.
pub fn unused_words(ledger: &Ledger) -> Option<String> {
    let count = unused_pictures(ledger).len();
    let are = if count == 1 { "is" } else { "are" };
    (count > 0).then(|| {
        format!(
            "{} {are} named by no rubric and no marking any more.",
            counted(count, "picture", "pictures")
        )
    })
}
