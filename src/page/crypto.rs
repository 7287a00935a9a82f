//! Keys and signatures by the Web Cryptography API: ECDSA on P-256 with SHA-256.

use js_sys::{Array, Object, Promise, Reflect, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{CryptoKey, SubtleCrypto};

use crate::present::verify::{SignatureFound, Signed};
use crate::records::PublicKey;

/// Said where the browser has no such thing, as pages that are not served over https.
const MISSING: &str = "This browser makes no signatures here: the page must come over https, or \
    from this machine";

fn subtle() -> Option<SubtleCrypto> {
    let crypto = Reflect::get(&window(), &"crypto".into()).ok()?;
    let subtle = Reflect::get(&crypto, &"subtle".into()).ok()?;
    subtle.dyn_into().ok()
}

/// Whether this browser can sign and check.
pub(super) fn is_there() -> bool {
    subtle().is_some()
}

fn object(pairs: &[(&str, &str)]) -> Object {
    let object = Object::new();
    for (key, value) in pairs {
        // A fresh object takes any key.
        let _ = Reflect::set(&object, &(*key).into(), &(*value).into());
    }
    object
}

fn curve() -> Object {
    object(&[("name", "ECDSA"), ("namedCurve", "P-256")])
}

fn ecdsa() -> Object {
    object(&[("name", "ECDSA"), ("hash", "SHA-256")])
}

async fn done(promise: Result<Promise, JsValue>) -> Result<JsValue, JsValue> {
    JsFuture::from(promise?).await
}

fn why(error: &JsValue) -> String {
    let message = Reflect::get(error, &"message".into()).ok();
    let message = message.and_then(|message| message.as_string());
    message.unwrap_or_else(|| format!("{error:?}"))
}

/// A key pair whose private key never leaves the browser.
///
/// *Errors:* in words, for people.
pub(super) async fn make_pair() -> Result<JsValue, String> {
    let subtle = subtle().ok_or(MISSING)?;
    let uses = Array::of2(&"sign".into(), &"verify".into());
    let made = subtle.generate_key_with_object(&curve(), false, &uses);
    done(made).await.map_err(|error| why(&error))
}

fn key_of(pair: &JsValue, which: &str) -> Result<CryptoKey, String> {
    let key = Reflect::get(pair, &which.into()).map_err(|error| why(&error))?;
    key.dyn_into()
        .map_err(|_| "what this browser keeps is no key".to_owned())
}

/// The public key of a pair.
///
/// *Errors:* in words, for people.
pub(super) async fn public_key(pair: &JsValue) -> Result<PublicKey, String> {
    let subtle = subtle().ok_or(MISSING)?;
    let key = key_of(pair, "publicKey")?;
    let exported = done(subtle.export_key("spki", &key)).await;
    let der = Uint8Array::new(&exported.map_err(|error| why(&error))?).to_vec();
    PublicKey::of_der(der).map_err(|error| error.to_string())
}

/// The signature of a pair on `message`: 64 bytes.
///
/// *Errors:* in words, for people.
pub(super) async fn sign(pair: &JsValue, message: &[u8]) -> Result<Vec<u8>, String> {
    let subtle = subtle().ok_or(MISSING)?;
    let key = key_of(pair, "privateKey")?;
    let message = Uint8Array::from(message);
    let signed = subtle.sign_with_object_and_buffer_source(&ecdsa(), &key, &message);
    let signed = done(signed).await.map_err(|error| why(&error))?;
    Ok(Uint8Array::new(&signed).to_vec())
}

/// What checking `signed` finds.
pub(super) async fn check(signed: &Signed) -> SignatureFound {
    let Some(subtle) = subtle() else {
        return signed.found(None);
    };
    let fits = fits(&subtle, signed).await;
    // A key that is none of the curve fits nothing.
    signed.found(Some(fits.unwrap_or(false)))
}

async fn fits(subtle: &SubtleCrypto, signed: &Signed) -> Result<bool, JsValue> {
    let der = Uint8Array::from(signed.key.der());
    let uses = Array::of1(&"verify".into());
    let key = subtle.import_key_with_object("spki", &der, &curve(), true, &uses);
    let key: CryptoKey = done(key).await?.dyn_into()?;
    let value = Uint8Array::from(signed.value.as_slice());
    let message = Uint8Array::from(signed.message.as_slice());
    let checked = subtle.verify_with_object_and_buffer_source_and_buffer_source(
        &ecdsa(),
        &key,
        &value,
        &message,
    );
    Ok(done(checked).await?.is_truthy())
}
