use std::time::Duration;

use js_sys::{Array, Uint8Array};
use leptos::prelude::{document, set_timeout};
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Long enough for any browser to have read the file.
const READ_BY_THEN: Duration = Duration::from_secs(60);

/// A kind of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Comma-separated values with a header line.
    Csv,
    /// JSON.
    Json,
    /// Pages to print and to read.
    Pdf,
    /// A public key.
    Pem,
    /// Words alone.
    Text,
    /// A rubric.
    Toml,
    /// Several files in one.
    Zip,
}

impl Kind {
    fn ending(self) -> &'static str {
        match self {
            Self::Csv => "csv",
            Self::Json => "json",
            Self::Pdf => "pdf",
            Self::Pem => "pem",
            Self::Text => "txt",
            Self::Toml => "toml",
            Self::Zip => "zip",
        }
    }

    fn media_type(self) -> &'static str {
        match self {
            Self::Csv => "text/csv;charset=utf-8;header=present",
            Self::Json => "application/json",
            Self::Pdf => "application/pdf",
            Self::Pem => "application/x-pem-file",
            Self::Text => "text/plain;charset=utf-8",
            Self::Toml => "application/toml",
            Self::Zip => "application/zip",
        }
    }
}

/// Hands `text` to the browser as a file called `base` with its kind's ending.
///
/// *Errors:* in words, for people.
pub(super) fn offer(base: &str, kind: Kind, text: &str) -> Result<(), String> {
    offer_part(base, kind, &JsValue::from_str(text)).map(|_| ())
}

/// The same with bytes; gives the name.
///
/// *Errors:* in words, for people.
pub(super) fn offer_bytes(base: &str, kind: Kind, bytes: &[u8]) -> Result<String, String> {
    offer_part(base, kind, &Uint8Array::from(bytes).into())
}

fn offer_part(base: &str, kind: Kind, part: &JsValue) -> Result<String, String> {
    let name = format!("{base}.{}", kind.ending());
    let clicked = click_on_file(&name, kind.media_type(), part);
    clicked.map_err(|error| {
        let why = match error.dyn_into::<js_sys::Error>() {
            Ok(error) => String::from(error.message()),
            Err(other) => format!("{other:?}"),
        };
        format!("This browser did not take the file {name} ({why}). Try another browser.")
    })?;
    Ok(name)
}

fn click_on_file(name: &str, media_type: &str, part: &JsValue) -> Result<(), JsValue> {
    let properties = BlobPropertyBag::new();
    properties.set_type(media_type);
    let parts = Array::of1(part);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &properties)?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    set_timeout(
        // An address that is gone already is what is wanted.
        move || drop(Url::revoke_object_url(&url)),
        READ_BY_THEN,
    );
    Ok(())
}
