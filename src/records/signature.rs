//! The signature of a device on a seal, and the public key that it is checked with.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::seal::sha256_hex;

/// What every public key of the curve P-256 begins with as SubjectPublicKeyInfo in DER:
/// the algorithm and the mark of an uncompressed point (RFC 5480, sections 2.1 and 2.2).
const P256_HEAD: [u8; 27] = [
    0x30, 0x59, 0x30, 0x13, 0x06, 0x07, 0x2a, 0x86, 0x48, 0xce, 0x3d, 0x02, 0x01, 0x06, 0x08, 0x2a,
    0x86, 0x48, 0xce, 0x3d, 0x03, 0x01, 0x07, 0x03, 0x42, 0x00, 0x04,
];
/// The head and two coordinates of 32 bytes.
const P256_LENGTH: usize = 91;
const PEM_HEAD: &str = "-----BEGIN PUBLIC KEY-----";
const PEM_FOOT: &str = "-----END PUBLIC KEY-----";
/// Letters in a line of PEM (RFC 7468, section 2).
const PEM_LINE: usize = 64;
/// Bytes of a signature: two numbers of 32 bytes.
const SIGNATURE_LENGTH: usize = 64;

/// How a device signs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SignatureAlgorithm {
    /// ECDSA on the curve P-256 with SHA-256 (FIPS 186-5).
    EcdsaP256Sha256,
}

/// What a device's key says to a seal. It stands beside the seal, which does not cover it.
///
/// *What is signed:* the seal's digest as its 64 lower-case hex letters in UTF-8
/// ([`Signature::signed_bytes`]).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// How.
    pub algorithm: SignatureAlgorithm,
    /// The public key: SubjectPublicKeyInfo in DER, as base64.
    pub public_key: String,
    /// The two numbers of the signature, 32 bytes each, as base64 (the form that IEEE
    /// 1363 and the Web Cryptography API use).
    pub value: String,
}

impl Signature {
    /// The bytes that are signed for a seal of this digest.
    pub fn signed_bytes(digest: &str) -> &[u8] {
        digest.as_bytes()
    }

    /// A signature that a key has made.
    pub fn made(key: &PublicKey, value: &[u8]) -> Self {
        Self {
            algorithm: SignatureAlgorithm::EcdsaP256Sha256,
            public_key: key.base64(),
            value: STANDARD.encode(value),
        }
    }

    /// The key that it says it is made with.
    ///
    /// *Errors:* [`KeyTextError`].
    pub fn key(&self) -> Result<PublicKey, KeyTextError> {
        PublicKey::of_base64(&self.public_key)
    }

    /// Its two numbers as 64 bytes; `None` where they are no such.
    pub fn bytes(&self) -> Option<Vec<u8>> {
        let bytes = STANDARD.decode(&self.value).ok()?;
        (bytes.len() == SIGNATURE_LENGTH).then_some(bytes)
    }
}

/// A signature with the digest that it was made for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignedDigest {
    /// SHA-256 of the sealed document, as lower-case hex.
    pub digest: String,
    /// The signature.
    pub signature: Signature,
}

/// Why a text is no public key that signs seals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum KeyTextError {
    /// Neither PEM nor base64.
    #[error(
        "this is no public key; choose the file that was saved on the page Ledger, which begins \
         with -----BEGIN PUBLIC KEY-----"
    )]
    NoKey,
    /// A key that no seal is signed with.
    #[error(
        "this is a key of another kind; seals are signed with keys of the curve P-256, saved on \
         the page Ledger"
    )]
    OtherKind,
}

/// A public key of the curve P-256.
///
/// *What is guaranteed:* it is SubjectPublicKeyInfo in DER with an uncompressed point;
/// whether the point lies on the curve is found out by whoever checks a signature.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PublicKey(Vec<u8>);

impl PublicKey {
    /// The key in these bytes of DER.
    ///
    /// *Errors:* [`KeyTextError::OtherKind`].
    pub fn of_der(der: Vec<u8>) -> Result<Self, KeyTextError> {
        if der.len() == P256_LENGTH && der.starts_with(&P256_HEAD) {
            Ok(Self(der))
        } else {
            Err(KeyTextError::OtherKind)
        }
    }

    /// The key in a text: PEM (RFC 7468), with whatever stands around it, or base64 alone.
    ///
    /// *Errors:* [`KeyTextError`].
    pub fn read(text: &str) -> Result<Self, KeyTextError> {
        let inside = match text.split_once(PEM_HEAD) {
            Some((_, rest)) => rest.split_once(PEM_FOOT).ok_or(KeyTextError::NoKey)?.0,
            None => text,
        };
        let letters: String = inside.split_whitespace().collect();
        Self::of_base64(&letters)
    }

    fn of_base64(text: &str) -> Result<Self, KeyTextError> {
        let der = STANDARD.decode(text).map_err(|_| KeyTextError::NoKey)?;
        if der.is_empty() {
            return Err(KeyTextError::NoKey);
        }
        Self::of_der(der)
    }

    /// The key in DER.
    pub fn der(&self) -> &[u8] {
        &self.0
    }

    fn base64(&self) -> String {
        STANDARD.encode(&self.0)
    }

    /// The key as PEM (RFC 7468), with a line feed at its end.
    pub fn pem(&self) -> String {
        let mut pem = format!("{PEM_HEAD}\n");
        for (at, letter) in self.base64().chars().enumerate() {
            if at > 0 && at % PEM_LINE == 0 {
                pem.push('\n');
            }
            pem.push(letter);
        }
        pem.push_str(&format!("\n{PEM_FOOT}\n"));
        pem
    }

    /// SHA-256 of the key in DER, as lower-case hex: what people compare.
    pub fn fingerprint(&self) -> String {
        sha256_hex(&self.0)
    }
}
