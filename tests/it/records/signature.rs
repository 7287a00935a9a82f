//! Signatures checked by a library that this program is not made of.

use evenshod::records::{KeyTextError, PublicKey, Signature, sha256_hex};
use p256::ecdsa::signature::{Signer as _, Verifier as _};
use p256::ecdsa::{SigningKey, VerifyingKey};
use p256::pkcs8::{DecodePublicKey as _, EncodePublicKey as _};
use proptest::prelude::*;

use super::sample::{PUBLIC_KEY, signature};

/// As OpenSSL 3.0 wrote the key of the sample.
const PEM: &str = "-----BEGIN PUBLIC KEY-----
MFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAEpAFYSoS9xq96hWHVeQXjuyyx3zzr
7qnsioCk53TEgTeKGua8IQ4/259Jo0yqvZYZX+38+Y3Ei0GFTh4ST1SToQ==
-----END PUBLIC KEY-----
";

fn stands(signature: &Signature, digest: &str) -> bool {
    let key = VerifyingKey::from_public_key_der(signature.key().unwrap().der()).unwrap();
    let value = p256::ecdsa::Signature::from_slice(&signature.bytes().unwrap()).unwrap();
    key.verify(Signature::signed_bytes(digest), &value).is_ok()
}

#[test]
fn what_openssl_signed_is_checked_from_what_is_kept() {
    let digest = sha256_hex(b"abc");
    assert!(stands(&signature(), &digest));
    assert!(!stands(&signature(), &sha256_hex(b"abd")));
}

#[test]
fn what_another_library_signs_is_kept_whole() {
    let signer = SigningKey::from_slice(&[7; 32]).unwrap();
    let der = signer.verifying_key().to_public_key_der().unwrap();
    let key = PublicKey::of_der(der.as_bytes().to_vec()).unwrap();
    let digest = sha256_hex(b"abc");
    let value: p256::ecdsa::Signature = signer.sign(Signature::signed_bytes(&digest));
    let made = Signature::made(&key, &value.to_bytes());
    assert_eq!(made.key(), Ok(key));
    assert!(stands(&made, &digest));
}

#[test]
fn a_key_is_written_as_openssl_writes_it_and_read_back() {
    let key = PublicKey::read(PUBLIC_KEY).unwrap();
    assert_eq!(key.pem(), PEM);
    assert_eq!(PublicKey::read(PEM), Ok(key.clone()));
    let around = format!("my key\r\n{}\r\nend", PEM.replace('\n', "\r\n"));
    assert_eq!(PublicKey::read(&around), Ok(key.clone()));
    // `openssl pkey -pubin -outform DER | sha256sum`.
    assert_eq!(
        key.fingerprint(),
        "247f426a754a323f1d8765ae8b9791b2e987f7195fb871af1595d12683e8ee83"
    );
}

#[test]
fn what_is_no_key_is_told_apart_from_another_kind_of_key() {
    for text in ["", "key", "-----BEGIN PUBLIC KEY-----\nMFkw", "{\"a\":1}"] {
        assert_eq!(PublicKey::read(text), Err(KeyTextError::NoKey), "{text}");
    }
    let other = PUBLIC_KEY.replace("DAQcDQgAE", "DAQcDQgAC");
    for text in [&*other, "AAAA", &PUBLIC_KEY[..40]] {
        let found = PublicKey::read(text);
        assert_eq!(found, Err(KeyTextError::OtherKind), "{text}");
    }
    let mut broken = signature();
    broken.value = "AAAA".to_owned();
    assert_eq!(broken.bytes(), None);
}

proptest! {
    #[test]
    fn no_text_panics_and_what_reads_is_written_alike(text in "\\PC{0,120}", cut in 0..180_usize) {
        let _ = PublicKey::read(&text);
        let part: String = PEM.chars().take(cut).chain(text.chars()).collect();
        if let Ok(key) = PublicKey::read(&part) {
            prop_assert_eq!(PublicKey::read(&key.pem()), Ok(key));
        }
    }
}
