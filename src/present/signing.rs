//! Signing with a key of this device: what is said about it, and what is signed.

use super::start::sentence;
use crate::command::{Command, apply};
use crate::records::{
    Device, Ledger, MarkingId, PublicKey, Signature, SignedDigest, Stamp, in_groups,
};

/// What a signature proves, sentence by sentence.
pub const PROVES: [&str; 2] = [
    "What it proves: whoever had this browser profile sealed the marking, and nothing that the \
     seal covers was changed since.",
    "What it does not prove: who that person is, when it was, or that a reading was right.",
];

/// What to know about the key, sentence by sentence.
pub const KEY_DOES: [&str; 3] = [
    "The key is made by this browser and cannot be taken out of it. It is in no ledger file; \
     clearing the browser’s data or losing the device loses it, and then nothing more can be \
     signed with it. What was signed stays checkable.",
    "Save the public key once and give it to whoever is to check your sheets: it shows that a \
     signature is by this device.",
    "From then on each marking that is sealed in this browser is signed. What was sealed before \
     stays unsigned.",
];

/// A public key as the page shows and saves it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyShown {
    /// SHA-256 of the key, in groups of eight.
    pub fingerprint: String,
    /// The key as PEM.
    pub pem: String,
    /// What its file is called, without the ending.
    pub base: String,
}

impl KeyShown {
    /// `key` as it is shown.
    pub fn of(key: &PublicKey) -> Self {
        let fingerprint = key.fingerprint();
        let short: String = fingerprint.chars().take(8).collect();
        Self {
            fingerprint: in_groups(&fingerprint).join(" "),
            pem: key.pem(),
            base: format!("evenshod-key-{short}"),
        }
    }
}

/// The digest that `marking` is going to have once `commands` are carried out; `None`
/// where they do not seal it.
pub fn digest_to_sign(ledger: &Ledger, commands: &[Command], marking: MarkingId) -> Option<String> {
    // The seal covers no stamp, so any does.
    let stamp = Stamp::first(0, Device::new("", [0; 8]));
    let mut after = ledger.clone();
    for command in commands {
        let change = apply(&after, command.clone(), &stamp).ok()?;
        after = after.with(&change);
    }
    let seal = after.marking(marking)?.seal.as_ref()?;
    Some(seal.digest.clone())
}

/// `commands` with the signature in the one that seals.
pub fn with_signature(commands: Vec<Command>, signed: &SignedDigest) -> Vec<Command> {
    let with = commands.into_iter().map(|command| match command {
        Command::Seal {
            marking, seed, at, ..
        } => Command::Seal {
            marking,
            seed,
            at,
            signature: Some(Box::new(signed.clone())),
        },
        other => other,
    });
    with.collect()
}

/// What a key has signed, as it is kept.
pub fn signed_digest(digest: String, key: &PublicKey, value: &[u8]) -> SignedDigest {
    SignedDigest {
        signature: Signature::made(key, value),
        digest,
    }
}

/// What to say where a key is here and did not sign.
pub fn unsigned_words(why: &str) -> String {
    format!(
        "The marking is sealed without a signature, though this browser has a key: {}",
        sentence(why)
    )
}
