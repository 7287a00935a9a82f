//! The key of this browser profile, kept and used.

use wasm_bindgen::JsValue;

use super::crypto;
use crate::present::{sentence, signed_digest};
use crate::records::{PublicKey, Signature, SignedDigest};
use crate::store::key_store;

/// A key pair of this browser profile.
#[derive(Debug)]
pub(super) struct DeviceKey {
    pair: JsValue,
    public: PublicKey,
}

impl DeviceKey {
    async fn of(pair: JsValue) -> Result<Self, String> {
        let public = crypto::public_key(&pair).await?;
        Ok(Self { pair, public })
    }

    /// The one that is kept; `None` where none was made, or nothing can be signed here.
    ///
    /// *Errors:* in words, for people.
    pub(super) async fn kept() -> Result<Option<Self>, String> {
        if !crypto::is_there() {
            return Ok(None);
        }
        let kept = key_store::load().await;
        match kept.map_err(|error| sentence(&error.to_string()))? {
            Some(pair) => Ok(Some(Self::of(pair).await?)),
            None => Ok(None),
        }
    }

    /// Makes one and keeps it; the one that is kept already, where there is one.
    ///
    /// *Errors:* in words, for people.
    pub(super) async fn make() -> Result<Self, String> {
        let pair = crypto::make_pair().await?;
        let kept = key_store::keep(pair).await;
        Self::of(kept.map_err(|error| sentence(&error.to_string()))?).await
    }

    /// Its public part.
    pub(super) fn public(&self) -> &PublicKey {
        &self.public
    }

    /// Signs a digest.
    ///
    /// *Errors:* in words, for people.
    pub(super) async fn sign(&self, digest: String) -> Result<SignedDigest, String> {
        let value = crypto::sign(&self.pair, Signature::signed_bytes(&digest)).await?;
        Ok(signed_digest(digest, &self.public, &value))
    }
}
