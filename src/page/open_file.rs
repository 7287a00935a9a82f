//! Files that a person chooses.

use js_sys::Uint8Array;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File};

use crate::present::not_handed_over;

/// How large a file is, in bytes.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a size in bytes; `as` cuts what passes the range"
)]
pub(super) fn size_of(file: &File) -> u64 {
    file.size() as u64
}

/// What is in a file.
///
/// *Errors:* in words, for people.
pub(super) async fn bytes_of(file: &Blob) -> Result<Vec<u8>, String> {
    match JsFuture::from(file.array_buffer()).await {
        Ok(buffer) => Ok(Uint8Array::new(&buffer).to_vec()),
        Err(error) => {
            let why = error.dyn_into::<web_sys::DomException>();
            Err(not_handed_over(&why.map_or_else(
                |other| format!("{other:?}"),
                |why| why.message(),
            )))
        }
    }
}
